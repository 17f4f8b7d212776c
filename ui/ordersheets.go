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
	"leafmend/mendplan/collate"
)

// sheetBook shows the gatherings as a drawing and a list, and lets each sheet
// be put right.
type sheetBook struct {
	w       *Window
	formula *widget.Label
	faults  *widget.Label
	drawing *gatheringDrawing
	sheets  *wordTable
	editor  *sheetEditor
	rows    []sheetAt // what the rows of sheets show
	all     fyne.CanvasObject
}

// sheetAt is a place in the job's gatherings.
type sheetAt struct{ gathering, sheet int }

func newSheetBook(w *Window) *sheetBook {
	p := &sheetBook{w: w, formula: heading(""), faults: small("")}
	p.formula.SizeName, p.formula.Wrapping = theme.SizeNameSubHeadingText, fyne.TextWrapWord
	p.drawing = newGatheringDrawing(p.chooseAt, w.status.hover)
	p.sheets = newWordTable([]column{{t("gathering"), 66}, {t("sheet"), 44}, {t("leaf"), 112}, {t("outer pages"), 112}, {t("inner pages"), 112}, {t("state"), 70}}, p.choose)
	p.editor = newSheetEditor(p)
	buttons := container.NewHBox(
		newButton(t("Propose from the leaves"), p.propose),
		newButton(t("Add a gathering"), func() { p.edit("add gathering", added) }),
		newButton(t("Letters A, B, C"), func() { p.edit("letter gatherings", collate.Signed) }))
	left := container.NewBorder(container.NewVBox(p.formula, p.faults), nil, nil, nil, container.NewScroll(p.drawing))
	right := container.NewBorder(buttons, p.editor.box, nil, nil, p.sheets)
	split := container.NewHSplit(left, right)
	split.Offset = 0.46
	p.all = split
	return p
}

func (p *sheetBook) content() fyne.CanvasObject { return p.all }

func (p *sheetBook) refresh() {
	j := p.w.session.Job()
	leaves, pages := collate.Count(j)
	words := t("No gatherings yet: propose them from the leaves, or add one.")
	if len(j.Gatherings) > 0 {
		words = t("Collation: %s", plainMinus(collate.Formula(j))) + "   " + t("%d leaves, %d pages without the cover", leaves, pages)
	}
	p.formula.SetText(words)
	faults := ""
	for _, f := range collate.Problems(j) {
		faults += "! " + say(f.Words) + " " + say(f.Hint) + "\n"
	}
	if faults == "" && len(j.Gatherings) > 0 {
		faults = t("Every leaf has its place, and every place its leaf.")
	}
	p.faults.SetText(faults)
	p.showSheets(j)
	p.drawing.show(j, p.editor.at)
	p.editor.refresh()
}

func (p *sheetBook) showSheets(j mendplan.Job) {
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
			rows = append(rows, []string{gatheringWord(collate.Name(j, gi)), fmt.Sprint(si + 1), title, pagesOn(places, si, mendplan.Front), pagesOn(places, si, mendplan.Back), sheetState(s)})
		}
		if len(g.Sheets) == 0 {
			p.rows = append(p.rows, sheetAt{gi, -1})
			rows = append(rows, []string{gatheringWord(collate.Name(j, gi)), "", t("no sheets yet"), "", "", ""})
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
	return pagePair(left, right)
}

// pageLabel writes what stands on a page in the language in use: the pages of
// a cover are called so.
func pageLabel(label string) string {
	if n, ok := strings.CutPrefix(label, "cover "); ok {
		return t("cover %s", n)
	}
	if label == "missing" {
		return t("missing")
	}
	return label
}

// gatheringWord names a gathering in the language in use.
func gatheringWord(name string) string {
	if name == "cover" {
		return t("cover")
	}
	return name
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

func (p *sheetBook) choose(row int) { p.chooseAt(p.rows[row]) }

// chooseAt takes a sheet in hand.
func (p *sheetBook) chooseAt(at sheetAt) {
	p.editor.at = at
	p.drawing.show(p.w.session.Job(), at)
	p.editor.refresh()
}

// edit changes the gatherings, as one step.
func (p *sheetBook) edit(label string, change func([]mendplan.Gathering) []mendplan.Gathering) {
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

// added adds an empty gathering.
func added(gs []mendplan.Gathering) []mendplan.Gathering {
	n := len(gs) + 1
	for slices.ContainsFunc(gs, func(g mendplan.Gathering) bool { return g.ID == fmt.Sprint("G", n) }) {
		n++
	}
	return append(gs, mendplan.Gathering{ID: fmt.Sprint("G", n)})
}

// propose makes one gathering of all leaves in their order, single leaves as
// singletons of the second half.
func (p *sheetBook) propose() {
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

// plainMinus writes the minus as a dash of the same width: the window's own
// font has no minus, and not every system brings one.
func plainMinus(words string) string { return strings.ReplaceAll(words, "\u2212", "–") }
