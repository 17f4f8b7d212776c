package leafview

import (
	"bytes"
	"image"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// TestManyDraggedTogetherAreShownWhereTheyAre drags 100 damages about, far
// enough that those out of sight come in: each frame is the one that drawing
// their lines anew gives, and letting go moves every damage by the whole way.
func TestManyDraggedTogetherAreShownWhereTheyAre(t *testing.T) {
	s := New()
	s.BaseWidget.Resize(fyne.NewSize(600, 400))
	s.setDevice(600, 400)
	s.SetPicture(newPrinted(2400, 1600))
	s.SetScene(crowded(100, 2400, 1600))
	s.zoomAt(geom.Pt{X: 300, Y: 200}, 2/s.view.Scale)
	s.frame(600, 400)
	var got []Geometry
	s.OnEdit = func(e Edit) { got = e.(Change).Shapes }
	s.SelectAll()
	s.points = nil
	tool := s.tool.(*selectTool)
	from := geom.Pt{X: 300, Y: 200}
	s.hand.start = from
	tool.from, tool.armed = s.view.ToScan(from), gripShape
	s.hand.mode, s.hand.button = tooling, desktop.MouseButtonPrimary
	inked := 0
	for _, to := range []geom.Pt{{X: 310, Y: 200}, {X: 330, Y: 190}, {X: 550, Y: 390}, {X: 20, Y: 30}, {X: 100, Y: 150}} {
		s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(to.X), float32(to.Y))}})
		had := slices.Clone(s.frame(600, 400).(*image.RGBA).Pix)
		tool.stamp = stamp{}
		anew := s.frame(600, 400).(*image.RGBA).Pix
		if !bytes.Equal(had, anew) {
			t.Errorf("dragged to %v, the frame differs from the one drawn anew", to)
		}
		if !bytes.Equal(anew, s.layers.still.Pix) {
			inked++
		}
	}
	if inked < 5 {
		t.Errorf("only %d of 5 frames showed what is dragged", inked)
	}
	end := fyne.NewPos(100, 150)
	s.MouseUp(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: end}, Button: desktop.MouseButtonPrimary})
	if len(got) != 100 {
		t.Fatalf("%d damages were moved, want 100", len(got))
	}
	want := s.view.ToScan(geom.Pt{X: 100, Y: 150}).Sub(s.view.ToScan(from))
	for i, g := range got {
		if d := g.Points[0].Sub(s.scene.Shapes[i].Points[0]); d.Dist(want) > 1e-6 {
			t.Fatalf("damage %d moved by %v, want %v", g.Ref, d, want)
		}
	}
}
