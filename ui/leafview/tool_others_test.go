package leafview

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

func TestRetracingAStretch(t *testing.T) {
	for _, c := range []struct {
		name  string
		shape Shape
		xy    []float64
		want  []geom.Pt
	}{
		{"of a tear", Shape{Ref: 1, Kind: Tear, Points: path(50, 50, 150, 50, 250, 50, 350, 50)},
			[]float64{100, 52, 200, 90, 300, 49}, path(50, 50, 100, 50, 200, 90, 300, 50, 350, 50)},
		{"of a tear against its direction", Shape{Ref: 1, Kind: Tear, Points: path(50, 50, 150, 50, 250, 50, 350, 50)},
			[]float64{300, 50, 200, 90, 100, 50}, path(50, 50, 100, 50, 200, 90, 300, 50, 350, 50)},
		{"of a loss replaces the shorter arc", Shape{Ref: 1, Kind: Loss, Closed: true, Points: path(100, 100, 300, 100, 300, 300, 100, 300)},
			[]float64{130, 100, 200, 60, 270, 100}, path(130, 100, 200, 60, 270, 100, 300, 100, 300, 300, 100, 300, 100, 100)},
		{"of a loss over its first point", Shape{Ref: 1, Kind: Loss, Closed: true, Points: path(100, 100, 300, 100, 300, 300, 100, 300)},
			[]float64{130, 100, 80, 80, 100, 130}, path(100, 130, 80, 80, 130, 100, 300, 100, 300, 300, 100, 300)},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, 600, 400, 2)
			r.s.SetScene(Scene{Shapes: []Shape{c.shape}})
			r.s.SetTool(RetraceTool)
			r.press(500, 390) // not on a line: refused
			for i := 0; i < len(c.xy); i += 2 {
				r.press(c.xy[i], c.xy[i+1])
			}
			e := one[Change](r)
			if e.Why != Retrace {
				t.Errorf("why %q", e.Why)
			}
			sameRing(t, c.shape.Closed, e.Shapes[0].Points, c.want)
		})
	}
}

// sameRing compares lines; rings may begin anywhere and run either way.
func sameRing(t *testing.T, closed bool, got, want []geom.Pt) {
	t.Helper()
	if !closed {
		samePath(t, "course", got, want)
		return
	}
	if len(got) == len(want) {
		for k := range got {
			for _, dir := range []int{1, -1} {
				ok := true
				for i := range got {
					ok = ok && got[((k+dir*i)%len(got)+len(got))%len(got)].Dist(want[i]) < 0.01
				}
				if ok {
					return
				}
			}
		}
	}
	t.Fatalf("ring: got %v, want %v", got, want)
}

func TestReshapingByDrawingAcross(t *testing.T) {
	square := Shape{Ref: 1, Kind: Loss, Closed: true, Points: path(100, 100, 300, 100, 300, 300, 100, 300)}
	tear := Shape{Ref: 1, Kind: Tear, Points: path(100, 100, 200, 100, 400, 100)}
	for _, c := range []struct {
		name  string
		shape Shape
		xy    []float64
		want  []geom.Pt
	}{
		{"a loss grows by what is drawn outside", square, []float64{250, 150, 350, 150, 350, 250, 250, 250},
			path(300, 150, 350, 150, 350, 250, 300, 250, 300, 300, 100, 300, 100, 100, 300, 100)},
		{"a loss loses what is cut off", square, []float64{50, 150, 150, 50},
			path(100, 300, 100, 100, 100, 100, 100, 100)[:0]},
		{"a tear takes another way", tear, []float64{150, 90, 150, 150, 350, 150, 350, 90},
			path(100, 100, 150, 100, 150, 150, 350, 150, 350, 100, 400, 100)},
		{"a tear gets another end", tear, []float64{350, 90, 350, 250},
			path(100, 100, 200, 100, 350, 100, 350, 250)},
		{"a tear gets another start", tear, []float64{150, 90, 150, 250},
			path(150, 250, 150, 100, 200, 100, 400, 100)},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, 600, 400, 1)
			r.s.SetScene(Scene{Shapes: []Shape{c.shape}})
			h := r.s.Habits()
			h.Snap = false
			r.s.SetHabits(h)
			r.s.SetTool(ReshapeTool)
			for i := 0; i < len(c.xy); i += 2 {
				r.press(c.xy[i], c.xy[i+1])
			}
			r.key(fyne.KeyReturn)
			if len(c.want) == 0 { // touches only the corner: nothing is cut
				r.none()
				return
			}
			sameRing(t, c.shape.Closed, one[Change](r).Shapes[0].Points, c.want)
		})
	}
}

