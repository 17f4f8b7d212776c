package leafview

import (
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

func TestTracingByPressesAtBothScreenScales(t *testing.T) {
	for _, scale := range []float32{1, 2, 1.37} {
		r := newRig(t, 600, 400, scale)
		r.s.SetTool(TearTool)
		r.press(50, 50)
		r.press(100, 60)
		r.press(150, 40)
		r.none()
		r.key(fyne.KeyReturn)
		e := one[Add](r)
		samePath(t, "tear", e.Points, path(50, 50, 100, 60, 150, 40))
		if e.Kind != Tear || e.Closed {
			t.Errorf("scale %g: got a %s, closed %v", scale, e.Kind, e.Closed)
		}
		if r.s.Cancel() {
			t.Error("the finished tear is still in hand")
		}
	}
}

func TestADoublePressEndsALineWhereItsFirstPressWas(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(SplitTool)
	r.press(50, 50)
	r.double(200, 60)
	samePath(t, "split", one[Add](r).Points, path(50, 50, 200, 60))
}

func TestARingClosesByItsFirstPoint(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(LossTool)
	for _, p := range path(50, 50, 150, 50, 150, 150) {
		r.press(p.X, p.Y)
	}
	r.press(54, 47) // within the radius of snapping
	e := one[Add](r)
	samePath(t, "loss", e.Points, path(50, 50, 150, 50, 150, 150))
	if !e.Closed || e.Kind != Loss {
		t.Errorf("got a %s, closed %v", e.Kind, e.Closed)
	}
}

func TestEnterWithTooFewPointsKeepsThemAndSaysSo(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(LossTool)
	r.press(50, 50)
	r.press(90, 50)
	r.key(fyne.KeyReturn)
	r.none()
	if r.s.Hint() != hintTooFew3 {
		t.Errorf("hint %q", r.s.Hint())
	}
	r.press(90, 90)
	r.key(fyne.KeyReturn)
	samePath(t, "loss", one[Add](r).Points, path(50, 50, 90, 50, 90, 90))
}

func TestEscapeDropsAndBackspaceStepsBack(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	r.press(50, 50)
	r.press(100, 50)
	r.press(150, 50)
	r.key(fyne.KeyBackspace)
	r.press(100, 90)
	r.key(fyne.KeyReturn)
	samePath(t, "after a step back", one[Add](r).Points, path(50, 50, 100, 50, 100, 90))
	r.press(50, 50)
	r.key(fyne.KeyEscape)
	r.key(fyne.KeyReturn)
	r.none()
	if r.s.Tool() != TearTool {
		t.Error("the first Escape dropped the tool with the line")
	}
	r.key(fyne.KeyEscape)
	if r.s.Tool() != SelectTool {
		t.Error("a second Escape does not lead back to the select tool")
	}
}

func TestFreehandIsThinnedOutAndOneStepBackTakesItWhole(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	r.press(20, 100)
	xy := []float64{50, 100}
	for x := 52.0; x <= 150; x += 2 {
		xy = append(xy, x, 100)
	}
	r.drag(xy...)
	if n := len(r.s.tool.(*lineTool).pts); n != 3 {
		t.Errorf("%d points in hand, want the press, the start and the end of the stretch", n)
	}
	r.key(fyne.KeyBackspace)
	r.press(200, 140)
	r.key(fyne.KeyReturn)
	samePath(t, "tear", one[Add](r).Points, path(20, 100, 200, 140))
}

func TestALossDrawnFreehandClosesWhereItBegan(t *testing.T) {
	r := newRig(t, 600, 400, 2)
	r.s.SetTool(LossTool)
	r.drag(100, 100, 150, 100, 200, 100, 200, 150, 200, 200, 150, 200, 100, 200, 100, 150, 102, 103)
	samePath(t, "loss", one[Add](r).Points, path(100, 100, 200, 100, 200, 200, 100, 200))
}

func TestFollowingIsShownAcceptedAndSuspended(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.Follow = func(from, to geom.Pt) []geom.Pt {
		return []geom.Pt{from, {X: (from.X + to.X) / 2, Y: from.Y + 30}, to}
	}
	r.s.SetTool(TearTool)
	r.press(50, 50)
	r.press(100, 50)
	r.with(shift, func() { r.press(150, 50) })
	r.key(fyne.KeyReturn)
	samePath(t, "tear", one[Add](r).Points, path(50, 50, 75, 80, 100, 50, 150, 50))
	r.press(50, 50)
	r.press(100, 50)
	r.key(fyne.KeyBackspace)
	r.press(90, 50)
	r.key(fyne.KeyReturn)
	samePath(t, "one step back takes the followed stretch", one[Add](r).Points, path(50, 50, 70, 80, 90, 50))
}

func TestAStraightLineStandsInWhileNothingWasFound(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.Follow = func(from, to geom.Pt) []geom.Pt { return nil }
	r.s.SetTool(TearTool)
	r.press(50, 50)
	r.press(100, 50)
	r.key(fyne.KeyReturn)
	samePath(t, "tear", one[Add](r).Points, path(50, 50, 100, 50))
}

func TestTearsGrowFromOtherTears(t *testing.T) {
	tear := Shape{Ref: 3, Kind: Tear, Points: path(100, 100, 200, 100, 300, 100)}
	for _, c := range []struct {
		name string
		tool ToolID
		ctrl bool
		xy   []float64
		want Edit
	}{
		{"from its end it is continued", TearTool, false, []float64{303, 98, 350, 150},
			Change{Extend, []Geometry{{Ref: 3, Points: path(100, 100, 200, 100, 300, 100, 350, 150)}}}},
		{"from its start too, in its own direction", TearTool, false, []float64{100, 100, 50, 150},
			Change{Extend, []Geometry{{Ref: 3, Points: path(50, 150, 100, 100, 200, 100, 300, 100)}}}},
		{"towards its end", TearTool, false, []float64{350, 150, 300, 100},
			Change{Extend, []Geometry{{Ref: 3, Points: path(100, 100, 200, 100, 300, 100, 350, 150)}}}},
		{"from its middle it forks", TearTool, false, []float64{250, 103, 260, 200},
			Fork{3, path(250, 100, 260, 200)}},
		{"towards its middle too, beginning there", TearTool, false, []float64{260, 200, 200, 100},
			Fork{3, path(200, 100, 260, 200)}},
		{"with Ctrl it is a tear of its own", TearTool, true, []float64{250, 103, 260, 200},
			Add{Kind: Tear, Points: path(250, 103, 260, 200)}},
		{"a split only holds on to it", SplitTool, false, []float64{250, 103, 260, 200},
			Add{Kind: Split, Points: path(250, 100, 260, 200)}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, 600, 400, 1)
			r.s.SetScene(Scene{Shapes: []Shape{tear}})
			r.s.SetTool(c.tool)
			if c.ctrl {
				r.mods = ctrl
			}
			for i := 0; i < len(c.xy); i += 2 {
				r.press(c.xy[i], c.xy[i+1])
			}
			r.mods = 0
			r.key(fyne.KeyReturn)
			sameEdit(t, r.edits, c.want)
		})
	}
}

