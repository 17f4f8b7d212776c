package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// Lengths measured before and after 30 minutes in water: Ritsumeikan
// University Art Research Center, digital library notes (2007).
func TestWetGrowthFollowsTheMeasurements(t *testing.T) {
	for _, c := range []struct {
		what               string
		dry, wet, percent  float64
		along              bool
		tolerancePercentPt float64
	}{
		{"machine-made paper across its grain", 220, 227.5, 3.409, false, 0.0005},
		{"hand-made kozo paper", 218.7, 219.0, 0.137, true, 0.0005},
		{"old Japanese book leaves when lined", 300, 305, 1.667, false, 0.0005},
	} {
		if got := (c.wet/c.dry - 1) * 100; !within(got, c.percent, c.tolerancePercentPt) {
			t.Errorf("%s: the record gives %.4f %%, the fact sheet %.3f", c.what, got, c.percent)
		}
		g := mendplan.WetGrowth{AcrossPercent: c.percent}
		span := geom.Pt{X: c.dry} // across an upright grain
		if c.along {
			g, span = mendplan.WetGrowth{AlongPercent: c.percent}, geom.Pt{Y: c.dry}
		}
		if got := g.Map(90, geom.Pt{}).Apply(span).Norm(); !within(got, c.wet, 0.01) {
			t.Errorf("%s: %.1f mm grows to %.3f, measured %.1f", c.what, c.dry, got, c.wet)
		}
	}
}

func TestAnA4LeafGrowsFiveMillimetresInWidth(t *testing.T) {
	// 210 mm × 2.5 % across the grain, 297 mm × 0.25 % along it.
	g := mendplan.WetGrowthOf(mendplan.InForce{})
	far := g.Map(90, geom.Pt{}).Apply(geom.Pt{X: 210, Y: 297})
	if !within(far.X, 215.25, 1e-9) || !within(far.Y, 297.7425, 1e-9) {
		t.Errorf("got %v, want 215.25 × 297.7425", far)
	}
}

func TestTheWetTemplateIsTheDryOneGrown(t *testing.T) {
	ring := traced(mendplan.Loss, geom.Pt{X: 60, Y: 60}, geom.Pt{X: 100, Y: 60}, geom.Pt{X: 100, Y: 120}, geom.Pt{X: 60, Y: 120})
	j := bench(ring)
	pieces, _ := mendplan.Pieces(j)
	wet, ok := mendplan.WetOutline(j, pieces[0])
	if !ok {
		t.Fatal("no wet outline although the grain is known")
	}
	dry, b := pieces[0].Outline.Bounds(), wet.Bounds()
	if !within(b.Width(), dry.Width()*1.025, 1e-6) || !within(b.Height(), dry.Height()*1.0025, 1e-6) {
		t.Errorf("wet %.3f × %.3f from dry %.3f × %.3f", b.Width(), b.Height(), dry.Width(), dry.Height())
	}
	leaf := j.Leaves[0]
	leaf.Grain = mendplan.GrainUnknown
	if _, ok := mendplan.WetOutline(j.WithLeaf(leaf), pieces[0]); ok {
		t.Error("a leaf of unknown grain got a wet outline")
	}
}