func TestReshapingKeepsTheLargerPartOfALoss(t *testing.T) {
	square := Shape{Ref: 1, Closed: true, Points: path(0, 0, 100, 0, 100, 100, 0, 100)}
	g, ok := reshaped(square, path(-10, 30, 110, 30))
	if want := 7000.0; !ok || math.Abs(ringArea(g.Points)-want) > 1e-9 {
		t.Errorf("area %g, want %g", ringArea(g.Points), want)
	}
	g, ok = reshaped(square, path(20, 50, 20, -40, 80, -40, 80, 50))
	if want := 10000.0 + 60*40; !ok || math.Abs(ringArea(g.Points)-want) > 1e-9 {
		t.Errorf("area %g, want %g", ringArea(g.Points), want)
	}
}

func TestALineThatMissesStaysInHand(t *testing.T) {
	r := drawer(t, 1)
	r.s.SetTool(ReshapeTool)
	r.press(400, 300)
	r.press(450, 300)
	r.key(fyne.KeyReturn)
	r.none()
	if r.s.Hint() != hintNoCross {
		t.Errorf("hint %q", r.s.Hint())
	}
	if !r.s.Cancel() {
		t.Error("the line is gone")
	}
}

func TestDividing(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(Scene{Shapes: []Shape{{Ref: 3, Kind: Tear, Points: path(50, 300, 150, 300, 250, 300),
		Forks: [][]geom.Pt{path(100, 300, 90, 350), path(220, 300, 230, 350)}}}})
	r.s.SetTool(DivideTool)
	r.press(170, 302)
	sameEdit(t, r.edits, Divide{3,
		Geometry{Ref: 3, Points: path(50, 300, 150, 300, 170, 300), Forks: [][]geom.Pt{path(100, 300, 90, 350)}},
		Geometry{Points: path(170, 300, 250, 300), Forks: [][]geom.Pt{path(220, 300, 230, 350)}}})
	r.edits = nil
	r.press(95, 325) // the fork comes off
	e := one[Divide](r)
	if len(e.First.Forks) != 2 || len(e.Second.Points) != 2 {
		t.Errorf("dividing a fork: %v", e)
	}
	r.press(50, 300) // at its very end there is nothing to divide
	r.none()
}

func TestJoiningAtTheNearestEnds(t *testing.T) {
	a := path(100, 100, 200, 100)
	for _, c := range []struct {
		name string
		b    []geom.Pt
		want []geom.Pt
	}{
		{"end to start", path(210, 100, 300, 100), path(100, 100, 200, 100, 210, 100, 300, 100)},
		{"end to end", path(300, 100, 210, 100), path(100, 100, 200, 100, 210, 100, 300, 100)},
		{"start to start", path(90, 100, 10, 100), path(10, 100, 90, 100, 100, 100, 200, 100)},
		{"start to end", path(10, 100, 90, 100), path(10, 100, 90, 100, 100, 100, 200, 100)},
		{"meeting in one point", path(200, 100, 200, 180), path(100, 100, 200, 100, 200, 180)},
	} {
		r := newRig(t, 600, 400, 1)
		r.s.SetScene(Scene{Shapes: []Shape{{Ref: 1, Kind: Tear, Points: a}, {Ref: 2, Kind: Tear, Points: c.b},
			{Ref: 3, Kind: Split, Points: c.b}}})
		r.s.Select(1, 2)
		if !r.s.CanJoin() || !r.s.JoinSelected() {
			t.Fatalf("%s: refused", c.name)
		}
		e := one[Join](r)
		if e.Gone != 2 || e.Keep.Ref != 1 {
			t.Errorf("%s: keeps %d, drops %d", c.name, e.Keep.Ref, e.Gone)
		}
		samePath(t, c.name, e.Keep.Points, c.want)
		r.s.Select(1, 3)
		if r.s.CanJoin() {
			t.Error("a tear and a split can be joined")
		}
	}
}

func TestTheTrueEdgeIsPressedDrawnAndAdjusted(t *testing.T) {
	r := newRig(t, 600, 400, 2)
	r.s.SetTool(EdgeTool)
	for _, p := range path(20, 20, 500, 22, 502, 350, 18, 348) {
		r.none()
		r.press(p.X, p.Y)
	}
	samePath(t, "pressed", one[TrueEdge](r).Corners, path(20, 20, 500, 22, 502, 350, 18, 348))
	r.drag(501, 351, 510, 360, 511, 361)
	samePath(t, "a corner dragged", one[TrueEdge](r).Corners, path(20, 20, 500, 22, 512, 360, 18, 348))

	r = newRig(t, 600, 400, 1)
	r.s.SetTool(EdgeTool)
	r.drag(30, 30, 300, 200, 500, 300)
	samePath(t, "drawn", one[TrueEdge](r).Corners, path(30, 30, 500, 30, 500, 300, 30, 300))
	r.drag(250, 30, 255, 40, 260, 50)
	samePath(t, "a side dragged across itself", one[TrueEdge](r).Corners, path(30, 50, 500, 50, 500, 300, 30, 300))
}

