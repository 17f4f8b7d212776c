package leafview

import (
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

// withOther is a scene with a tear of this side and one of the other.
func withOther() Scene {
	return Scene{Shapes: []Shape{
		{Ref: 1, Kind: Tear, Points: path(50, 50, 150, 60)},
		{Ref: 2, Kind: Tear, OtherSide: true, Points: path(200, 200, 300, 210)},
	}, OtherOutline: path(20, 20, 380, 20, 380, 280, 20, 280), Frame: UniformFrame(0.1, 0.1)}
}

func TestTheOtherSideIsDraggedTurnedAndNudged(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(withOther())
	r.s.SetTool(OtherTool)
	r.drag(220, 205, 240, 230)
	e := one[MoveOther](r)
	if p := e.By.Apply(geom.Pt{X: 200, Y: 200}); p.Dist(geom.Pt{X: 220, Y: 225}) > 0.01 || e.Nudged {
		t.Errorf("dragged to %v, want {220 225}", p)
	}
	r.with(shift, func() { r.drag(900, 400, 500, 800) }) // a quarter turn clockwise about {500 400}
	e = one[MoveOther](r)
	if p := e.By.Apply(geom.Pt{X: 600, Y: 400}); p.Dist(geom.Pt{X: 500, Y: 500}) > 0.01 {
		t.Errorf("turned to %v, want {500 500}", p)
	}
	r.key(fyne.KeyRight)
	e = one[MoveOther](r)
	if p := e.By.Apply(geom.Pt{}); p.Dist(geom.Pt{X: 1}) > 0.01 || !e.Nudged { // 0.1 mm
		t.Errorf("nudged by %v, want {1 0}", p)
	}
	r.with(shift, func() { r.key(fyne.KeyDown) })
	if p := one[MoveOther](r).By.Apply(geom.Pt{}); p.Dist(geom.Pt{Y: 10}) > 0.01 {
		t.Errorf("nudged by %v, want {0 10}", p)
	}
}

func TestEscapeLeavesTheOtherSideWhereItWas(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	r.s.SetScene(withOther())
	r.s.SetTool(OtherTool)
	before := slices.Clone(r.frame().Pix)
	r.s.MouseDown(r.at(220, 205, 1))
	r.pull(260, 260)
	if slices.Equal(r.frame().Pix, before) {
		t.Error("nothing is seen of the drag")
	}
	r.key(fyne.KeyEscape)
	r.s.DragEnd()
	r.none()
	if r.s.Tool() != OtherTool {
		t.Errorf("Escape took %s in hand", r.s.Tool())
	}
}

func TestAnOverlayLiesOverThePictureAndUnderTheScene(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	bare := slices.Clone(r.frame().Pix)
	views := map[View]bool{}
	r.s.SetOverlay(func(dst *image.RGBA, v View) {
		views[v] = true
		at := v.ToDevice(geom.Pt{X: 60, Y: 70})
		if p := image.Pt(iround(at.X), iround(at.Y)); p.In(dst.Rect) {
			dst.SetRGBA(p.X, p.Y, casingColour)
		}
	})
	img := r.frame()
	if at := r.dev(60, 70); img.RGBAAt(int(at.X), int(at.Y)) != casingColour {
		t.Error("the overlay is not seen")
	}
	r.s.pan(r.dev(10, 5))
	img = r.frame()
	if at := r.dev(70, 75); img.RGBAAt(int(at.X), int(at.Y)) != casingColour || len(views) < 2 {
		t.Error("the overlay does not move with the picture")
	}
	r.s.pan(r.dev(-10, -5))
	r.s.SetOverlay(nil)
	if !slices.Equal(r.frame().Pix, bare) {
		t.Error("the overlay stays when it is taken away")
	}
}

func TestACrossMarksAPlace(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	bare := slices.Clone(r.frame().Pix)
	r.s.SetMark(geom.Pt{X: 200, Y: 100}, true)
	if slices.Equal(r.frame().Pix, bare) {
		t.Error("no cross is seen")
	}
	r.s.SetMark(geom.Pt{}, false)
	if !slices.Equal(r.frame().Pix, bare) {
		t.Error("the cross stays")
	}
}

func TestAPressOnASurfaceForLookingIsTold(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	h := r.s.Habits()
	h.NavigateOnly = true
	r.s.SetHabits(h)
	var told []geom.Pt
	r.s.OnTap = func(at geom.Pt) { told = append(told, at) }
	r.drag(50, 50, 90, 60)
	if len(told) != 0 {
		t.Error("a drag is told as a press")
	}
	r.plain()
	r.press(120, 80)
	samePath(t, "told", told, path(120, 80))
}

func TestLengthsTellTheirDoubtWhenAsked(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	f := UniformFrame(0.1, 0.1)
	f.DoubtPercent = 1
	r.s.SetScene(Scene{Frame: f})
	// By hand: 1 % of 50 mm is 0.5 mm; half a pixel at both ends 0.0707 mm.
	if got, want := r.s.lengthDoubt(50), math.Hypot(0.5, 0.05*math.Sqrt2); math.Abs(got-want) > 1e-9 {
		t.Errorf("doubt %g mm, want %g", got, want)
	}
	// A square of 10 mm: 2 % of 100 mm², and four corners each off by 0.05 mm
	// along half a diagonal of 7.07 mm.
	ring := path(0, 0, 10, 0, 10, 10, 0, 10)
	if got, want := r.s.areaDoubt(ring), math.Hypot(2, math.Sqrt(4*50)*0.05); math.Abs(got-want) > 1e-9 {
		t.Errorf("doubt %g mm², want %g", got, want)
	}
	if w := r.s.withDoubt("50 mm", 50); w != "50 mm" {
		t.Errorf("unasked: %q", w)
	}
	l := r.s.Look()
	l.Doubt = true
	r.s.SetLook(l)
	if w := r.s.withDoubt("50 mm", 50); !strings.HasPrefix(w, "50 mm ± 0.5") {
		t.Errorf("asked: %q", w)
	}
	r.plain()
	r.s.view.Scale = 0.1 * r.s.px // a screen pixel is ten of the scan
	if r.s.lengthDoubt(0) < 0.6/float64(screen) {
		t.Error("pointing on a small picture is told as if it were exact")
	}
}
