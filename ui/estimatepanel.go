package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// estimatePanel says how much tissue and paste the job takes, and on which
// rules that rests; the rules can be changed beside the figures.
type estimatePanel struct {
	w      *Window
	tissue *wordTable
	paste  *fyne.Container
	total  *widget.Label
	rules  []*ruleRow
	far    *howFar
	box    fyne.CanvasObject
}

// pasteRules are the rules behind the paste.
var pasteRules = []mendplan.RuleKey{mendplan.WetCoat, mendplan.Spreading, mendplan.Thinning, mendplan.PasteStrength,
	mendplan.BulkDensity, mendplan.CookingLoss, mendplan.SievingLoss, mendplan.SmallestBatch, mendplan.PasteWarn,
	mendplan.PasteExpire, mendplan.SpareShare}

func newEstimatePanel(w *Window) *estimatePanel {
	p := &estimatePanel{w: w, paste: tight(), total: widget.NewLabel("")}
	p.total.TextStyle.Bold, p.total.Wrapping = true, fyne.TextWrapWord
	p.tissue = newWordTable([]column{{t("tissue"), 210}, {t("pieces"), 60}, {t("new sheets"), 85}, {t("remnants"), 80}, {t("off rolls"), 85},
		{t("area of pieces"), 110}, {t("opened"), 100}, {t("used well"), 80}, {t("mass"), 70}, {t("cost"), 90}, {t("spare to have"), 110}}, nil)
	rules := tight(heading(t("What the paste rests on")))
	for _, key := range pasteRules {
		if r, ok := mendplan.RuleFor(key); ok {
			row := newRuleRow(r, jobRules{w})
			p.rules = append(p.rules, row)
			rules.Add(row.box)
		}
	}
	p.far = newHowFar(w)
	caution := small(t("There is no published figure for the paste that stays on mending tissue: weigh some pieces before and after pasting, and correct the first two rules."))
	left := container.NewBorder(container.NewVBox(p.total, heading(t("Tissue"))), nil, nil, nil, p.tissue)
	paste := container.NewVScroll(inScroll(heading(t("Paste")), p.paste, caution, p.far.box))
	columns := container.NewHSplit(paste, container.NewVScroll(rules))
	columns.Offset = 0.48
	split := container.NewVSplit(left, columns)
	split.Offset = 0.36
	p.box = container.New(layout.NewCustomPaddedLayout(4, 2, 6, 6), split)
	return p
}

func (p *estimatePanel) content() fyne.CanvasObject { return p.box }

func (p *estimatePanel) refresh() {
	j, e := p.w.session.Job(), p.w.session.Plan().Estimate
	u := unitsOf(j)
	var rows [][]string
	pieces, sheets := 0, 0
	for _, te := range e.Tissues {
		ts, _ := j.Tissue(te.Tissue)
		pieces, sheets = pieces+te.Pieces, sheets+te.Sheets
		cost := "—"
		if te.Cost > 0 {
			cost = figures("%.2f %s", te.Cost, te.Currency)
		}
		rows = append(rows, []string{ts.Name, fmt.Sprint(te.Pieces), fmt.Sprint(te.Sheets), fmt.Sprint(te.Remnants), u.Length(te.RollMM),
			u.Area(te.PiecesMM2), u.Area(te.OpenedMM2), percent(te.Yield), figures("%.2f g", te.MassG), cost, u.Area(te.SpareMM2)})
	}
	p.tissue.show(rows)
	p.total.SetText(t("%s from %s; paste for %s: %.0f g to cook.", pieceCount(pieces), sheetCount(sheets), u.Area(e.Paste.AreaMM2), e.Paste.BatchG))
	p.showPaste(e.Paste, u)
	p.far.refresh()
	for _, row := range p.rules {
		row.refresh()
	}
}

func sheetCount(n int) string {
	if n == 1 {
		return t("1 new sheet")
	}
	return t("%d new sheets", n)
}

// showPaste leads from the pasted area to what to weigh, line by line.
func (p *estimatePanel) showPaste(e mendplan.PasteEstimate, u mendplan.Units) {
	p.paste.Objects = nil
	line := func(words, value string) {
		l, v := widget.NewLabel(words), widget.NewLabel(value)
		v.TextStyle.Bold = true
		l.Truncation = fyne.TextTruncateEllipsis
		p.paste.Add(container.NewBorder(nil, nil, nil, v, l))
	}
	line(t("Area to paste"), u.Area(e.AreaMM2))
	line(t("Wet paste that stays on the pieces"), figures("%.1f g", e.OnTissueG))
	line(t("Spread out for them"), figures("%.1f g", e.SpreadG))
	line(t("As cooked, before thinning"), figures("%.1f g", e.CookedG))
	line(t("Water to thin it"), figures("%.1f g", e.ThinG))
	line(t("Put on the heat for just that much"), figures("%.1f g", e.SlurryG))
	p.paste.Add(widget.NewSeparator())
	line(t("Batch to cook"), fmt.Sprintf("%.0f g", e.BatchG))
	line(t("Starch"), figures("%.1f g  (%.0f mL, %.1f tbsp)", e.StarchG, e.StarchML, e.StarchTbsp))
	line(t("Water"), fmt.Sprintf("%.0f mL", e.WaterML))
	if e.Times > 1.5 {
		p.paste.Add(small(t("One batch would serve this job %.0f times.", e.Times)))
	}
	p.paste.Refresh()
}