func TestAnEdgeThatIsSetIsAdjusted(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(Scene{TrueEdge: path(20, 20, 500, 20, 500, 350, 20, 350)})
	r.s.SetTool(EdgeTool)
	r.drag(20, 350, 22, 360, 25, 365)
	samePath(t, "adjusted", one[TrueEdge](r).Corners, path(20, 20, 500, 20, 500, 350, 25, 365))
	r.s.SetScene(Scene{TrueEdge: path(30, 30, 500, 20, 500, 350, 20, 350)}) // undone, say
	r.drag(500, 350, 502, 360, 505, 365)
	samePath(t, "of another scene", one[TrueEdge](r).Corners, path(30, 30, 500, 20, 505, 365, 20, 350))
	if r.s.Tool() != EdgeTool {
		t.Error("the tool gave way although more may be adjusted")
	}
}

func TestTwoPointsByPressesOrByOneDrag(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(CalibrateTool)
	r.press(50, 50)
	r.none()
	r.press(250, 60)
	sameEdit(t, r.edits, TwoPoints{geom.Pt{X: 50, Y: 50}, geom.Pt{X: 250, Y: 60}})
	r.edits = nil
	r.s.SetTool(FoldTool)
	r.drag(300, 10, 300, 100, 302, 390)
	sameEdit(t, r.edits, FoldLine{geom.Pt{X: 300, Y: 10}, geom.Pt{X: 302, Y: 390}})
	r.edits = nil
	r.s.SetTool(CalibrateTool)
	r.press(50, 50)
	r.key(fyne.KeyBackspace)
	r.press(70, 50)
	r.press(90, 50)
	sameEdit(t, r.edits, TwoPoints{geom.Pt{X: 70, Y: 50}, geom.Pt{X: 90, Y: 50}})
}

func TestFourCornersOfAPhotograph(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(CornersTool)
	for _, p := range path(20, 20, 500, 30, 480, 350, 40, 340) {
		r.press(p.X, p.Y)
	}
	samePath(t, "corners", one[FourCorners](r).Corners, path(20, 20, 500, 30, 480, 350, 40, 340))
}

func TestSampling(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(SampleTool)
	r.press(30, 40)
	sameEdit(t, r.edits, Sample{Rect{geom.Pt{X: 30, Y: 40}, geom.Pt{X: 30, Y: 40}}})
	r.edits = nil
	r.s.SetTool(SampleTool)
	r.drag(100, 90, 80, 70, 60, 50)
	sameEdit(t, r.edits, Sample{Rect{geom.Pt{X: 60, Y: 50}, geom.Pt{X: 100, Y: 90}}})
}

func TestMeasuring(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	var last Measurement
	r.s.OnMeasure = func(m Measurement) { last = m }
	r.s.SetTool(MeasureTool)
	r.press(100, 100)
	r.press(100, 140)
	r.press(130, 140)
	if last.Known || last.Words != "70 px · 90° · not calibrated" {
		t.Errorf("not calibrated: %q", last.Words)
	}
	sc := Scene{Frame: UniformFrame(0.1, 0.2)} // y twice as coarse
	r.s.SetScene(sc)
	r.key(fyne.KeyReturn)
	// By hand: 40 px of 0.2 mm and 30 px of 0.1 mm, at a right angle.
	if math.Abs(last.LengthMM-11) > 1e-9 || math.Abs(last.AngleDeg-90) > 1e-9 || last.Words != "11 mm ± 0.094 mm · 90 ± 1.9°" {
		t.Errorf("got %g mm, %g°, %q", last.LengthMM, last.AngleDeg, last.Words)
	}
	for _, p := range path(100, 100, 200, 100, 200, 200, 100, 200) {
		r.press(p.X, p.Y)
	}
	r.press(101, 101)
	if math.Abs(last.AreaMM2-10*20) > 1e-9 || math.Abs(last.LengthMM-60) > 1e-9 {
		t.Errorf("area %g mm², round %g mm; want 200 and 60", last.AreaMM2, last.LengthMM)
	}
	l := r.s.Look()
	l.Inches = true
	r.s.SetLook(l)
	if w := r.s.measure(path(0, 0, 254, 0), false).Words; w != "1 in ± 0.0037 in" {
		t.Errorf("in inches %q, want 1 in", w)
	}
	r.s.Length = func(mm float64) string { return "1/1 in" }
	if w := r.s.measure(path(0, 0, 254, 0), false).Words; w != "1/1 in ± 0.0037 in" {
		t.Errorf("as the owner prefers %q, want 1/1 in", w)
	}
	r.none()
}
