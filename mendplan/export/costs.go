package export

import (
	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// OrderLine is what there should be at hand of one tissue.
type OrderLine struct {
	Tissue        string  `json:"tissue"`
	SheetLengthMM float64 `json:"sheet_length_mm"` // of a fresh sheet; 0 when none is in stock
	SheetWidthMM  float64 `json:"sheet_width_mm"`
	InStock       int     `json:"sheets_in_stock"`
	Opened        int     `json:"sheets_opened"`
	SpareMM2      float64 `json:"spare_mm2"` // advised besides, less the remnants kept
	Spare         int     `json:"sheets_spare"`
	Lacking       int     `json:"sheets_lacking"` // for pieces that found no place, at least
	Order         int     `json:"sheets_to_order"`
}

// LeafCost is what one leaf takes of tissue and time.
type LeafCost struct {
	Leaf    string  `json:"leaf"`
	Pieces  int     `json:"pieces"`
	AreaMM2 float64 `json:"area_mm2"`
	Costs   []Cost  `json:"costs"` // its share of the sheets opened, less what is kept of them
	Minutes float64 `json:"hands_on_min"`
}

// Cost is an amount of money.
type Cost struct {
	Amount   float64 `json:"amount"`
	Currency string  `json:"currency"`
}

func (out *Plan) addCosts(job mendplan.Job, plan mendplan.Plan) {
	out.Order, out.Leaves = []OrderLine{}, []LeafCost{}
	for _, o := range course.OrderList(job, plan) {
		out.Order = append(out.Order, OrderLine{Tissue: o.Tissue, SheetLengthMM: o.SheetMM[0], SheetWidthMM: o.SheetMM[1], InStock: o.InStock,
			Opened: o.Opened, SpareMM2: o.SpareMM2, Spare: o.Spare, Lacking: o.Lacking, Order: o.Order})
	}
	for _, l := range course.CostByLeaf(job, plan) {
		c := LeafCost{Leaf: l.Leaf, Pieces: l.Pieces, AreaMM2: l.AreaMM2, Minutes: l.Minutes, Costs: []Cost{}}
		for _, a := range l.Costs {
			c.Costs = append(c.Costs, Cost(a))
		}
		out.Leaves = append(out.Leaves, c)
	}
}
