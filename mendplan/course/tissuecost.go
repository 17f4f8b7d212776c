package course

import (
	"math"

	"leafmend/mendplan"
)

// LeafCost is what one leaf takes of tissue and time.
type LeafCost struct {
	Leaf    string // ID
	Pieces  int
	AreaMM2 float64 // of the pieces
	Costs   []Cost  // its share of the sheets opened, less what is kept of them
	Minutes float64 // at the bench
}

// CostByLeaf shares the price of each sheet, less that of the remnants kept,
// among the pieces cut from it by the area of their blanks, and adds up leaf
// by leaf in the order of the job. Leaves without pieces are left out.
func CostByLeaf(job mendplan.Job, plan mendplan.Plan) []LeafCost {
	at := map[string]int{}
	var out []LeafCost
	for _, l := range Hours(job, plan) {
		at[l.Leaf] = len(out)
		out = append(out, LeafCost{Leaf: l.Leaf, Pieces: l.Pieces, Minutes: l.Minutes()})
	}
	leafOf := map[string]int{}
	for _, p := range plan.Pieces {
		if i, ok := at[p.Leaf]; ok {
			leafOf[p.Label] = i
			out[i].AreaMM2 += p.AreaMM2
		}
	}
	for _, l := range plan.Layouts {
		for _, s := range l.Layout.Sheets {
			placed, kept := 0.0, 0.0
			for _, r := range s.Remnants {
				if r.Keep {
					kept += r.W * r.H
				}
			}
			for _, p := range s.Places {
				placed += p.W * p.H
			}
			used := s.Price * max(1-kept/(s.W*s.H), 0)
			for _, p := range s.Places {
				blanks := p.Blanks()
				for _, label := range blanks {
					if i, ok := leafOf[label]; ok {
						share := p.W * p.H / placed / float64(len(blanks))
						out[i].Costs = AddCost(out[i].Costs, used*share, currencyOf(job, s.Stock))
					}
				}
			}
		}
	}
	return out
}

// OrderLine is what there should be at hand of one tissue.
type OrderLine struct {
	Tissue   string     // ID
	SheetMM  [2]float64 // length and width of a fresh sheet; 0 when none is in stock
	InStock  int        // fresh sheets
	Opened   int        // of them by the plan
	SpareMM2 float64    // advised besides, less the remnants the plan keeps
	Spare    int        // the same in sheets
	Lacking  int        // sheets for pieces that found no place, at least
	Order    int        // sheets to order
}

// OrderList says for each tissue of the plan how many sheets to have, with
// the spare the rules advise, and how many to order. The size is that of the
// tissue's first sheet in stock; a tissue without sheets is told with none.
func OrderList(job mendplan.Job, plan mendplan.Plan) []OrderLine {
	var out []OrderLine
	for i, l := range plan.Layouts {
		o := OrderLine{Tissue: l.Tissue}
		for _, s := range job.Stock {
			if s.Tissue == l.Tissue && s.Kind == mendplan.SheetStock {
				if o.SheetMM[0] == 0 {
					o.SheetMM = [2]float64{s.LengthMM, s.WidthMM}
				}
				o.InStock += max(s.Count, 0)
			}
		}
		if i < len(plan.Estimate.Tissues) {
			e := plan.Estimate.Tissues[i]
			o.Opened, o.SpareMM2 = e.Sheets, max(e.SpareMM2-e.KeptMM2, 0)
		}
		area := o.SheetMM[0] * o.SheetMM[1]
		if area > 0 {
			o.Spare = int(math.Ceil(o.SpareMM2/area - 1e-9))
			o.Lacking = int(math.Ceil(unplacedMM2(plan, i)/area - 1e-9))
		}
		o.Order = max(o.Opened+o.Spare+o.Lacking-o.InStock, 0)
		out = append(out, o)
	}
	return out
}

// unplacedMM2 is the area of the blanks of one layout that found no place.
func unplacedMM2(plan mendplan.Plan, layout int) float64 {
	sum := 0.0
	for _, u := range plan.Layouts[layout].Layout.Unplaced {
		for _, p := range plan.Pieces {
			if p.Label == u.Blank {
				sum += p.BlankLengthMM * p.BlankWidthMM * float64(u.Count)
			}
		}
	}
	return sum
}
