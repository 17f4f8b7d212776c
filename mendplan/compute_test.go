package mendplan_test

import (
	"math"
	"reflect"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// px300 is the size of a pixel at 300 ppi in mm (25.4/300).
const px300 = 25.4 / 300

// at300 turns millimetres into pixels at 300 ppi.
func at300(mm ...geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(mm))
	for i, p := range mm {
		out[i] = geom.Pt{X: p.X / px300, Y: p.Y / px300}
	}
	return out
}

// side300 is a side of the given size scanned at 300 ppi.
func side300(wMM, hMM float64) mendplan.Side {
	return mendplan.Side{
		Scan:        mendplan.Scan{Path: "a.png", Width: int(math.Round(wMM / px300)), Height: int(math.Round(hMM / px300))},
		TrueEdge:    at300(geom.Pt{}, geom.Pt{X: wMM}, geom.Pt{X: wMM, Y: hMM}, geom.Pt{Y: hMM}),
		Calibration: mendplan.Calibration{Origin: mendplan.FromFile, MMPerPxX: px300, MMPerPxY: px300},
	}
}

// bench is a job with one single leaf of 200 × 280 mm, both sides scanned,
// and two tissues.
func bench(damages ...mendplan.Damage) mendplan.Job {
	leaf := mendplan.Leaf{ID: "L1", Mark: "3", Kind: mendplan.SingleLeaf,
		Front: side300(200, 280), Back: side300(200, 280), Grammage: 80, Grain: mendplan.GrainUpright}
	j := mendplan.Job{
		Leaves: []mendplan.Leaf{leaf},
		Tissues: []mendplan.Tissue{
			{ID: "T1", Name: "kozo tissue, 5 g/m²", Grammage: 5, Use: mendplan.ForTears},
			{ID: "T2", Name: "kozo paper, 40 g/m²", Grammage: 40, Use: mendplan.ForInfills},
		},
		Stock: []mendplan.Stock{
			{ID: "S1", Tissue: "T1", Kind: mendplan.SheetStock, LengthMM: 940, WidthMM: 635, Count: 5},
			{ID: "S2", Tissue: "T2", Kind: mendplan.SheetStock, LengthMM: 940, WidthMM: 635, Count: 5},
		},
	}
	for _, d := range damages {
		j, _ = j.AddDamage("L1", d)
	}
	return j
}

// traced is a damage on the front, its points in mm of a 300-ppi scan.
func traced(kind mendplan.DamageKind, mm ...geom.Pt) mendplan.Damage {
	return mendplan.Damage{Kind: kind, Side: mendplan.Front, Points: at300(mm...)}
}

func TestEachKindOfDamageGetsItsPieces(t *testing.T) {
	j := bench(
		traced(mendplan.Tear, geom.Pt{X: 100, Y: 100}, geom.Pt{X: 130, Y: 105}, geom.Pt{X: 200, Y: 105}),
		traced(mendplan.Loss, geom.Pt{X: 180, Y: 260}, geom.Pt{X: 201, Y: 255}, geom.Pt{X: 201, Y: 281}, geom.Pt{X: 185, Y: 281}),
		traced(mendplan.WeakArea, geom.Pt{X: 20, Y: 20}, geom.Pt{X: 40, Y: 20}, geom.Pt{X: 40, Y: 40}, geom.Pt{X: 20, Y: 40}),
		traced(mendplan.Nicks, geom.Pt{X: 30, Y: 278}, geom.Pt{X: 90, Y: 277}),
	)
	plan := mendplan.Compute(j)
	for _, p := range plan.Pieces {
		t.Logf("%s %s %s %s tissue %s %.1f mm², blank %.1f × %.1f at %.1f°, order %d %q", p.Label, p.Style, p.Role, p.Side, p.Tissue, p.AreaMM2, p.BlankLengthMM, p.BlankWidthMM, p.BlankDeg, p.Order, p.Reasons)
	}
	t.Log(plan.Problems)
	if got := len(plan.Pieces); got < 5 {
		t.Errorf("pieces: got %d, want at least 5", got)
	}
	if again := mendplan.Compute(j); !reflect.DeepEqual(plan, again) {
		t.Error("the same job gave another plan")
	}
}
