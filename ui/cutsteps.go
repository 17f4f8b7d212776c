package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// cutSteps lists the cuts of a sheet as a person makes them: one line of what
// to lay and where to put the ruler, one of what comes of it. Space ticks the
// cut in hand off; arrows go on.
type cutSteps struct {
	widget.List
	sheet nest.Sheet
	units mendplan.Units
	off   map[int]bool
	at    int // the cut in hand; −1 for none
	tick  func(step int)
	pick  func(step int) // another cut is in hand; −1 for none
	rune  func(rune)
	key   func(fyne.KeyName)
	quiet bool
}

func newCutSteps(pick, tick func(step int)) *cutSteps {
	l := &cutSteps{at: -1, pick: pick, tick: tick}
	l.Length = func() int { return len(l.sheet.Cuts) }
	l.CreateItem = l.newRow
	l.UpdateItem = l.fillRow
	l.OnSelected = func(i widget.ListItemID) {
		if l.at = i; !l.quiet {
			l.pick(i)
		}
	}
	l.ExtendBaseWidget(l)
	return l
}

// show lists the cuts of a sheet; off are those that are made.
func (l *cutSteps) show(s nest.Sheet, u mendplan.Units, off map[int]bool, at int) {
	other := l.sheet.Stock != s.Stock || l.sheet.Copy != s.Copy || len(l.sheet.Cuts) != len(s.Cuts)
	l.sheet, l.units, l.off, l.at = s, u, off, at
	l.quiet = true
	if at < 0 {
		l.UnselectAll()
	} else {
		l.Select(at)
	}
	l.Refresh()
	if other {
		l.ScrollToTop()
	}
	l.quiet = false
}

func (l *cutSteps) newRow() fyne.CanvasObject {
	first, second := widget.NewLabel(""), small("")
	first.Truncation, second.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	second.Wrapping = fyne.TextWrapOff
	mark := newButtonWithIcon("", theme.CheckButtonIcon(), nil)
	mark.Importance = widget.LowImportance
	return container.NewBorder(nil, nil, mark, nil, tight(first, second))
}

func (l *cutSteps) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(l.sheet.Cuts) {
		return
	}
	row := o.(*fyne.Container)
	words, mark := row.Objects[0].(*fyne.Container), row.Objects[1].(*keyButton)
	icon := theme.CheckButtonIcon()
	if l.off[i] {
		icon = theme.CheckButtonCheckedIcon()
	}
	mark.OnTapped = func() { l.tick(i) }
	mark.SetIcon(icon)
	c := l.sheet.Cuts[i]
	first, second := words.Objects[0].(*widget.Label), words.Objects[1].(*widget.Label)
	first.TextStyle.Bold = !l.off[i]
	first.SetText(fmt.Sprintf("%d   %s", c.Step, cutWhere(c, l.units)))
	second.SetText(cutGives(l.sheet, c, l.units))
}

// cutWhere says what to lay before one and where to put the ruler.
func cutWhere(c nest.Cut, u mendplan.Units) string {
	part := t("the sheet")
	if c.Part > 0 {
		part = t("part %d", c.Part)
	}
	at := u.Length(c.At)
	if c.Again {
		at = t("same, %s", at)
	}
	if c.Upright {
		return t("%s: %s from the left edge", part, at)
	}
	return t("%s: %s from the top edge", part, at)
}

// cutGives says what comes of a cut, and what helps with it.
func cutGives(s nest.Sheet, c nest.Cut, u mendplan.Units) string {
	words := []string{t("this side %s", partOf(s, c.Near, u)), t("beyond %s", partOf(s, c.Far, u))}
	if c.Band > 0.01 && !c.Near.Waste() && !c.Far.Waste() {
		words = append(words, t("a band of %s between them is waste", u.Length(c.Band)))
	}
	if c.With > 0 {
		words = append(words, t("together with cut %d, one on the other", c.With))
	}
	return strings.Join(words, " · ")
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

// TypedKey implements [fyne.Focusable].
func (l *cutSteps) TypedKey(e *fyne.KeyEvent) {
	if leadRows(&l.List, l.at, e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		if l.at >= 0 && l.at < len(l.sheet.Cuts) {
			l.tick(l.at)
		}
	default:
		if l.key != nil {
			l.key(e.Name)
		}
	}
}

// TypedRune implements [fyne.Focusable].
func (l *cutSteps) TypedRune(r rune) {
	if r != ' ' && l.rune != nil {
		l.rune(r)
	}
}
