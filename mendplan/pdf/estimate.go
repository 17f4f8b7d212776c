package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// estimate prints what tissue and paste the plan takes, what to have at hand,
// what each leaf costs, and the problems.
func (b *book) estimate() {
	fl := b.newFlow(b.say("Estimate"), b.say("Estimate"))
	fl.y = b.tissueTable(fl.y, fl.page)
	fl.sheetYields()
	fl.orderList()
	fl.leafCosts()
	fl.y = b.pasteLines(fl.y+8, fl.page)
	fl.stillToDo()
	fl.batches()
	b.problemLines(fl.y+6, fl.page)
}

func (b *book) tissueTable(y float64, next func() float64) float64 {
	cols := b.stretch([]column{{b.say("tissue"), 30, false}, {b.say("pieces"), 15, true}, {b.say("sheets"), 14, true}, {b.say("remnants"), 18, true}, {b.say("off rolls"), 18, true},
		{b.say("area of pieces"), 24, true}, {b.say("mass"), 16, true}, {b.say("yield"), 16, true}, {b.say("cost"), 24, true}}, 0)
	var rows [][]string
	for _, t := range b.plan.Estimate.Tissues {
		roll := b.say("none")
		if t.RollMM > 0 {
			roll = b.units.Length(t.RollMM)
		}
		rows = append(rows, []string{b.tissueName(t.Tissue), fmt.Sprint(t.Pieces), fmt.Sprint(t.Sheets), fmt.Sprint(t.Remnants), roll,
			b.units.Area(t.PiecesMM2), b.figures("%.3g g", t.MassG), fmt.Sprintf("%.0f %%", t.Yield*100), b.cost(t)})
	}
	return b.table(cols, rows, y, next)
}

func (b *book) cost(t mendplan.TissueEstimate) string {
	if t.Cost == 0 {
		return b.say("no price")
	}
	return strings.TrimSpace(b.figures("%.2f %s", t.Cost, t.Currency))
}

// sheetYields tells sheet by sheet how far it goes.
func (fl *flow) sheetYields() {
	b := fl.b
	runs := b.runs()
	if len(runs) == 0 {
		return
	}
	fl.heading(b.say("How far each sheet goes"))
	cols := b.stretch([]column{{b.say("sheet"), 24, false}, {b.say("tissue"), 40, false}, {b.say("along grain × across"), 34, true}, {b.say("pieces"), 15, true}, {b.say("became pieces"), 26, true}, {b.say("back to stock"), 26, true}, {b.say("waste"), 16, true}}, 1)
	var rows [][]string
	for _, r := range runs {
		s := r.sheets[0]
		placed, kept, area := 0.0, 0.0, s.W*s.H
		for _, p := range s.Places {
			placed += p.W * p.H
		}
		for _, o := range s.Remnants {
			if o.Keep {
				kept += o.W * o.H
			}
		}
		percent := func(mm2 float64) string { return fmt.Sprintf("%.0f %%", 100*mm2/area) }
		rows = append(rows, []string{b.which(r.numbers), b.tissueName(r.tissue), b.units.Size(s.H, s.W), fmt.Sprint(piecesOn(s)), percent(placed), percent(kept), percent(area - placed - kept)})
	}
	fl.table(cols, rows)
}

// orderList says what to have at hand, with spare, and what to order.
func (fl *flow) orderList() {
	b := fl.b
	lines := course.OrderList(b.job, b.plan)
	if len(lines) == 0 {
		return
	}
	spare := mendplan.InForce{Job: b.job.Rules}.Number(mendplan.SpareShare)
	fl.heading(b.say("To have at hand, with %g %% spare", spare))
	cols := b.stretch([]column{{"", 6, false}, {b.say("tissue"), 40, false}, {b.say("fresh sheet"), 34, true}, {b.say("in stock"), 18, true}, {b.say("opened"), 18, true}, {b.say("spare"), 16, true}, {b.say("lacking"), 18, true}, {b.say("to order"), 20, true}}, 1)
	var rows [][]string
	for _, o := range lines {
		size := b.say("none")
		if o.SheetMM[0] > 0 {
			size = b.units.Size(o.SheetMM[0], o.SheetMM[1])
		}
		rows = append(rows, []string{box, b.tissueName(o.Tissue), size, fmt.Sprint(o.InStock), fmt.Sprint(o.Opened), fmt.Sprint(o.Spare), fmt.Sprint(o.Lacking), fmt.Sprint(o.Order)})
	}
	fl.table(cols, rows)
}

// leafCosts tells what each leaf takes.
func (fl *flow) leafCosts() {
	b := fl.b
	leaves := course.CostByLeaf(b.job, b.plan)
	if len(leaves) == 0 {
		return
	}
	fl.heading(b.say("Leaf by leaf"))
	cols := b.stretch([]column{{b.say("leaf"), 40, false}, {b.say("pieces"), 18, true}, {b.say("area of pieces"), 28, true}, {b.say("tissue"), 36, true}, {b.say("at the bench"), 28, true}}, 0)
	var rows [][]string
	sum := course.LeafCost{}
	for _, l := range leaves {
		leaf, _ := b.job.Leaf(l.Leaf)
		rows = append(rows, b.leafCostRow(strings.TrimSpace(markOf(leaf)+" "+leaf.Name), l))
		sum.Pieces, sum.AreaMM2, sum.Minutes = sum.Pieces+l.Pieces, sum.AreaMM2+l.AreaMM2, sum.Minutes+l.Minutes
		for _, c := range l.Costs {
			sum.Costs = course.AddCost(sum.Costs, c.Amount, c.Currency)
		}
	}
	rows = append(rows, b.leafCostRow(bold+b.say("together"), sum))
	fl.table(cols, rows)
	fl.words(b.say("Tissue is each leaf's share of the sheets opened, less the remnants that go back to stock."))
}

