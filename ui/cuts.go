package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// cutsPanel shows every sheet with its pieces and the cuts in their order.
type cutsPanel struct {
	w      *Window
	sheets []sheetRef
	at     int
	list   *widget.List
	draw   *sheetDrawing
	head   *widget.Label
	sub    *widget.Label
	steps  *wordTable
	loose  *widget.Label
	box    fyne.CanvasObject
	quiet  bool
	stack  *fyne.Container
	empty  fyne.CanvasObject
}

// sheetRef is one sheet of the layout, numbered through all tissues as on the
// print.
type sheetRef struct {
	number int
	tissue mendplan.Tissue
	sheet  nest.Sheet
}

func newCutsPanel(w *Window) *cutsPanel {
	p := &cutsPanel{w: w, head: heading(""), sub: small(""), loose: widget.NewLabel("")}
	p.loose.Importance, p.loose.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	p.draw = newSheetDrawing(func(piece string) { w.pickPieceFrom(piece) })
	p.draw.onHover = w.status.hover
	p.list = widget.NewList(func() int { return len(p.sheets) }, func() fyne.CanvasObject {
		a, b := widget.NewLabel(""), small("")
		a.TextStyle.Bold, a.Truncation, b.Wrapping, b.Truncation = true, fyne.TextTruncateEllipsis, fyne.TextWrapOff, fyne.TextTruncateEllipsis
		return tight(a, b)
	}, p.fillRow)
	p.list.OnSelected = func(i widget.ListItemID) {
		if !p.quiet {
			p.at = i
			p.showSheet()
		}
	}
	p.steps = p.newSteps()
	cautions := small(t("Keep fingers behind the ruler, use a metal rule, and change blades with a tool. Press a piece to see it on its leaf."))
	whole := widget.NewCheck(t("whole sheet"), p.draw.showWhole)
	middle := container.NewBorder(tight(container.NewBorder(nil, nil, nil, whole, p.head), p.sub), cautions, nil, nil, p.draw)
	right := container.NewHSplit(middle, container.NewBorder(heading(t("Cuts, in their order")), nil, nil, nil, p.steps))
	right.Offset = 0.46
	split := container.NewHSplit(container.NewBorder(heading(t("Sheets")), p.loose, nil, nil, p.list), right)
	split.Offset = 0.18
	p.stack = container.NewStack(split)
	p.box = p.stack
	hint := widget.NewLabel(t("There is nothing to cut yet.") + "\n" + t("Trace a tear or a loss on a leaf that has a scale, and its pieces are laid out here."))
	hint.Alignment = fyne.TextAlignCenter
	p.empty = container.NewCenter(container.NewVBox(hint, container.NewCenter(widget.NewButton(t("Back to tracing"), func() { w.showStage(stageTrace) }))))
	p.stack.Add(p.empty)
	return p
}

func (p *cutsPanel) content() fyne.CanvasObject { return p.box }

func (p *cutsPanel) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(p.sheets) {
		return
	}
	s := p.sheets[i]
	box := o.(*fyne.Container)
	box.Objects[0].(*widget.Label).SetText(fmt.Sprintf("%d   %s", s.number, s.tissue.Name))
	box.Objects[1].(*widget.Label).SetText(fmt.Sprintf("%s %s, %s", kindWords(s.sheet), unitsOf(p.w.session.Job()).Size(s.sheet.H, s.sheet.W), pieceCount(len(s.sheet.Places))))
}

func kindWords(s nest.Sheet) string {
	switch {
	case s.Remnant:
		return t("remnant")
	case s.Roll:
		return t("off a roll,")
	}
	return t("sheet")
}

// sheetsOf numbers the sheets of a plan as on the print.
func sheetsOf(j mendplan.Job, plan mendplan.Plan) []sheetRef {
	var out []sheetRef
	for _, l := range plan.Layouts {
		ts, _ := j.Tissue(l.Tissue)
		for _, s := range l.Layout.Sheets {
			out = append(out, sheetRef{len(out) + 1, ts, s})
		}
	}
	return out
}

