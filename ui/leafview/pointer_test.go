package leafview

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

func TestTheMiddleButtonPansInEveryTool(t *testing.T) {
	for _, id := range ToolIDs() {
		r := newRig(t, 600, 400, 1)
		r.s.SetTool(id)
		before := r.s.view
		r.dragBy(desktop.MouseButtonTertiary, 100, 100, 110, 105, 150, 130)
		if d := r.s.view.Offset.Sub(before.Offset); d.Dist(r.dev(50, 30)) > 0.01 {
			t.Errorf("%s: moved by %v device pixels, want {50 30} units", id, d)
		}
		r.none()
	}
}

func TestSpaceWithTheLeftButtonPans(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	r.s.KeyDown(&fyne.KeyEvent{Name: fyne.KeySpace})
	r.drag(100, 100, 140, 120)
	r.s.KeyUp(&fyne.KeyEvent{Name: fyne.KeySpace})
	if got := r.s.view.Offset; got.Dist(r.dev(40, 20)) > 0.01 {
		t.Errorf("offset %v, want {40 20} units", got)
	}
	if r.s.Cancel() {
		t.Error("panning left something in hand")
	}
	r.press(10, 10)
	if !r.s.Cancel() {
		t.Error("after Space was let go a press does not draw")
	}
}

func TestTheWheelZoomsAtThePointer(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		r := newRig(t, 600, 400, scale)
		pos := fyne.NewPos(150, 90)
		under := r.s.view.ToScan(r.s.toDevice(pos))
		r.s.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: pos}, Scrolled: fyne.Delta{DY: 50}})
		if got := r.s.view.ToScan(r.s.toDevice(pos)); got.Dist(under) > 1e-6 {
			t.Errorf("scale %g: under the pointer %v, want %v", scale, got, under)
		}
		if r.s.view.Scale <= float64(scale) {
			t.Errorf("scale %g: did not zoom in", scale)
		}
	}
}

func TestTheWheelScrollsWhenTheUserPrefersItAndCtrlZooms(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	h := r.s.Habits()
	h.WheelScrolls = true
	r.s.SetHabits(h)
	scroll := func() {
		r.s.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: -25}})
	}
	scroll()
	if r.s.view.Scale != r.s.px || r.s.view.Offset.Y >= 0 {
		t.Errorf("view %v, want scrolled only", r.s.view)
	}
	r.with(fyne.KeyModifierControl, scroll)
	if r.s.view.Scale >= r.s.px {
		t.Errorf("scale %g, want zoomed out", r.s.view.Scale)
	}
}

func TestATremblingPressIsAPress(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(Scene{Shapes: []Shape{{Ref: 1, Kind: Tear, Points: path(100, 100, 200, 100)}}})
	r.drag(150, 100, 152, 101)
	r.none()
	if got := r.s.Selected(); len(got) != 1 || got[0] != 1 {
		t.Errorf("chosen %v, want [1]", got)
	}
}

func TestADragEndsEvenIfNoReleaseCame(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(Scene{Shapes: []Shape{{Ref: 1, Kind: Tear, Points: path(100, 100, 200, 100)}}})
	r.s.Select(1)
	r.move(100, 100)
	r.s.MouseDown(r.at(100, 100, desktop.MouseButtonPrimary))
	r.pull(100, 150)
	r.s.DragEnd()
	one[Change](r)
	r.move(300, 300)
	r.none()
}

func TestASecondButtonDoesNotDisturbADrag(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(Scene{Shapes: []Shape{{Ref: 1, Kind: Tear, Points: path(100, 100, 200, 100)}}})
	r.s.Select(1)
	r.move(100, 100)
	r.s.MouseDown(r.at(100, 100, desktop.MouseButtonPrimary))
	r.pull(100, 120)
	r.s.MouseDown(r.at(100, 120, desktop.MouseButtonTertiary))
	r.s.MouseUp(r.at(100, 120, desktop.MouseButtonTertiary))
	r.pull(100, 150)
	r.s.MouseUp(r.at(100, 150, desktop.MouseButtonPrimary))
	samePath(t, "moved", one[Change](r).Shapes[0].Points, path(100, 150, 200, 100))
}

func TestTheRightButtonChoosesAndAsksForAMenu(t *testing.T) {
	r := newRig(t, 600, 400, 2)
	r.s.SetScene(Scene{Shapes: []Shape{{Ref: 4, Kind: Tear, Points: path(100, 100, 200, 100)}}})
	var on geom.Pt
	r.s.OnContext = func(_ fyne.Position, at geom.Pt) { on = at }
	r.s.MouseDown(r.at(150, 101, desktop.MouseButtonSecondary))
	r.s.MouseUp(r.at(150, 101, desktop.MouseButtonSecondary))
	if on.Dist(geom.Pt{X: 150, Y: 101}) > 0.01 {
		t.Errorf("asked on %v, want {150 101}", on)
	}
	if got := r.s.Selected(); len(got) != 1 || got[0] != 4 {
		t.Errorf("chosen %v, want [4]", got)
	}
	r.s.MouseDown(r.at(201, 102, desktop.MouseButtonSecondary))
	r.s.MouseUp(r.at(201, 102, desktop.MouseButtonSecondary))
	if !r.s.PointsChosen() || r.s.points[0].i != 1 {
		t.Errorf("points chosen %v, want the last of the tear", r.s.points)
	}
}

func TestAPressTakesTheFocus(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.press(50, 50)
	if r.win.Canvas().Focused() != r.s {
		t.Error("the surface has no focus after a press")
	}
}

func TestTheOverviewMovesTheView(t *testing.T) {
	r := newRig(t, 900, 600, 1)
	l := r.s.Look()
	l.Overview = true
	r.s.SetLook(l)
	r.s.SetView(4, geom.Pt{X: 500, Y: 400})
	o := r.s.overviewRect()
	if o.W() <= 0 {
		t.Fatal("no overview although zoomed in")
	}
	r.press((o.Min.X+o.W()/4)/r.s.px, (o.Min.Y+o.H()/4)/r.s.px)
	if _, c := r.s.View(); c.Dist(geom.Pt{X: 250, Y: 200}) > 8 {
		t.Errorf("centre %v, want near {250 200}", c)
	}
	r.none()
	r.s.Fit()
	if r.s.overviewRect().Holds(o.Centre()) {
		t.Error("an overview is shown of what is seen whole")
	}
	r.win.Resize(fyne.NewSize(370, 500)) // between the panels of a small screen
	r.frame()
	r.s.SetView(4, geom.Pt{X: 500, Y: 400})
	if small := r.s.overviewRect(); small.W() <= 0 || small.W() > 0.4*370*r.s.px {
		t.Errorf("on a small screen the overview is %.0f wide, at %g a unit", small.W(), r.s.px)
	}
}

func TestTwoSlowPressesAreNotADoublePress(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetTool(TearTool)
	r.press(50, 50)
	r.press(100, 50)
	r.clock = r.clock.Add(time.Second)
	r.press(101, 50)
	r.none()
}

func TestNavigateOnlyNeverDraws(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	h := r.s.Habits()
	h.NavigateOnly = true
	r.s.SetHabits(h)
	r.s.SetTool(TearTool)
	r.drag(50, 50, 90, 60)
	if r.s.Cancel() {
		t.Error("something is in hand")
	}
	if got := r.s.view.Offset; got.Dist(r.dev(40, 10)) > 0.01 {
		t.Errorf("offset %v, want {40 10} units", got)
	}
}
