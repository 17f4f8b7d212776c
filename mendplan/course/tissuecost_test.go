package course_test

import (
	"context"
	"math"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// Two leaves share a sheet of 400 × 500 mm at 10 EUR: what they pay together
// is its price less that of the remnants kept, shared by the blanks' areas.
func TestTheCostOfASheetIsSharedByArea(t *testing.T) {
	job := mendplan.Job{Tissues: []mendplan.Tissue{{ID: "A", Grammage: 5}}, Leaves: []mendplan.Leaf{{ID: "L1"}, {ID: "L2"}, {ID: "L3"}},
		Stock: []mendplan.Stock{{ID: "S", Tissue: "A", Kind: mendplan.SheetStock, LengthMM: 500, WidthMM: 400, Count: 1, Price: 10, Currency: "EUR"}}}
	piece := func(label, leaf string, l, w float64) mendplan.Piece {
		return mendplan.Piece{Label: label, Leaf: leaf, Tissue: "A", Role: mendplan.RoleMend, BlankLengthMM: l, BlankWidthMM: w, AreaMM2: l * w}
	}
	plan := mendplan.Plan{Pieces: []mendplan.Piece{piece("a", "L1", 100, 50), piece("b", "L2", 100, 100), piece("c", "L2", 100, 50)}}
	plan.Layouts, _ = mendplan.Layouts(context.Background(), job, plan.Pieces, -1, nil)
	s := plan.Layouts[0].Layout.Sheets[0]
	kept := 0.0
	for _, r := range s.Remnants {
		if r.Keep {
			kept += r.W * r.H
		}
	}
	used := 10 * (1 - kept/(400*500))
	got := course.CostByLeaf(job, plan)
	if len(got) != 2 || kept == 0 {
		t.Fatalf("%d leaves, %g mm² kept", len(got), kept)
	}
	for i, share := range []float64{0.25, 0.75} {
		if c := got[i].Costs[0]; math.Abs(c.Amount-used*share) > 1e-9 || c.Currency != "EUR" {
			t.Errorf("leaf %s pays %+v, want %.4f", got[i].Leaf, c, used*share)
		}
	}
}

func TestTheOrderListCountsSpareAndWhatLacks(t *testing.T) {
	job := mendplan.Job{Tissues: []mendplan.Tissue{{ID: "A", Grammage: 5}}, Leaves: []mendplan.Leaf{{ID: "L1"}},
		Stock: []mendplan.Stock{{ID: "S", Tissue: "A", Kind: mendplan.SheetStock, LengthMM: 300, WidthMM: 200, Count: 2}}}
	var plan mendplan.Plan
	for i := range 5 { // each takes a sheet of its own
		plan.Pieces = append(plan.Pieces, mendplan.Piece{Label: string(rune('a' + i)), Leaf: "L1", Tissue: "A", BlankLengthMM: 280, BlankWidthMM: 190, AreaMM2: 280 * 190})
	}
	plan = mendplan.Assemble(context.Background(), job, plan.Pieces, nil, -1, nil)
	got := course.OrderList(job, plan)
	// Ten per cent of five blanks, less the strip of 200 × 20 mm kept of each
	// sheet, is a third of a sheet; three pieces lack a place.
	want := course.OrderLine{Tissue: "A", SheetMM: [2]float64{300, 200}, InStock: 2, Opened: 2, SpareMM2: 0.1*5*280*190 - 2*200*20, Spare: 1, Lacking: 3, Order: 4}
	if len(got) != 1 || math.Abs(got[0].SpareMM2-want.SpareMM2) > 1e-6 {
		t.Fatalf("got %+v, want %+v", got, want)
	}
	got[0].SpareMM2 = want.SpareMM2
	if got[0] != want {
		t.Errorf("got %+v, want %+v", got[0], want)
	}
}