func (p *cutsPanel) refresh() {
	plan := p.w.session.Plan()
	p.sheets = sheetsOf(p.w.session.Job(), plan)
	for i, o := range p.stack.Objects {
		show := (i == 0) == (len(p.sheets) > 0)
		if show {
			o.Show()
		} else {
			o.Hide()
		}
	}
	loose := 0
	for _, pr := range plan.Problems {
		if pr.Kind == mendplan.DoesNotFit {
			loose++
		}
	}
	p.loose.SetText("")
	p.loose.Hidden = loose == 0
	if loose > 0 {
		p.loose.SetText(t("%d pieces are on no sheet: see the problems.", loose))
	}
	p.at = min(p.at, max(len(p.sheets)-1, 0))
	p.quiet = true
	p.list.Refresh()
	if len(p.sheets) > 0 {
		p.list.Select(p.at)
	}
	p.quiet = false
	p.showSheet()
	p.w.guide.did(guideCuts)
}

// showSheet draws the chosen sheet and lists its cuts.
func (p *cutsPanel) showSheet() {
	if len(p.sheets) == 0 {
		return
	}
	s := p.sheets[p.at]
	u := unitsOf(p.w.session.Job())
	p.head.SetText(t("Sheet %d of %d: %s", s.number, len(p.sheets), s.tissue.Name))
	used := 0.0
	for _, pl := range s.sheet.Places {
		used += pl.W * pl.H
	}
	p.sub.SetText(fmt.Sprintf("%s %s · %s %s · %s · %d %s · %s %s", t("stock"), s.sheet.Stock, kindWords(s.sheet), u.Size(s.sheet.H, s.sheet.W),
		pieceCount(len(s.sheet.Places)), len(s.sheet.Cuts), t("cuts"), percent(used/max(s.sheet.W*s.sheet.H, 1)), t("of it used")))
	p.draw.show(s.sheet, u)
	rows := make([][]string, len(s.sheet.Cuts))
	for i, c := range s.sheet.Cuts {
		rows[i] = cutWords(s.sheet, c, u)
	}
	p.steps.show(rows)
	p.steps.ScrollToTop()
}

func (p *cutsPanel) newSteps() *wordTable {
	return newWordTable([]column{{t("cut"), 40}, {t("lay before you"), 96}, {t("ruler from its"), 92}, {t("at"), 100},
		{t("on this side"), 104}, {t("beyond the ruler"), 130}}, p.draw.highlight)
}

// cutWords puts one cut into words, column by column.
func cutWords(s nest.Sheet, c nest.Cut, u mendplan.Units) []string {
	part, edge, at := t("the sheet"), t("top edge"), u.Length(c.At)
	if c.Part > 0 {
		part = t("part %d", c.Part)
	}
	if c.Upright {
		edge = t("left edge")
	}
	if c.Again {
		at = t("same, %s", at)
	}
	return []string{fmt.Sprint(c.Step), part, edge, at, partOf(s, c.Near, u), partOf(s, c.Far, u)}
}

func partOf(s nest.Sheet, p nest.Part, u mendplan.Units) string {
	switch {
	case p.Place >= 0 && p.Place < len(s.Places):
		return t("piece %s", s.Places[p.Place].Name())
	case p.Left >= 0 && p.Left < len(s.Remnants) && s.Remnants[p.Left].Keep:
		r := s.Remnants[p.Left]
		return t("keep %s", u.Size(r.H, r.W))
	case p.Number > 0:
		return t("part %d", p.Number)
	}
	return t("waste")
}

// pickPieceFrom shows a piece on its leaf.
func (w *Window) pickPieceFrom(label string) {
	for _, p := range w.session.Plan().Pieces {
		if p.Label == label {
			w.takeInHand(p.Damage)
			w.pickPiece(label)
			w.focusSurface()
		}
	}
}
