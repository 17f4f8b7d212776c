package pdf

import (
	"fmt"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// order prints a diagram of the gatherings and the sheet for checking the
// order twice.
func (b *book) order() {
	fl := b.newFlow("Order of the leaves", "Order of the leaves")
	if len(b.job.Gatherings) == 0 {
		fl.words("No gatherings are recorded for this job.")
		return
	}
	leaves, pages := collate.Count(b.job)
	fl.fact("Collation", collate.Formula(b.job))
	fl.fact("Extent", fmt.Sprintf("%s, %s, without the cover", count(leaves, "leaf", "leaves"), count(pages, "page", "pages")))
	for _, p := range collate.Problems(b.job) {
		fl.fact("To look at", p.Words+" "+p.Hint)
	}
	for i := range b.job.Gatherings {
		fl.diagram(i)
	}
	fl.tickSheet()
}

const folioStep = 5.6

// diagram draws a gathering as one sees it from the tail: each leaf a line,
// the two leaves of a bifolium joined at the fold.
func (fl *flow) diagram(gathering int) {
	b, job := fl.b, fl.b.job
	places := collate.Places(job, gathering)
	fl.heading("Gathering " + collate.Name(job, gathering))
	fl.room(min(float64(len(places))*folioStep+4, b.bottom()-b.top()-20))
	fold, edge := marginX+4+float64(len(job.Gatherings[gathering].Sheets))*3, marginX+95
	at := map[int]float64{} // y of the first leaf of each sheet
	y := fl.y + 3
	for _, p := range places {
		x := fold - float64(len(job.Gatherings[gathering].Sheets)-p.Sheet)*3
		b.line(black, 0.3)
		if p.Missing {
			b.line(grey, 0.3)
			b.f.SetDashPattern([]float64{1.2, 1.2}, 0)
		}
		single := job.Gatherings[gathering].Sheets[p.Sheet].Half != mendplan.WholeSheet
		left := x + 3
		if single {
			left = fold + 4 // a single leaf is joined to nothing
		}
		b.f.Line(left, y, edge, y)
		b.f.SetDashPattern(nil, 0)
		if first, ok := at[p.Sheet]; ok && !single {
			b.line(black, 0.3)
			b.f.Line(left, first, left, y)
		}
		at[p.Sheet] = y
		b.font("", 8)
		b.colour(black)
		b.text(edge+3, y+1, folioWords(job, p))
		y += folioStep
	}
	fl.y = y + 1
}

func folioWords(job mendplan.Job, p collate.Place) string {
	s := fmt.Sprintf("%d   pages %s, %s", p.Folio, p.Recto.Label, p.Verso.Label)
	if leaf, ok := job.Leaf(p.Leaf); ok {
		s += "   leaf " + leaf.Mark
	}
	if p.Missing {
		s += "   missing"
	}
	if p.Blank {
		s += "   blank"
	}
	return s
}

// tickSheet lists what must show on each sheet as it is laid down, with room
// for two independent checks.
func (fl *flow) tickSheet() {
	fl.heading("Putting back, from the outermost sheet inwards")
	fl.words("Lay each sheet with the side named facing up and compare both page numbers. A second person checks again, from the list and not from memory.")
	fl.y += 1
	cols := fl.b.stretch([]column{{"1st", 9, false}, {"2nd", 9, false}, {"gathering", 20, false}, {"leaf", 18, false}, {"side up", 24, false},
		{"page left", 24, true}, {"page right", 24, true}, {"lies on", 18, false}, {"below", 18, false}}, 4)
	cols[7].head, cols[8].head = "laid on", "then comes"
	var rows [][]string
	for _, r := range collate.Order(fl.b.job, collate.OutsideIn) {
		mark := r.Mark
		if r.Missing {
			mark = "missing"
		}
		side := "inner (back)"
		if r.Up == mendplan.Front {
			side = "outer (front)"
		}
		rows = append(rows, []string{box, box, r.Gathering, mark, side, r.Left, r.Right, r.Below, r.Above})
	}
	fl.table(cols, rows)
	fl.signature("first check: name, date, time")
	fl.signature("second check: name, date, time")
}
