package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan"
)

// estimate prints what tissue and paste the plan takes, and the problems.
func (b *book) estimate() {
	b.part = "Estimate"
	next := func() float64 { b.page(false); return b.top() }
	y := next()
	b.font("B", 14)
	b.text(marginX, y+5, "Estimate")
	y = b.tissueTable(y+9, next)
	y = b.pasteLines(y+8, next)
	b.problemLines(y+6, next)
}

func (b *book) tissueTable(y float64, next func() float64) float64 {
	cols := b.stretch([]column{{"tissue", 30, false}, {"pieces", 14, true}, {"sheets", 14, true}, {"remnants", 17, true}, {"off rolls", 18, true},
		{"area of pieces", 24, true}, {"mass", 16, true}, {"yield", 14, true}, {"cost", 24, true}}, 0)
	var rows [][]string
	for _, t := range b.plan.Estimate.Tissues {
		roll := "none"
		if t.RollMM > 0 {
			roll = b.units.Length(t.RollMM)
		}
		rows = append(rows, []string{b.tissueName(t.Tissue), fmt.Sprint(t.Pieces), fmt.Sprint(t.Sheets), fmt.Sprint(t.Remnants), roll,
			b.units.Area(t.PiecesMM2), fmt.Sprintf("%.3g g", t.MassG), fmt.Sprintf("%.0f %%", t.Yield*100), cost(t)})
	}
	return b.table(cols, rows, y, next)
}

func cost(t mendplan.TissueEstimate) string {
	if t.Cost == 0 {
		return "no price"
	}
	return strings.TrimSpace(fmt.Sprintf("%.2f %s", t.Cost, t.Currency))
}

// pasteLines prints the way from pasted area to the batch, each step with
// its figure, so that it can be followed and doubted.
func (b *book) pasteLines(y float64, next func() float64) float64 {
	p := b.plan.Estimate.Paste
	rules := mendplan.InForce{Job: b.job.Rules}
	if y+60 > b.bottom() {
		y = next()
	}
	b.font("B", 10)
	b.text(marginX, y, "Starch paste")
	lines := [][2]string{
		{"area to be pasted", b.units.Area(p.AreaMM2)},
		{fmt.Sprintf("on the tissue, at %g g/m² wet", rules.Number(mendplan.WetCoat)), grams(p.OnTissueG)},
		{fmt.Sprintf("spread out, %g times that", rules.Number(mendplan.Spreading)), grams(p.SpreadG)},
		{fmt.Sprintf("of it paste as cooked, thinned 1 : %g", rules.Number(mendplan.Thinning)), grams(p.CookedG)},
		{"on the heat, with what cooking and sieve take", grams(p.SlurryG)},
		{"cook this batch", grams(p.BatchG)},
		{fmt.Sprintf("dry starch, %g %% by mass", rules.Number(mendplan.PasteStrength)), fmt.Sprintf("%s = %.0f mL = %.1f tablespoons", grams(p.StarchG), p.StarchML, p.StarchTbsp)},
		{"water", fmt.Sprintf("%s = %.0f mL", grams(p.WaterG), p.WaterML)},
	}
	y += 6
	for _, l := range lines {
		b.font("", 8.5)
		b.text(marginX, y, l[0])
		b.font("B", 8.5)
		b.text(marginX+92, y, l[1])
		y += 4.6
	}
	b.font("", 8.5)
	if p.BatchG > 0 {
		b.text(marginX, y+1, fmt.Sprintf("This batch would serve %.1f such jobs. There is no published figure for wet paste on tissue: weigh some strips and set your own.", p.Times))
	}
	return y + 6
}

func grams(g float64) string {
	switch {
	case g == 0:
		return "0 g"
	case g < 10:
		return fmt.Sprintf("%.2f g", g)
	}
	return fmt.Sprintf("%.0f g", g)
}

func (b *book) problemLines(y float64, next func() float64) {
	if len(b.plan.Problems) == 0 {
		return
	}
	if y+14 > b.bottom() {
		y = next()
	}
	b.font("B", 10)
	b.text(marginX, y, "To look at")
	y += 6
	for _, p := range b.plan.Problems {
		b.font("", 8)
		if y+9 > b.bottom() {
			y = next() + 4
			b.font("", 8)
		}
		place := ""
		if leaf, ok := b.job.Leaf(p.Leaf); ok {
			place = "Leaf " + leaf.Mark + ": "
		}
		y = b.paragraph(marginX, y, b.w-2*marginX, 4, string(p.Weight)+". "+place+p.Words+" "+p.Hint) + 1
	}
}
