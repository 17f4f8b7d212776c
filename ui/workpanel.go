package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// workPage is one of the pages of the work, in the order of the work.
type workPage int

const (
	workBefore workPage = iota
	workSteps
	workPaste
	workDays
	workTrim
	workPapers
)

// workPages names the pages, with the command that leads to each.
func workPages() []struct{ id, words, help string } {
	return []struct{ id, words, help string }{
		{"work-before", "Before starting", "What should make you stop and ask a conservator, and the examination of the object."},
		{"work-steps", "Steps", "What was done to which leaf, when and by whom."},
		{"work-paste", "Paste", "Recipes, what to weigh, batches and their age."},
		{"work-days", "Days", "Press, blotters and the calendar of the job."},
		{"work-trim", "Trimming", "Edges to trim, and how each leaf goes back."},
		{"work-papers", "Papers", "Tally, pictures after treatment, proposal and report."},
	}
}

// workPanel follows the work, page by page: before it starts, its steps, the
// paste, the days, trimming, and the papers that come of it.
type workPanel struct {
	*stepBook
	w     *Window
	page  workPage
	heads []*pressable
	parts []panel
	paste *pasteBook
	days  *dayBook
	trims *trimBook
	first *beforeBook
	paper *paperBook
	body  *fyne.Container
	box   fyne.CanvasObject
}

func newWorkPanel(w *Window) *workPanel {
	p := &workPanel{w: w, stepBook: newStepBook(w), paste: newPasteBook(w), days: newDayBook(w),
		trims: newTrimBook(w), first: newBeforeBook(w), paper: newPaperBook(w), page: workSteps}
	p.parts = []panel{p.first, p.stepBook, p.paste, p.days, p.trims, p.paper}
	row := container.NewHBox()
	for i, page := range workPages() {
		c := w.command(page.id)
		head := newPressable("", t(page.words), func() { p.show(workPage(i)) })
		head.onHint, head.hint = w.status.hover, t(page.help)+"  ["+c.keys[0].String()+"]"
		p.heads = append(p.heads, head)
		row.Add(head)
	}
	p.body = container.NewStack(p.parts[p.page].content())
	p.box = container.New(layout.NewCustomPaddedLayout(2, 2, 6, 6), container.NewBorder(row, nil, nil, nil, p.body))
	return p
}

func (p *workPanel) content() fyne.CanvasObject { return p.box }

// show brings a page to the front.
func (p *workPanel) show(page workPage) {
	if page != p.page {
		p.page = page
		p.body.Objects = []fyne.CanvasObject{p.parts[page].content()}
		p.body.Refresh()
		p.w.letGoOfHidden()
	}
	p.refresh()
	p.w.refreshCommands() // the menu marks the page on show
}

func (p *workPanel) refresh() {
	for i, head := range p.heads {
		head.set(head.text, workPage(i) == p.page, false)
	}
	p.parts[p.page].refresh()
}

// showWork brings a page of the work to the front of the window.
func (w *Window) showWork(page workPage) *workPanel {
	w.showStage(stageWork)
	p := w.panels[stageWork].(*workPanel)
	p.show(page)
	return p
}
