package ui

import (
	"fmt"
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// orderPanel shows the gatherings of the publication, lets them be put right,
// and leads through the check of the order.
type orderPanel struct {
	w       *Window
	formula *widget.Label
	faults  *widget.Label
	sheets  *wordTable
	editor  *sheetEditor
	rows    []sheetAt // what the rows of sheets show
	order   *wordTable
	laid    []collate.Row
	way     *choiceField
	checks  *widget.Label
	by      *textField
	box     fyne.CanvasObject
}

// sheetAt is a place in the job's gatherings.
type sheetAt struct{ gathering, sheet int }

func newOrderPanel(w *Window) *orderPanel {
	p := &orderPanel{w: w, formula: heading(""), faults: small(""), checks: small("")}
	p.sheets = newWordTable([]column{{t("gathering"), 80}, {t("sheet"), 50}, {t("leaf"), 110}, {t("outer pages"), 90}, {t("inner pages"), 90}, {t("state"), 110}}, p.choose)
	p.editor = newSheetEditor(p)
	buttons := container.NewHBox(
		widget.NewButton(t("Propose from the leaves"), p.propose),
		widget.NewButton(t("Add a gathering"), func() { p.edit("add gathering", p.added) }),
		widget.NewButton(t("Letters A, B, C"), func() { p.edit("letter gatherings", collate.Signed) }))
	left := container.NewBorder(container.NewVBox(p.formula, p.faults, buttons), p.editor.box, nil, nil, p.sheets)
	split := container.NewHSplit(left, p.checking())
	split.Offset = 0.5
	p.box = container.New(layout.NewCustomPaddedLayout(4, 2, 6, 6), split)
	return p
}

// checking is the right half: what must show on each sheet as it is laid down,
// and the record of the checks.
func (p *orderPanel) checking() fyne.CanvasObject {
	p.order = newWordTable([]column{{t("gathering"), 70}, {t("leaf"), 60}, {t("side up"), 80}, {t("page left"), 70}, {t("page right"), 70}, {t("laid on"), 60}, {t("then comes"), 70}}, p.goTo)
	p.way = newChoice(func(string) { p.refresh() })
	p.way.set([]string{string(collate.OutsideIn), string(collate.CentreOutward)}, []string{t("from the outermost sheet inwards"), t("from the centre outward")}, string(collate.OutsideIn))
	p.by = newTextField(nil)
	p.by.SetPlaceHolder(t("your name"))
	good := widget.NewButton(t("In order"), func() { p.record(false) })
	bad := widget.NewButton(t("Not in order"), func() { p.record(true) })
	top := container.NewVBox(heading(t("Putting back in order")), p.way,
		small(t("Lay each sheet with the side named facing up and compare both page numbers. Two people check, each for himself. Press a row to see that side.")))
	foot := container.NewVBox(container.NewBorder(nil, nil, nil, container.NewHBox(good, bad), p.by), p.checks)
	return container.NewBorder(top, foot, nil, nil, p.order)
}

func (p *orderPanel) content() fyne.CanvasObject { return p.box }

func (p *orderPanel) refresh() {
	j := p.w.session.Job()
	leaves, pages := collate.Count(j)
	p.formula.SetText(t("Collation: %s", collate.Formula(j)) + "   " + t("%d leaves, %d pages without the cover", leaves, pages))
	words := ""
	for _, f := range collate.Problems(j) {
		words += f.Words + " "
	}
	p.faults.SetText(words)
	p.showSheets(j)
	p.laid = collate.Order(j, collate.Way(p.way.chosen()))
	var rows [][]string
	for _, r := range p.laid {
		leaf, _ := j.Leaf(r.Leaf)
		rows = append(rows, []string{r.Gathering, r.Mark, sideWord(leaf, r.Up), r.Left, r.Right, r.Below, r.Above})
	}
	p.order.show(rows)
	p.showChecks(j)
	p.editor.refresh()
}

func (p *orderPanel) showSheets(j mendplan.Job) {
	p.rows = p.rows[:0]
	var rows [][]string
	for gi, g := range j.Gatherings {
		places := collate.Places(j, gi)
		for si, s := range g.Sheets {
			leaf, ok := j.Leaf(s.Leaf)
			title := t("no scan")
			if ok {
				title = leafTitle(leaf)
			}
			p.rows = append(p.rows, sheetAt{gi, si})
			rows = append(rows, []string{collate.Name(j, gi), fmt.Sprint(si + 1), title, pagesOn(places, si, mendplan.Front), pagesOn(places, si, mendplan.Back), sheetState(s)})
		}
		if len(g.Sheets) == 0 {
			p.rows = append(p.rows, sheetAt{gi, -1})
			rows = append(rows, []string{collate.Name(j, gi), "", t("no sheets yet"), "", "", ""})
		}
	}
	p.sheets.show(rows)
}

// pagesOn lists the pages on one side of a sheet, left and right as one looks
// at it.
func pagesOn(places []collate.Place, sheet int, side mendplan.SideName) string {
	left, right := "", ""
	for _, pl := range places {
		if pl.Sheet != sheet {
			continue
		}
		for _, page := range []collate.Page{pl.Recto, pl.Verso} {
			switch {
			case page.Side != side:
			case page.Left:
				left = page.Label
			default:
				right = page.Label
			}
		}
	}
	if left == "" {
		return right
	}
	return left + " | " + right
}

func sheetState(s mendplan.SheetPlace) string {
	var words string
	add := func(w string) {
		if words != "" {
			words += ", "
		}
		words += w
	}
	switch s.Half {
	case mendplan.FirstHalf:
		add(t("single, first half"))
	case mendplan.SecondHalf:
		add(t("single, second half"))
	}
	switch s.Missing {
	case mendplan.FirstMissing:
		add(t("first leaf missing"))
	case mendplan.SecondMissing:
		add(t("second leaf missing"))
	case mendplan.AllMissing:
		add(t("missing"))
	}
	if s.Blank {
		add(t("blank"))
	}
	if s.Inset {
		add(t("inset"))
	}
	return words
}

func (p *orderPanel) showChecks(j mendplan.Job) {
	words := t("Not checked yet.")
	if n := len(j.Orders); n > 0 {
		words = ""
		for _, o := range j.Orders[max(n-4, 0):] {
			words += fmt.Sprintf("%s %s %s: %s\n", o.Date, o.Time, o.By, t(o.Result))
		}
	}
	p.checks.SetText(words)
}

// record notes a check of the order. A name is needed: two checks by nobody
// are no checks.
func (p *orderPanel) record(wrong bool) {
	if p.by.Text == "" {
		p.w.status.say(t("Write your name first, so that two checks are two people's."))
		return
	}
	now := time.Now()
	c := mendplan.OrderCheck{Date: now.Format(time.DateOnly), Time: now.Format("15:04"), By: p.by.Text, Result: "in order", Wrong: wrong}
	if wrong {
		c.Result = "not in order"
	}
	j := p.w.session.Job()
	j.Orders = append(slices.Clone(j.Orders), c)
	p.w.session.Do("record order check", j)
}

// goTo shows the side that should face up.
func (p *orderPanel) goTo(row int) {
	if r := p.laid[row]; r.Leaf != "" {
		p.w.session.Show(r.Leaf, r.Up)
		p.w.showStage(stageTrace)
	}
}

func (p *orderPanel) choose(row int) {
	p.editor.at = p.rows[row]
	p.editor.refresh()
}

// edit changes the gatherings, as one step.
func (p *orderPanel) edit(label string, change func([]mendplan.Gathering) []mendplan.Gathering) {
	j := p.w.session.Job()
	p.w.session.Do(label, j.WithGatherings(change(cloneGatherings(j.Gatherings))))
}

// cloneGatherings copies what may be changed in place.
func cloneGatherings(gs []mendplan.Gathering) []mendplan.Gathering {
	out := slices.Clone(gs)
	for i := range out {
		out[i].Sheets = slices.Clone(out[i].Sheets)
	}
	return out
}

func (p *orderPanel) added(gs []mendplan.Gathering) []mendplan.Gathering {
	n := len(gs) + 1
	for slices.ContainsFunc(gs, func(g mendplan.Gathering) bool { return g.ID == fmt.Sprint("G", n) }) {
		n++
	}
	return append(gs, mendplan.Gathering{ID: fmt.Sprint("G", n)})
}

// propose makes one gathering of all leaves in their order, single leaves as
// singletons of the second half.
func (p *orderPanel) propose() {
	p.edit("propose gatherings", func([]mendplan.Gathering) []mendplan.Gathering {
		g := mendplan.Gathering{ID: "G1"}
		for _, l := range p.w.session.Job().Leaves {
			s := mendplan.SheetPlace{Leaf: l.ID}
			if l.Kind == mendplan.SingleLeaf {
				s.Half = mendplan.SecondHalf
			}
			g.Sheets = append(g.Sheets, s)
		}
		return []mendplan.Gathering{g}
	})
}
