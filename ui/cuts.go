package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// cutsPanel shows every sheet with its pieces, the cuts in their order, and
// where a piece goes.
type cutsPanel struct {
	w      *Window
	sheets []sheetRef
	runs   [][]int // indexes of sheets that are cut alike, in the order shown
	at     int     // index of the sheet shown
	list   *keyList
	draw   *sheetDrawing
	steps  *cutSteps
	glance *leafGlance
	seek   *seekBar
	head   *widget.Label
	sub    *widget.Label
	where  *widget.Label
	loose  *keyButton
	hold   *keyButton
	done   *keyButton
	box    fyne.CanvasObject
	quiet  bool
	stack  *fyne.Container
	chosen []int // damages chosen when last looked
}

// sheetRef is one sheet of the layout, numbered through all tissues as on the
// print.
type sheetRef struct {
	number int
	tissue mendplan.Tissue
	index  int // in the tissue's layout
	sheet  nest.Sheet
	held   int // number of the held sheet; 0 when it is laid out anew by every edit
	done   bool
}

func newCutsPanel(w *Window) *cutsPanel {
	p := &cutsPanel{w: w, head: heading(""), sub: small(""), where: small("")}
	p.head.Truncation = fyne.TextTruncateEllipsis
	p.draw = newSheetDrawing(p.drawingActs())
	p.steps = newCutSteps(func(i int) { p.draw.highlight(i) }, p.tickStep)
	p.steps.rune, p.steps.key = w.typedRune, func(n fyne.KeyName) { w.typedKey(n, currentModifiers()) }
	p.glance = newLeafGlance(w, p.pointed, p.chooseLabel)
	p.seek = newSeekBar(w)
	p.list = p.newList()
	p.loose = newButtonWithIcon("", theme.WarningIcon(), func() { w.Run("not-placed") })
	p.loose.Importance = widget.DangerImportance
	p.hold = newButton("", func() { w.Run("hold-sheets") })
	p.done = newButton("", func() { w.Run("sheet-cut") })
	split := container.NewHSplit(p.leftSide(), p.rightSide())
	split.Offset = 0.21
	p.stack = container.NewStack(container.NewBorder(p.seek.box, nil, nil, nil, split))
	p.box = p.stack
	hint := widget.NewLabel(t("There is nothing to cut yet.") + "\n" + t("Trace a tear or a loss on a leaf that has a scale, and its pieces are laid out here."))
	hint.Alignment, hint.Wrapping = fyne.TextAlignCenter, fyne.TextWrapWord
	p.stack.Add(container.NewVBox(hint, container.NewCenter(newButton(t("Back to tracing"), func() { w.showStage(stageTrace) }))))
	w.session.searchChanged.listen(p.seek.refresh)
	return p
}

func (p *cutsPanel) leftSide() fyne.CanvasObject {
	below := container.NewBorder(p.where, nil, nil, nil, p.glance)
	split := container.NewVSplit(container.NewBorder(heading(t("Sheets")), p.loose, nil, nil, p.list), below)
	split.Offset = 0.55
	return split
}

func (p *cutsPanel) rightSide() fyne.CanvasObject {
	icon := func(res fyne.Resource, f func()) *keyButton {
		b := newButtonWithIcon("", res, f)
		b.Importance = widget.LowImportance
		return b
	}
	mid := func() fyne.Position { return fyne.NewPos(p.draw.Size().Width/2, p.draw.Size().Height/2) }
	zoom := container.NewHBox(icon(theme.ZoomOutIcon(), func() { p.draw.zoom(1/1.25, mid()) }),
		icon(theme.ZoomInIcon(), func() { p.draw.zoom(1.25, mid()) }),
		icon(theme.ZoomFitIcon(), func() { p.draw.fit(fitPart) }), icon(theme.ViewFullScreenIcon(), func() { p.draw.fit(fitWhole) }))
	cautions := small(t("Keep fingers behind the ruler, use a metal rule, and change blades with a tool."))
	middle := container.NewBorder(tight(container.NewBorder(nil, nil, nil, zoom, p.head), p.sub), cautions, nil, nil, p.draw)
	buttons := container.NewGridWithColumns(2, p.hold, p.done)
	right := container.NewHSplit(middle, container.NewBorder(heading(t("Cuts, in their order")), buttons, nil, nil, p.steps))
	right.Offset = 0.56
	return right
}

func (p *cutsPanel) newList() *keyList {
	l := newList(func() int { return len(p.runs) }, func() fyne.CanvasObject {
		a, b := widget.NewLabel(""), small("")
		a.TextStyle.Bold, a.Truncation, b.Wrapping, b.Truncation = true, fyne.TextTruncateEllipsis, fyne.TextWrapOff, fyne.TextTruncateEllipsis
		return tight(a, b)
	}, p.fillRow)
	l.OnSelected = func(i widget.ListItemID) {
		if !p.quiet && i < len(p.runs) {
			p.at = p.runs[i][0]
			p.showSheet()
		}
	}
	l.at = p.run
	return l
}

// run is the row of the list that holds the sheet that is drawn.
func (p *cutsPanel) run() int {
	return max(slices.IndexFunc(p.runs, func(r []int) bool { return slices.Contains(r, p.at) }), 0)
}

func (p *cutsPanel) content() fyne.CanvasObject { return p.box }

// focus gives the keys to the drawing when the stage is shown.
func (p *cutsPanel) focus() {
	if len(p.sheets) > 0 {
		p.w.win.Canvas().Focus(p.draw)
	}
}

