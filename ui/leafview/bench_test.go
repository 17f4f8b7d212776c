package leafview

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// crowded returns n damages of 20 points strewn over a leaf of w×h pixels.
func crowded(n int, w, h float64) Scene {
	rng := rand.New(rand.NewPCG(9, 10))
	sc := Scene{Frame: UniformFrame(25.4/600, 25.4/600), TrueEdge: path(0, 0, w, 0, w, h, 0, h)}
	kinds := []Kind{Tear, Loss, Split, Weak, Nicks}
	for i := range n {
		k := kinds[i%len(kinds)]
		at := geom.Pt{X: w * rng.Float64(), Y: h * rng.Float64()}
		sh := Shape{Ref: i + 1, Kind: k, Closed: k == Loss || k == Weak, Label: fmt.Sprint(i + 1)}
		for j := range 20 {
			if sh.Closed {
				sin, cos := math.Sincos(2 * math.Pi * float64(j) / 20)
				r := 40 + 30*rng.Float64()
				sh.Points = append(sh.Points, at.Add(geom.Pt{X: r * cos, Y: r * sin}))
				continue
			}
			at = at.Add(geom.Pt{X: 8 + 10*rng.Float64(), Y: 16*rng.Float64() - 8})
			sh.Points = append(sh.Points, at)
		}
		sc.Shapes = append(sc.Shapes, sh)
		if i%4 == 0 {
			ring := shifted(sh.Points, geom.Pt{Y: -14})
			sc.Pieces = append(sc.Pieces, PieceShape{Label: sh.Label, Ref: sh.Ref, GrainDeg: 30,
				Rings: [][]geom.Pt{append(ring, reversed(shifted(sh.Points, geom.Pt{Y: 14}))...)}})
		}
	}
	return sc
}

// busySurface is a window of 1920×1080 device pixels on a leaf with 2,000
// damages, 40,000 points, all in sight.
func busySurface(b *testing.B) *Surface {
	b.Helper()
	s := New()
	s.after = func(time.Duration, func()) func() { return func() {} } // the hand never rests
	s.BaseWidget.Resize(fyne.NewSize(1920, 1080))
	s.setDevice(1920, 1080)
	s.SetPicture(newPrinted(2400, 1600))
	s.SetScene(crowded(2000, 2400, 1600))
	s.frame(1920, 1080)
	return s
}

// BenchmarkDragPoint is the whole of one move of a point: the pointer, its
// snapping, and the frame.
func BenchmarkDragPoint(b *testing.B) {
	s := busySurface(b)
	sh := s.scene.Shapes[5]
	s.Select(sh.Ref)
	at := s.view.ToDevice(sh.Points[10])
	pos := fyne.NewPos(float32(at.X), float32(at.Y))
	e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos}, Button: desktop.MouseButtonPrimary}
	s.MouseDown(e)
	for i := range 4 {
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos.AddXY(float32(i*4), 8)}})
		s.frame(1920, 1080)
	}
	defer cpu(b)()
	for i := range b.N {
		d := float32(i % 60)
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos.AddXY(d, 30-d)}})
		s.frame(1920, 1080)
	}
}

// BenchmarkBeginDrag is the press that chooses one damage of 2,000 and the
// first move of its point, with the frame after each; the owner of the job
// hands in another scene for the press, as the program does.
func BenchmarkBeginDrag(b *testing.B) {
	s := busySurface(b)
	sc := s.scene
	s.OnSelect = func([]int) { s.SetScene(sc) }
	defer cpu(b)()
	for i := range b.N {
		sh := sc.Shapes[(i*37)%len(sc.Shapes)]
		at := s.view.ToDevice(sh.Points[10])
		pos := fyne.NewPos(float32(at.X), float32(at.Y))
		s.Select(sh.Ref)
		s.OnSelect(nil)
		s.frame(1920, 1080)
		s.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos}, Button: desktop.MouseButtonPrimary})
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos.AddXY(9, 9)}})
		s.frame(1920, 1080)
		s.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos.AddXY(9, 9)}, Button: desktop.MouseButtonPrimary})
		s.frame(1920, 1080)
	}
}

