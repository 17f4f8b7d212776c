package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// commandSearch is the search over the commands: what is typed narrows the
// list, arrows go through it, Enter runs the command that is marked.
type commandSearch struct {
	w       *Window
	field   *dialogEntry
	list    *keyList
	nothing fyne.CanvasObject
	found   []*command
	at      int // the marked one of found
	dialog  *dialog.CustomDialog
}

// searchCommands lets the user type what is wanted and run it.
func (w *Window) searchCommands() {
	s := &commandSearch{w: w, nothing: small(t("No command says that; try another word, or F1 for all of them."))}
	s.list = newList(func() int { return len(s.found) }, newFoundRow, s.fill)
	s.list.OnSelected = s.run
	s.field = w.newSearchEntry(t("What do you want to do? Enter takes the first."), s.search, func() { s.run(s.at) }, s)
	s.dialog = dialog.NewCustomWithoutButtons(t("Find a command"), container.NewBorder(tight(s.field, s.nothing), nil, nil, nil, s.list), w.win)
	size := w.win.Canvas().Size()
	s.dialog.Resize(fyne.NewSize(min(640, size.Width-40), min(420, size.Height-40)))
	s.search("")
	w.present(s.dialog, nil)
	w.win.Canvas().Focus(s.field)
}

// newFoundRow makes one line of the list: ground, words, key and help.
func newFoundRow() fyne.CanvasObject {
	help := small("")
	help.Wrapping, help.Truncation = fyne.TextWrapOff, fyne.TextTruncateEllipsis
	ground := canvas.NewRectangle(nil)
	ground.CornerRadius = theme.InputRadiusSize()
	return container.NewStack(ground, container.NewBorder(nil, nil, widget.NewLabel(""), widget.NewLabel(""), help))
}

// fill writes the command i into a line and marks it when Enter would run it.
func (s *commandSearch) fill(i widget.ListItemID, o fyne.CanvasObject) {
	ground, row := o.(*fyne.Container).Objects[0].(*canvas.Rectangle), o.(*fyne.Container).Objects[1].(*fyne.Container)
	ground.FillColor = nil
	if i == s.at {
		ground.FillColor = shade(colourChosen)
	}
	ground.Refresh()
	c := s.found[i]
	row.Objects[0].(*widget.Label).SetText(t(c.help))
	row.Objects[1].(*widget.Label).SetText(strings.TrimSuffix(t(c.words), "…"))
	row.Objects[2].(*widget.Label).SetText(keysOf(c))
}

// search lists what the text asks for and marks the first.
func (s *commandSearch) search(text string) {
	s.found, s.at = s.w.matching(text), 0
	s.list.UnselectAll()
	s.list.Refresh()
	s.list.ScrollToTop()
	show(s.nothing, len(s.found) == 0)
}

// step marks another command of the list.
func (s *commandSearch) step(by int) {
	if len(s.found) == 0 {
		return
	}
	s.at = min(max(s.at+by, 0), len(s.found)-1)
	s.list.Refresh()
	s.list.ScrollTo(s.at)
}

// run ends the search and runs the command i, if there is one.
func (s *commandSearch) run(i int) {
	if i >= 0 && i < len(s.found) {
		s.dialog.Hide()
		s.w.Run(s.found[i].id)
	}
}

// lead marks another command by a key; false for keys that do not.
func (s *commandSearch) lead(name fyne.KeyName) bool {
	switch name {
	case fyne.KeyUp:
		s.step(-1)
	case fyne.KeyDown:
		s.step(1)
	case fyne.KeyPageUp:
		s.step(-pageOfFound)
	case fyne.KeyPageDown:
		s.step(pageOfFound)
	default:
		return false
	}
	return true
}

// pageOfFound is how many commands a page key goes on by.
const pageOfFound = 8

// matching returns the commands that can be done now and whose words or help
// hold all that was typed: first what is called just so, then what begins so,
// then what holds it in its name, then in its help.
func (w *Window) matching(text string) []*command {
	text = strings.ToLower(strings.TrimSpace(text))
	wanted := strings.Fields(text)
	holds := func(in string) bool {
		return !slices.ContainsFunc(wanted, func(p string) bool { return !strings.Contains(in, p) })
	}
	var ranks [4][]*command
	for _, c := range w.commands {
		if c.id == "search" || !c.can(w) {
			continue
		}
		name := strings.ToLower(strings.TrimSuffix(t(c.words), "…"))
		switch {
		case name == text:
			ranks[0] = append(ranks[0], c)
		case strings.HasPrefix(name, text):
			ranks[1] = append(ranks[1], c)
		case holds(name):
			ranks[2] = append(ranks[2], c)
		case holds(name + " " + strings.ToLower(t(c.help))):
			ranks[3] = append(ranks[3], c)
		}
	}
	return slices.Concat(ranks[:]...)
}
