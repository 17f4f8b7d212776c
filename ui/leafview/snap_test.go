package leafview

import (
	"image"
	"testing"

	"leafmend/mendplan/geom"
)

// withLines gives the rig a leaf with a true edge, a fold, an outline and a
// tear, all far enough from one another.
func withLines(r *rig) {
	r.s.SetScene(Scene{
		TrueEdge: path(20, 20, 560, 20, 560, 380, 20, 380),
		Fold:     path(290, 20, 290, 380),
		Outline:  path(60, 60, 520, 60, 520, 340, 60, 340),
		Shapes:   []Shape{{Ref: 1, Kind: Tear, Points: path(100, 100, 160, 130, 220, 100)}},
	})
}

func TestANewPointHoldsOnToWhatIsNearAndNotWhileCtrlIsHeld(t *testing.T) {
	for _, c := range []struct {
		name string
		near geom.Pt
		want geom.Pt
		kind snapKind
	}{
		{"the true edge", geom.Pt{X: 400, Y: 14}, geom.Pt{X: 400, Y: 20}, snapTrueEdge},
		{"a corner of the true edge", geom.Pt{X: 553, Y: 26}, geom.Pt{X: 560, Y: 20}, snapVertex},
		{"the fold", geom.Pt{X: 297, Y: 200}, geom.Pt{X: 290, Y: 200}, snapFold},
		{"the edge of the leaf as it is", geom.Pt{X: 514, Y: 250}, geom.Pt{X: 520, Y: 250}, snapOutline},
		{"a point of a tear", geom.Pt{X: 165, Y: 136}, geom.Pt{X: 160, Y: 130}, snapVertex},
		{"the end of a tear", geom.Pt{X: 224, Y: 95}, geom.Pt{X: 220, Y: 100}, snapEnd},
		{"the line of a tear", geom.Pt{X: 128, Y: 119}, geom.Pt{X: 129.6, Y: 114.8}, snapEdge},
		{"nothing", geom.Pt{X: 400, Y: 200}, geom.Pt{X: 400, Y: 200}, snapNone},
	} {
		r := newRig(t, 600, 400, 1)
		withLines(r)
		r.s.SetTool(SplitTool)
		r.move(c.near.X, c.near.Y)
		if got := r.s.hand.last.snap; got.kind != c.kind || got.at.Dist(c.want) > 0.5 {
			t.Errorf("near %s: a point goes to %v as %q, want %v as %q", c.name, got.at, got.kind.words(), c.want, c.kind.words())
		}
		r.with(ctrl, func() {
			r.move(c.near.X, c.near.Y)
			if got := r.s.hand.last.snap; got.kind != snapNone || got.at.Dist(c.near) > 0.01 {
				t.Errorf("near %s with Ctrl: a point goes to %v as %q", c.name, got.at, got.kind.words())
			}
		})
		r.press(c.near.X, c.near.Y)
		r.press(450, 150)
		r.s.Finish()
		if e := one[Add](r); e.Points[0].Dist(c.want) > 0.5 {
			t.Errorf("near %s: traced at %v, want %v", c.name, e.Points[0], c.want)
		}
	}
}

func TestHowFarPointsHoldOnIsSetAndShown(t *testing.T) {
	for _, radius := range []float64{4, 10, 24} {
		r := newRig(t, 600, 400, 1)
		withLines(r)
		h := DefaultHabits()
		h.SnapRadius = radius
		r.s.SetHabits(h)
		r.s.SetTool(SplitTool)
		r.move(290+radius-1, 200)
		if got := r.s.hand.last.snap.kind; got != snapFold {
			t.Errorf("%g units off the fold, a point within %g holds on to %q", radius-1, radius, got.words())
		}
		r.move(290+radius+1, 200)
		if got := r.s.hand.last.snap.kind; got != snapNone {
			t.Errorf("%g units off the fold, a point within %g holds on to %q", radius+1, radius, got.words())
		}
		r.move(400, 200)
		with := clone(r.frame())
		h.Snap = false
		r.s.SetHabits(h)
		r.s.Refresh()
		without := r.frame()
		for _, d := range []geom.Pt{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
			p := r.dev(400, 200).Add(d.Mul(radius * r.s.px))
			if x, y := int(p.X), int(p.Y); with.RGBAAt(x, y) == without.RGBAAt(x, y) {
				t.Errorf("the reach of %g units is not drawn at %v of the pointer", radius, d)
			}
		}
	}
}

func clone(img *image.RGBA) *image.RGBA {
	out := image.NewRGBA(img.Rect)
	copy(out.Pix, img.Pix)
	return out
}
