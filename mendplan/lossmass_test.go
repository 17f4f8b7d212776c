package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// A square of 20 × 20 mm of which half lies past the edge, in paper of
// 80 g/m²: 200 mm² weigh 0.016 g. ISO 216 sheets give the same proportion: A4
// at 80 g/m² is 4.990 g.
func TestALossWeighsItsAreaWithinTheEdge(t *testing.T) {
	side := mendplan.Side{Scan: mendplan.Scan{Path: "a", Width: 2100, Height: 2970}, Calibration: mendplan.Calibration{Origin: mendplan.FromFile, MMPerPxX: 0.1, MMPerPxY: 0.1}}
	job := mendplan.Job{LeafPaper: mendplan.LeafDefaults{Grammage: 80}, Leaves: []mendplan.Leaf{{ID: "L1", Kind: mendplan.SingleLeaf, Front: side}}}
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front, Points: []geom.Pt{{X: -100, Y: 500}, {X: 100, Y: 500}, {X: 100, Y: 700}, {X: -100, Y: 700}}})
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front, Points: []geom.Pt{{}, {X: 2100}, {X: 2100, Y: 2970}, {Y: 2970}}})
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Tear, Side: mendplan.Front, Points: []geom.Pt{{}, {X: 9}}})
	got := mendplan.LossMasses(job)
	if len(got) != 2 || !near(got[0].AreaMM2, 200, 0.01) || !near(got[0].MassG, 0.016, 1e-5) {
		t.Errorf("got %+v", got)
	}
	if !near(got[1].MassG, 4.990, 0.0005) {
		t.Errorf("a whole A4 weighs %.4f g, want 4.990", got[1].MassG)
	}
}

// Sizes of the A series (ISO 216, from memory) and their masses at 80 g/m²,
// by arithmetic.
func TestWholeSheetsOfTheASeriesWeighWhatTheyShould(t *testing.T) {
	for _, c := range []struct {
		name       string
		w, h, mass float64
	}{
		{"A5", 148, 210, 2.486}, {"A4", 210, 297, 4.990}, {"A3", 297, 420, 9.979},
		{"A2", 420, 594, 19.958}, {"A1", 594, 841, 39.964}, {"A0", 841, 1189, 79.996},
	} {
		side := mendplan.Side{Scan: mendplan.Scan{Path: "a", Width: int(c.w), Height: int(c.h)}, Calibration: mendplan.Calibration{Origin: mendplan.FromFile, MMPerPxX: 1, MMPerPxY: 1}}
		job := mendplan.Job{LeafPaper: mendplan.LeafDefaults{Grammage: 80}, Leaves: []mendplan.Leaf{{ID: "L1", Kind: mendplan.SingleLeaf, Front: side}}}
		job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front, Points: []geom.Pt{{}, {X: c.w}, {X: c.w, Y: c.h}, {Y: c.h}}})
		got := mendplan.LossMasses(job)
		if len(got) != 1 || !near(got[0].MassG, c.mass, 0.0006) || !near(got[0].AreaMM2, c.w*c.h, 1) {
			t.Errorf("%s: %+v, want %.3f g", c.name, got, c.mass)
		}
	}
}