func (b *book) leafCostRow(name string, l course.LeafCost) []string {
	return []string{name, fmt.Sprint(l.Pieces), b.units.Area(l.AreaMM2), b.costs(l.Costs), fmt.Sprintf("%.0f min", l.Minutes)}
}

// pasteLines prints the way from pasted area to the batch, each step with
// its figure, so that it can be followed and doubted.
func (b *book) pasteLines(y float64, next func() float64) float64 {
	p := b.plan.Estimate.Paste
	rules := mendplan.InForce{Job: b.job.Rules}
	if y+60 > b.bottom() {
		y = next() + 4
	}
	b.font("B", 10)
	b.colour(black)
	b.text(marginX, y, b.say("Starch paste"))
	lines := [][2]string{
		{b.say("area to be pasted"), b.units.Area(p.AreaMM2)},
		{b.say("on the tissue, at %g g/m² wet", rules.Number(mendplan.WetCoat)), b.grams(p.OnTissueG)},
		{b.say("spread out, %g times that", rules.Number(mendplan.Spreading)), b.grams(p.SpreadG)},
		{b.say("of it paste as cooked, thinned 1 : %g", rules.Number(mendplan.Thinning)), b.grams(p.CookedG)},
		{b.say("on the heat, with what cooking and sieve take"), b.grams(p.SlurryG)},
		{b.say("cook this batch"), b.grams(p.BatchG)},
		{b.say("dry starch, %g %% by mass", rules.Number(mendplan.PasteStrength)), b.say("%s = %.0f mL = %.1f tablespoons", b.grams(p.StarchG), p.StarchML, p.StarchTbsp)},
		{b.say("water"), fmt.Sprintf("%s = %.0f mL", b.grams(p.WaterG), p.WaterML)},
	}
	y += 6
	for _, l := range lines {
		b.font("", 8.5)
		b.textFit(marginX, y, 90, l[0])
		b.font("B", 8.5)
		b.text(marginX+92, y, l[1])
		y += 4.6
	}
	b.font("", 8.5)
	if p.BatchG > 0 {
		y = b.paragraph(marginX, y+1, b.w-2*marginX, 4.2, b.say("This batch would serve %.1f such jobs. There is no published figure for wet paste on tissue: weigh some strips and set your own.", p.Times))
	}
	return y + 2
}

// stillToDo tells what paste the pieces take that are not on their leaves yet.
func (fl *flow) stillToDo() {
	b := fl.b
	area, n := 0.0, 0
	for _, p := range b.plan.Pieces {
		if !course.PieceDone(b.job, p) {
			area, n = area+p.PasteMM2, n+1
		}
	}
	if n == len(b.plan.Pieces) {
		return
	}
	e := mendplan.EstimatePaste(area, mendplan.InForce{Job: b.job.Rules})
	fl.words(b.say("Still to paste: %s, %s; for these alone cook %s with %s of dry starch.", b.count(n, "1 piece", "%d pieces"), b.units.Area(area), b.grams(e.BatchG), b.grams(e.StarchG)))
}

// batches lists the paste cooked so far and how it stands.
func (fl *flow) batches() {
	b := fl.b
	if len(b.job.Batches) == 0 {
		return
	}
	fl.heading(b.say("Paste cooked so far"))
	var rows [][]string
	for _, batch := range b.job.Batches {
		state := ""
		if day := b.day(); day != "" {
			state = b.say(string(course.BatchState(b.job, batch, day)))
		}
		name := batch.Recipe
		for _, r := range course.Recipes(b.job) {
			if r.ID == batch.Recipe {
				name = b.say(r.Name)
			}
		}
		rows = append(rows, []string{batch.ID, name, batch.Made, batch.UseBy, b.grams(batch.Grams), state})
	}
	fl.table(b.stretch([]column{{b.say("batch"), 16, false}, {b.say("recipe"), 50, false}, {b.say("made"), 22, false}, {b.say("use by"), 22, false}, {b.say("mass"), 18, true}, {b.say("state"), 50, false}}, 1), rows)
}

func (b *book) grams(g float64) string {
	switch {
	case g == 0:
		return "0 g"
	case g < 10:
		return b.figures("%.2f g", g)
	}
	return fmt.Sprintf("%.0f g", g)
}

func (b *book) problemLines(y float64, next func() float64) {
	if len(b.plan.Problems) == 0 {
		return
	}
	if y+14 > b.bottom() {
		y = next() + 4
	}
	b.font("B", 10)
	b.text(marginX, y, b.say("To look at"))
	y += 6
	for _, p := range b.plan.Problems {
		b.font("", 8)
		if y+9 > b.bottom() {
			y = next() + 4
			b.font("", 8)
		}
		place := ""
		if leaf, ok := b.job.Leaf(p.Leaf); ok {
			place = b.say("Leaf %s", markOf(leaf)) + ": "
		}
		y = b.paragraph(marginX, y, b.w-2*marginX, 4, b.say(string(p.Weight))+". "+place+b.problemWords(p)) + 1
	}
}
