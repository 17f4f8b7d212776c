package leafview

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

// gripped is a chosen tear with a margin grip above its middle and a break at
// its middle point.
func gripped(r *rig) {
	r.s.SetScene(Scene{
		Shapes: []Shape{{Ref: 1, Kind: Tear, Points: path(100, 200, 200, 200, 300, 200)}},
		Grips: []Grip{{ID: "margin", Kind: MarginGrip, At: geom.Pt{X: 250, Y: 160}, Along: geom.Pt{Y: -1}},
			{ID: "break 0", Kind: BreakGrip, At: geom.Pt{X: 200, Y: 200}, Along: geom.Pt{X: 1}}},
	})
	r.s.Select(1)
}

func TestAGripIsDraggedShownAndHandedOut(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	gripped(r)
	var asked []geom.Pt
	r.s.OnGrip = func(id string, at geom.Pt) GripShown {
		asked = append(asked, at)
		return GripShown{At: at, Words: "margin 7 mm", Rings: [][]geom.Pt{path(90, 150, 310, 150, 310, 250, 90, 250)}}
	}
	before := slices.Clone(r.frame().Pix)
	r.move(252, 161)
	r.s.MouseDown(r.at(252, 161, 1))
	r.pull(252, 140)
	if slices.Equal(before, r.frame().Pix) {
		t.Error("nothing is seen of the drag")
	}
	r.pull(252, 131)
	r.s.MouseUp(r.at(252, 131, 1))
	// Held two units beside its middle, it stays so.
	if e := one[MoveGrip](r); e.ID != "margin" || e.At.Dist(geom.Pt{X: 250, Y: 130}) > 0.01 {
		t.Errorf("moved %v", e)
	}
	if n := len(asked); n < 2 || asked[n-1].Dist(geom.Pt{X: 250, Y: 130}) > 0.01 {
		t.Errorf("the owner was asked about %v", asked)
	}
}

func TestABreakOnAPointHasItsKnobBesideIt(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	gripped(r)
	r.s.OnGrip = func(_ string, at geom.Pt) GripShown { return GripShown{At: at} }
	r.drag(200, 200, 210, 220) // the tear's own point
	if e := one[Change](r); e.Why != MovePoint {
		t.Errorf("%v, want the point moved", e)
	}
	gripped(r)
	r.drag(200, 200+knobOff, 240, 200+knobOff)
	if e := one[MoveGrip](r); e.ID != "break 0" || e.At.Dist(geom.Pt{X: 240, Y: 200}) > 0.01 {
		t.Errorf("moved %v", e)
	}
	r.double(200, 200+knobOff)
	if e := one[DropGrip](r); e.ID != "break 0" {
		t.Errorf("dropped %v", e)
	}
}

func TestEscapeLetsAGripBe(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	gripped(r)
	r.s.OnGrip = func(_ string, at geom.Pt) GripShown { return GripShown{At: at} }
	r.s.MouseDown(r.at(250, 160, 1))
	r.pull(250, 120)
	r.key(fyne.KeyEscape)
	r.s.MouseUp(r.at(250, 120, 1))
	r.none()
}
