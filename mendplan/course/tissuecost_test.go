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

// Tissue off a roll is paid by the length cut off, once: the estimate, the way
// "everything, as planned" and the leaves' shares must agree.
func TestTissueOffARollIsPaidOnceEverywhere(t *testing.T) {
	job := mendplan.Job{Tissues: []mendplan.Tissue{{ID: "A", Grammage: 5}}, Leaves: []mendplan.Leaf{{ID: "L1"}, {ID: "L2"}},
		Stock: []mendplan.Stock{{ID: "R", Tissue: "A", Kind: mendplan.Roll, WidthMM: 100, LengthMM: 5000, Count: 1, Price: 8, Currency: "EUR"}}}
	var plan mendplan.Plan
	for i, leaf := range []string{"L1", "L1", "L2"} { // a full width of the roll each
		plan.Pieces = append(plan.Pieces, mendplan.Piece{Label: string(rune('a' + i)), Leaf: leaf, Tissue: "A", Role: mendplan.RoleMend, BlankLengthMM: 250, BlankWidthMM: 100, AreaMM2: 25000})
	}
	plan = mendplan.Assemble(context.Background(), job, plan.Pieces, nil, -1, nil)
	want := 8 * 0.75 // 750 mm of the roll
	if got := plan.Estimate.Tissues[0].Cost; math.Abs(got-want) > 1e-9 {
		t.Errorf("the estimate says %.4f, want %.4f", got, want)
	}
	if got := course.Choices(context.Background(), job, plan)[0].Costs; len(got) != 1 || math.Abs(got[0].Amount-want) > 1e-9 {
		t.Errorf("everything as planned costs %v, want %.4f", got, want)
	}
	sum := 0.0
	for _, l := range course.CostByLeaf(job, plan) {
		sum += l.Costs[0].Amount
	}
	if math.Abs(sum-want) > 1e-9 {
		t.Errorf("the leaves pay %.4f together, want %.4f", sum, want)
	}
}