func TestANotedDamageHasItsKind(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetNoted("crease", false)
	r.s.SetTool(NoteTool)
	r.press(10, 10)
	r.double(60, 10)
	if e := one[Add](r); e.Kind != "crease" || e.Closed {
		t.Errorf("got %v", e)
	}
}

func TestTheOutlineGivesWayWhenItIsDone(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	var now ToolID
	r.s.OnTool = func(id ToolID) { now = id }
	r.s.SetTool(OutlineTool)
	for _, p := range path(10, 10, 300, 10, 300, 200) {
		r.press(p.X, p.Y)
	}
	r.key(fyne.KeyReturn)
	samePath(t, "outline", one[Outline](r).Points, path(10, 10, 300, 10, 300, 200))
	if now != SelectTool || r.s.Tool() != SelectTool {
		t.Errorf("tool %q, told %q", r.s.Tool(), now)
	}
}

func TestTracingByKeyboardAlone(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	r.key(fyne.KeyRight) // the cursor appears in the middle and moves
	r.key(fyne.KeySpace)
	for range 3 {
		r.key(fyne.KeyRight)
	}
	r.key(fyne.KeyDown)
	r.key(fyne.KeySpace)
	r.key(fyne.KeyReturn)
	samePath(t, "tear", one[Add](r).Points, path(312, 200, 348, 212))
}