// BenchmarkZoom zooms in and out about the middle with 2,000 damages.
func BenchmarkZoom(b *testing.B) {
	s := busySurface(b)
	defer cpu(b)()
	for i := range b.N {
		s.zoomAt(s.middle(), []float64{1.08, 1.08, 1 / 1.08, 1 / 1.08}[i%4])
		s.frame(1920, 1080)
	}
}

// BenchmarkWholeLeaf draws all 2,000 damages and 500 pieces anew, as once the
// view stands still.
func BenchmarkWholeLeaf(b *testing.B) {
	s := busySurface(b)
	defer cpu(b)()
	for range b.N {
		s.layers.dropAll()
		s.frame(1920, 1080)
	}
}

// BenchmarkDragAll drags all 2,000 damages at once.
func BenchmarkDragAll(b *testing.B) {
	s := busySurface(b)
	s.SelectAll()
	at := s.view.ToDevice(s.scene.Shapes[5].Points[10].Lerp(s.scene.Shapes[5].Points[11], 0.5))
	pos := fyne.NewPos(float32(at.X), float32(at.Y))
	s.points = nil
	s.hand.start = at
	t := s.tool.(*selectTool)
	t.from, t.armed = s.view.ToScan(at), gripShape
	s.hand.mode, s.hand.button = tooling, desktop.MouseButtonPrimary
	defer cpu(b)()
	for i := range b.N {
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: pos.AddXY(float32(i%60)+9, 9)}})
		s.frame(1920, 1080)
	}
}

// BenchmarkPan moves the view over 2,000 damages.
func BenchmarkPan(b *testing.B) {
	s := busySurface(b)
	defer cpu(b)()
	for i := range b.N {
		s.pan(geom.Pt{X: float64(i%2*2 - 1), Y: 0})
		s.frame(1920, 1080)
	}
}

// BenchmarkPanOrdinary is the same on a leaf with 40 damages.
func BenchmarkPanOrdinary(b *testing.B) {
	s := busySurface(b)
	s.SetScene(crowded(40, 2400, 1600))
	s.frame(1920, 1080)
	defer cpu(b)()
	for i := range b.N {
		s.pan(geom.Pt{X: float64(i%2*2 - 1), Y: 0})
		s.frame(1920, 1080)
	}
}

// BenchmarkZoomedIn pans where a hundredth of the leaf is in sight.
func BenchmarkZoomedIn(b *testing.B) {
	s := busySurface(b)
	s.zoomAt(s.middle(), 10)
	defer cpu(b)()
	for i := range b.N {
		s.pan(geom.Pt{X: float64(i%2*2 - 1), Y: 0})
		s.frame(1920, 1080)
	}
}

// BenchmarkHover moves the pointer with a drawing tool in hand.
func BenchmarkHover(b *testing.B) {
	s := busySurface(b)
	s.SetTool(TearTool)
	s.frame(1920, 1080)
	defer cpu(b)()
	for i := range b.N {
		s.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(400+i%300), 500)}})
		s.frame(1920, 1080)
	}
}

// BenchmarkLocalContrast is the filter that brings out faint tears.
func BenchmarkLocalContrast(b *testing.B) {
	s := busySurface(b)
	s.filter = Filter{Local: 0.5}
	defer cpu(b)()
	for range b.N {
		s.layers.baseOK = false
		s.paintBase(s.layers.base, s.view, false)
	}
}

// BenchmarkSetScene is what every edit costs before it is drawn.
func BenchmarkSetScene(b *testing.B) {
	s := busySurface(b)
	sc := s.scene
	defer cpu(b)()
	for range b.N {
		s.SetScene(sc)
	}
}