func (p *cutsPanel) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(p.runs) {
		return
	}
	run := p.runs[i]
	s := p.sheets[run[0]]
	box := o.(*fyne.Container)
	words := p.numbers(run) + "   " + s.tissue.Name
	if len(run) > 1 {
		words = fmt.Sprintf("%d ×   ", len(run)) + words
	}
	box.Objects[0].(*widget.Label).SetText(words)
	state := ""
	switch {
	case s.done:
		state = t("is cut") + " · "
	case s.held > 0:
		state = t("held") + " · "
	}
	box.Objects[1].(*widget.Label).SetText(state + fmt.Sprintf("%s %s, %s", kindWords(s.sheet), unitsOf(p.w.session.Job()).Size(s.sheet.H, s.sheet.W), pieceCount(len(s.sheet.Places))))
}

// numbers names the sheets of a run: "2", "2 to 5", "2, 4, 7".
func (p *cutsPanel) numbers(run []int) string {
	first, last := p.sheets[run[0]].number, p.sheets[run[len(run)-1]].number
	if len(run) > 2 && last-first == len(run)-1 {
		return t("%d to %d", first, last)
	}
	words := make([]string, len(run))
	for i, k := range run {
		words[i] = fmt.Sprint(p.sheets[k].number)
	}
	return strings.Join(words, ", ")
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
		for i, s := range l.Layout.Sheets {
			ref := sheetRef{number: len(out) + 1, tissue: ts, index: i, sheet: s}
			if h, ok := j.HeldAt(l.Tissue, i); ok {
				ref.held, ref.done = h.Number, h.Done
			}
			out = append(out, ref)
		}
	}
	return out
}

// runsOf gathers sheets that are cut alike.
func runsOf(sheets []sheetRef) [][]int {
	var out [][]int
	at := map[string]int{}
	for i, s := range sheets {
		key := fmt.Sprint(s.tissue.ID, s.held > 0, s.done, "|", s.sheet.Pattern())
		k, ok := at[key]
		if !ok {
			k = len(out)
			at[key] = k
			out = append(out, nil)
		}
		out[k] = append(out[k], i)
	}
	return out
}

func (p *cutsPanel) refresh() {
	plan := p.w.session.Plan()
	p.sheets = sheetsOf(p.w.session.Job(), plan)
	p.runs = runsOf(p.sheets)
	for i, o := range p.stack.Objects {
		if (i == 0) == (len(p.sheets) > 0 || unplacedCount(plan) > 0) {
			o.Show()
		} else {
			o.Hide()
		}
	}
	n := unplacedCount(plan)
	p.loose.Hidden = n == 0
	p.loose.SetText(t("%d on no sheet…", n))
	p.at = min(p.at, max(len(p.sheets)-1, 0))
	p.followChosen()
	p.seek.refresh()
	p.showList()
	p.showSheet()
	p.w.guide.did(guideCuts)
}

// showList shows the sheets, with the one that is drawn chosen.
func (p *cutsPanel) showList() {
	p.quiet = true
	p.list.Refresh()
	for i, run := range p.runs {
		for _, k := range run {
			if k == p.at {
				p.list.Select(i)
			}
		}
	}
	p.quiet = false
}

func unplacedCount(plan mendplan.Plan) int {
	n := 0
	for _, l := range plan.Layouts {
		for _, u := range l.Layout.Unplaced {
			n += u.Count
		}
	}
	return n
}

// showSheet draws the chosen sheet and lists its cuts.
func (p *cutsPanel) showSheet() {
	j := p.w.session.Job()
	u := unitsOf(j)
	if len(p.sheets) == 0 {
		p.head.SetText("")
		p.sub.SetText("")
		p.draw.show(nest.Sheet{}, u, nil)
		p.steps.show(nest.Sheet{}, u, nil, -1)
		return
	}
	s := p.sheets[p.at]
	p.head.SetText(t("Sheet %d of %d: %s", s.number, len(p.sheets), s.tissue.Name))
	used := 0.0
	for _, pl := range s.sheet.Places {
		used += pl.W * pl.H
	}
	p.sub.SetText(fmt.Sprintf("%s %s · %s %s · %s · %d %s · %s %s", t("stock"), s.sheet.Stock, kindWords(s.sheet), u.Size(s.sheet.H, s.sheet.W),
		pieceCount(len(s.sheet.Places)), len(s.sheet.Cuts), t("cuts"), percent(used/max(s.sheet.W*s.sheet.H, 1)), t("of it used")))
	off := p.cutsOff()
	p.draw.show(s.sheet, u, off)
	p.steps.show(s.sheet, u, off, p.draw.marked)
	p.showButtons(s)
	p.showWhere(p.draw.looking())
}

func (p *cutsPanel) showButtons(s sheetRef) {
	p.hold.SetText(t("Hold these sheets"))
	if s.held > 0 {
		p.hold.SetText(t("Release the sheet"))
	}
	p.done.SetText(t("The sheet is cut"))
	if s.done {
		p.done.SetText(t("It is not cut yet"))
	}
	p.hold.Enable()
	if s.done {
		p.hold.Disable()
	}
}

// cutsOff are the cuts of the sheet shown that are made.
func (p *cutsPanel) cutsOff() map[int]bool {
	off := map[int]bool{}
	if h, ok := p.w.session.Job().HeldSheet(p.sheets[p.at].held); ok {
		for i, s := range h.Steps {
			off[i] = s.Off
		}
	}
	return off
}
