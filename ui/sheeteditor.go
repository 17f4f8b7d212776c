package ui

import (
	"slices"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// sheetEditor changes the chosen sheet of the order panel and its gathering.
type sheetEditor struct {
	p       *sheetBook
	at      sheetAt
	title   *widget.Label
	leaf    *choiceField
	half    *choiceField
	missing *choiceField
	blank   *keyCheck
	inset   *keyCheck
	pages   [4]*textField // what stands on the pages: outer left and right, inner left and right
	cover   *keyCheck
	sign    *textField
	first   *textField
	quiet   bool
	box     *fyne.Container
}

func newSheetEditor(p *sheetBook) *sheetEditor {
	e := &sheetEditor{p: p, title: heading("")}
	e.leaf = newChoice(func(id string) { e.sheet("attach leaf", func(s *mendplan.SheetPlace) { s.Leaf = id }) })
	e.half = newChoice(func(id string) {
		e.sheet("change kind of sheet", func(s *mendplan.SheetPlace) { s.Half = mendplan.Half(id) })
	})
	e.missing = newChoice(func(id string) {
		e.sheet("change what is missing", func(s *mendplan.SheetPlace) { s.Missing = mendplan.Missing(id) })
	})
	e.blank = e.check(t("Without print"), func(on bool) { e.sheet("mark as blank", func(s *mendplan.SheetPlace) { s.Blank = on }) })
	e.inset = e.check(t("Inset, laid in loose"), func(on bool) { e.sheet("mark as inset", func(s *mendplan.SheetPlace) { s.Inset = on }) })
	e.cover = e.check(t("This gathering is the cover"), func(on bool) { e.gathering("mark as cover", func(g *mendplan.Gathering) { g.Cover = on }) })
	e.sign = newTextField(func(s string) { e.gathering("change signature", func(g *mendplan.Gathering) { g.Signature = s }) })
	e.first = newTextField(e.setFirst)
	e.first.SetPlaceHolder(t("after the one before"))
	pages := container.NewGridWithColumns(4)
	for i := range e.pages {
		e.pages[i] = newTextField(func(s string) { e.setPage(i, s) })
		pages.Add(e.pages[i])
	}
	e.box = container.NewVBox(e.title,
		container.NewGridWithColumns(2, labelled(t("Leaf"), e.leaf), labelled(t("Sheet"), e.half), labelled(t("Missing"), e.missing), e.blank,
			labelled(t("Signature"), e.sign), labelled(t("First page"), e.first), e.inset, e.cover),
		labelled(t("On the pages"), pages), small(t("Outer side left and right, inner side left and right: write what stands on a page when it is not the number shown, such as 12 or “unnumbered”.")), e.buttons())
	return e
}

func (e *sheetEditor) check(words string, tell func(bool)) *keyCheck {
	return newCheck(words, func(on bool) {
		if !e.quiet {
			tell(on)
		}
	})
}

func (e *sheetEditor) buttons() fyne.CanvasObject {
	return container.NewHBox(
		newButton(t("Add a sheet"), e.add),
		newButton(t("Outwards"), func() { e.move(-1) }),
		newButton(t("Inwards"), func() { e.move(1) }),
		newButton(t("Take out"), e.remove))
}

// valid reports whether the chosen gathering, and sheet if any, still exist.
func (e *sheetEditor) valid() (g, s bool) {
	gs := e.p.w.session.Job().Gatherings
	g = e.at.gathering >= 0 && e.at.gathering < len(gs)
	return g, g && e.at.sheet >= 0 && e.at.sheet < len(gs[e.at.gathering].Sheets)
}

func (e *sheetEditor) refresh() {
	hasG, hasS := e.valid()
	if !hasG {
		e.box.Hide()
		return
	}
	e.box.Show()
	j := e.p.w.session.Job()
	g := j.Gatherings[e.at.gathering]
	var s mendplan.SheetPlace
	e.title.SetText(t("Gathering %s", gatheringWord(collate.Name(j, e.at.gathering))))
	if hasS {
		s = g.Sheets[e.at.sheet]
		e.title.SetText(t("Gathering %s, sheet %d", gatheringWord(collate.Name(j, e.at.gathering)), e.at.sheet+1))
	}
	ids, words := []string{""}, []string{t("no scan")}
	for _, l := range j.Leaves {
		ids, words = append(ids, l.ID), append(words, leafTitle(l))
	}
	e.quiet = true
	e.leaf.set(ids, words, s.Leaf)
	e.half.set([]string{"", string(mendplan.FirstHalf), string(mendplan.SecondHalf)}, []string{t("bifolium"), t("single, first half"), t("single, second half")}, string(s.Half))
	e.missing.set([]string{"", string(mendplan.FirstMissing), string(mendplan.SecondMissing), string(mendplan.AllMissing)},
		[]string{t("nothing"), t("first leaf missing"), t("second leaf missing"), t("all of it")}, string(s.Missing))
	e.blank.SetChecked(s.Blank)
	e.inset.SetChecked(s.Inset)
	e.showPages(j, g)
	e.cover.SetChecked(g.Cover)
	e.sign.set(g.Signature)
	first := ""
	if g.FirstPage > 0 {
		first = strconv.Itoa(g.FirstPage)
	}
	e.first.set(first)
	e.quiet = false
}

func (e *sheetEditor) setFirst(text string) {
	n, err := strconv.Atoi(text)
	if text == "" {
		n, err = 0, nil
	}
	if err != nil || n < 0 || n > 100000 {
		e.p.w.status.say(t("The first page is a whole number, such as 17; leave it empty to go on from the gathering before."))
		return
	}
	e.gathering("change first page", func(g *mendplan.Gathering) { g.FirstPage = n })
}

func (e *sheetEditor) gathering(label string, change func(*mendplan.Gathering)) {
	if ok, _ := e.valid(); ok {
		e.p.edit(label, func(gs []mendplan.Gathering) []mendplan.Gathering {
			change(&gs[e.at.gathering])
			return gs
		})
	}
}

func (e *sheetEditor) sheet(label string, change func(*mendplan.SheetPlace)) {
	if _, ok := e.valid(); ok {
		e.gathering(label, func(g *mendplan.Gathering) { change(&g.Sheets[e.at.sheet]) })
	}
}

// add puts an empty sheet inside the chosen one.
func (e *sheetEditor) add() {
	e.at.sheet = max(e.at.sheet, -1) + 1
	e.gathering("add sheet", func(g *mendplan.Gathering) {
		e.at.sheet = min(e.at.sheet, len(g.Sheets))
		g.Sheets = slices.Insert(g.Sheets, e.at.sheet, mendplan.SheetPlace{})
	})
}

// move takes the chosen sheet a place outwards or inwards.
func (e *sheetEditor) move(by int) {
	from, to := e.at.sheet, e.at.sheet+by
	gs := e.p.w.session.Job().Gatherings
	if _, ok := e.valid(); !ok || to < 0 || to >= len(gs[e.at.gathering].Sheets) {
		return
	}
	e.at.sheet = to
	e.gathering("move sheet", func(g *mendplan.Gathering) { g.Sheets[from], g.Sheets[to] = g.Sheets[to], g.Sheets[from] })
}

// remove takes the chosen sheet out; the last of a gathering takes that along.
func (e *sheetEditor) remove() {
	hasG, hasS := e.valid()
	if !hasG {
		return
	}
	e.p.edit("take out sheet", func(gs []mendplan.Gathering) []mendplan.Gathering {
		g := &gs[e.at.gathering]
		if hasS {
			g.Sheets = slices.Delete(g.Sheets, e.at.sheet, e.at.sheet+1)
		}
		if len(g.Sheets) == 0 {
			return slices.Delete(gs, e.at.gathering, e.at.gathering+1)
		}
		return gs
	})
}
