package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan/collate"
)

// pageSize is the size of page numbers on the card.
const pageSize = 40

// checkCard shows one sheet of the order check in large type: the side that
// must face up, the page numbers left and right of its picture, and the
// leaves below and above.
type checkCard struct {
	b           *checkBook
	title       *widget.Label
	left, right *canvas.Text
	picture     *preview
	pile        *widget.Label
	verdict     *widget.Label
	ground      *canvas.Rectangle
	entry       *seenEntry
	box         *fyne.Container
}

func newCheckCard(b *checkBook) *checkCard {
	c := &checkCard{b: b, title: heading(""), pile: widget.NewLabel(""), verdict: heading(""), picture: b.w.newPreview(),
		left: canvas.NewText("", nil), right: canvas.NewText("", nil), ground: canvas.NewRectangle(nil)}
	c.title.SizeName, c.title.Wrapping = theme.SizeNameSubHeadingText, fyne.TextWrapWord
	c.pile.Wrapping = fyne.TextWrapWord
	c.verdict.SizeName, c.verdict.Wrapping = theme.SizeNameSubHeadingText, fyne.TextWrapWord
	c.ground.CornerRadius = theme.InputRadiusSize()
	for _, n := range []*canvas.Text{c.left, c.right} {
		n.TextSize, n.TextStyle.Bold, n.Alignment = pageSize, true, fyne.TextAlignCenter
	}
	c.entry = newSeenEntry(b)
	number := func(n *canvas.Text) fyne.CanvasObject {
		room := canvas.NewRectangle(nil)
		room.SetMinSize(fyne.NewSize(96, 60))
		return container.NewStack(room, container.NewVBox(layout.NewSpacer(), n, layout.NewSpacer()))
	}
	top := tight(c.title, c.pile)
	shown := newButton(t("As shown"), func() { b.look("") })
	foot := tight(container.NewStack(c.ground, c.verdict), container.NewBorder(nil, nil, nil, shown, c.entry))
	c.box = container.NewBorder(top, foot, number(c.left), number(c.right), c.picture.box)
	return c
}

// show reads the row in hand.
func (c *checkCard) show() {
	c.left.Color, c.right.Color = shade(theme.ColorNameForeground), shade(theme.ColorNameForeground)
	if len(c.b.laid) == 0 {
		c.title.SetText(t("No gatherings yet: propose them from the leaves, or add one."))
		c.left.Text, c.right.Text = "", ""
		c.pile.SetText("")
		c.verdict.SetText("")
		c.picture.show("", 0)
		c.box.Refresh()
		return
	}
	j := c.b.w.session.Job()
	r := c.b.laid[c.b.at]
	leaf, ok := j.Leaf(r.Leaf)
	title := t("Gathering %s: nothing to lay here", gatheringWord(r.Gathering))
	if ok {
		title = t("Leaf %s, %s facing up", r.Mark, sideWord(leaf, r.Up))
	}
	if r.Cover {
		title = t("Cover") + ". " + title
	}
	c.title.SetText(title)
	c.left.Text, c.right.Text = pageWord(r.Left), pageWord(r.Right)
	for _, n := range []*canvas.Text{c.left, c.right} {
		n.TextSize = pageSize
		if len([]rune(n.Text)) > 4 {
			n.TextSize = pageSize * 4 / float32(len([]rune(n.Text)))
		}
	}
	c.pile.SetText(pileWords(r))
	path, page := "", 0
	if sc := leaf.SideOf(r.Up).Scan; ok && sc.Present() {
		path, page = c.b.w.session.scanPath(sc), sc.Page
	}
	c.picture.show(path, page)
	c.showVerdict()
	c.left.Refresh()
	c.right.Refresh()
}

// pageWord writes what stands on a page, or that it is gone.
func pageWord(label string) string {
	if label == "missing" {
		return "×"
	}
	return pageLabel(label)
}

// verdictWord tells a verdict in one word, for a narrow column.
func verdictWord(v collate.Verdict) string {
	switch v {
	case collate.TurnedUp:
		return t("turned")
	case collate.HeadDown:
		return t("reversed")
	case collate.Elsewhere:
		return t("wrong")
	}
	return "?"
}

// pileWords tells what lies below and what comes above.
func pileWords(r collate.Row) string {
	below, above := t("First of its gathering."), t("Last of its gathering.")
	if r.Below != "" {
		below = t("Laid on leaf %s.", r.Below)
	}
	if r.Above != "" {
		above = t("Then comes leaf %s.", r.Above)
	}
	return below + "  " + above
}

// showVerdict tells loudly what was found at the row in hand.
func (c *checkCard) showVerdict() {
	s := c.b.seen[c.b.at]
	words, importance, ground := "", widget.MediumImportance, theme.ColorNameBackground
	switch {
	case !s.looked:
	case s.Verdict == collate.InPlace:
		words, importance = t("in place"), widget.SuccessImportance
	case s.Verdict == collate.TurnedUp:
		words = "× " + t("Turned over: the other side must face up.")
	case s.Verdict == collate.HeadDown:
		words = "× " + t("Left and right exchanged: turn the sheet head to tail.")
	case s.Verdict == collate.Elsewhere:
		words = "× " + t("Wrong sheet: this is leaf %s of gathering %s.", c.b.laid[s.Row].Mark, gatheringWord(c.b.laid[s.Row].Gathering))
	default:
		words = "× " + t("No side of any sheet shows these numbers: look again.")
	}
	if s.wrong() {
		importance, ground = widget.DangerImportance, theme.ColorNameInputBackground
		c.ground.StrokeColor, c.ground.StrokeWidth = shade(theme.ColorNameError), 3
	} else {
		c.ground.StrokeWidth = 0
	}
	c.ground.FillColor = shade(ground)
	c.ground.Refresh()
	c.verdict.Importance = importance
	c.verdict.SetText(words)
}

// seenEntry is the field for the page numbers one sees. Enter takes them, Up
// and Down go to another sheet.
type seenEntry struct {
	widget.Entry
	b *checkBook
}

func newSeenEntry(b *checkBook) *seenEntry {
	e := &seenEntry{b: b}
	e.ExtendBaseWidget(e)
	e.SetPlaceHolder(t("what you see, such as: 2 15. Enter alone: as shown. Up, Down: another sheet."))
	e.OnSubmitted = func(s string) {
		e.SetText("")
		b.look(s)
	}
	return e
}

// TypedKey implements [fyne.Focusable].
func (e *seenEntry) TypedKey(k *fyne.KeyEvent) {
	switch k.Name {
	case fyne.KeyUp:
		e.b.goTo(e.b.at - 1)
	case fyne.KeyDown:
		e.b.goTo(e.b.at + 1)
	default:
		e.Entry.TypedKey(k)
	}
}
