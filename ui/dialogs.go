package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// present shows a dialog that Escape closes; closed may be nil.
func (w *Window) present(d *dialog.CustomDialog, closed func()) {
	w.dialogs = append(w.dialogs, d)
	d.SetOnClosed(func() {
		for i, have := range w.dialogs {
			if have == d {
				w.dialogs = append(w.dialogs[:i], w.dialogs[i+1:]...)
				break
			}
		}
		if closed != nil {
			closed()
		}
		w.focusSurface()
	})
	d.Show()
}

// closeDialog hides the dialog in front, as Escape does; false when there is
// none.
func (w *Window) closeDialog() bool {
	if len(w.dialogs) == 0 {
		return false
	}
	w.dialogs[len(w.dialogs)-1].Hide()
	return true
}

// confirm asks a question with two answers. Escape gives none.
func (w *Window) confirm(title, yes, no string, body fyne.CanvasObject, size fyne.Size, answer func(bool)) {
	d := dialog.NewCustomWithoutButtons(title, body, w.win)
	act := func(v bool) func() { return func() { d.Hide(); answer(v) } }
	ok := w.answerButton(yes, widget.HighImportance, act(true))
	d.SetButtons([]fyne.CanvasObject{w.answerButton(no, widget.MediumImportance, act(false)), ok})
	room := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(size.Width, room.Width-40), min(size.Height, room.Height-40)))
	w.present(d, nil)
	w.win.Canvas().Focus(ok)
}

// answer is one way out of a question.
type answer struct {
	words      string
	importance widget.Importance
	act        func() // nil for nothing but closing
}

// question puts a question in words and offers several answers; the last has the
// keyboard. Closed without
// one, as by Escape, it does escape, which may be nil.
func (w *Window) question(title, text string, size fyne.Size, escape func(), answers ...answer) *dialog.CustomDialog {
	words := widget.NewLabel(text)
	words.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(title, words, w.win)
	answered := false
	var buttons []fyne.CanvasObject
	var last *answerButton
	for _, a := range answers {
		last = w.answerButton(a.words, a.importance, func() {
			answered = true
			d.Hide()
			if a.act != nil {
				a.act()
			}
		})
		buttons = append(buttons, last)
	}
	d.SetButtons(buttons)
	room := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(size.Width, room.Width-40), min(size.Height, room.Height-40)))
	w.present(d, func() {
		if !answered && escape != nil {
			escape()
		}
	})
	w.win.Canvas().Focus(last)
	return d
}

// answerButton is a button of a dialog, which Escape closes.
type answerButton struct {
	keyButton
	w     *Window
	leads *container.Scroll // what arrows and page keys move while the button has the focus; may be nil
}

func (w *Window) answerButton(words string, importance widget.Importance, press func()) *answerButton {
	b := &answerButton{w: w}
	b.Text, b.Importance = words, importance
	b.OnTapped = func() { w.guard("button", press) }
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey implements [fyne.Focusable].
func (b *answerButton) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyEscape {
		b.w.closeDialog()
		return
	}
	if b.leads == nil || !leadScroll(b.leads, e.Name) {
		b.keyButton.TypedKey(e)
	}
}

// leadScroll moves what is longer than its window by a line, a page or to an
// end; false for keys that do not move.
func leadScroll(s *container.Scroll, name fyne.KeyName) bool {
	page := s.Size().Height * 0.85
	last := max(s.Content.MinSize().Height-s.Size().Height, 0)
	at := s.Offset.Y
	switch name {
	case fyne.KeyUp:
		at -= lineOfScroll
	case fyne.KeyDown:
		at += lineOfScroll
	case fyne.KeyPageUp:
		at -= page
	case fyne.KeyPageDown:
		at += page
	case fyne.KeyHome:
		at = 0
	case fyne.KeyEnd:
		at = last
	default:
		return false
	}
	s.ScrollToOffset(fyne.NewPos(s.Offset.X, min(max(at, 0), last)))
	return true
}

// lineOfScroll is how far an arrow key moves a text, units: two lines of it.
const lineOfScroll = 40

// tellError shows an error in words, with what can be done, and a button that
// copies what helps others to help.
func (w *Window) tellError(err error) {
	w.logError(err)
	s := inWords(err)
	w.status.say(s.what)
	words := widget.NewLabel(s.what)
	words.Wrapping = fyne.TextWrapWord
	remedy := widget.NewLabel(s.remedy)
	remedy.Wrapping = fyne.TextWrapWord
	d := dialog.NewCustomWithoutButtons(t("That did not work"), tight(words, remedy), w.win)
	end := w.answerButton(t("Close"), widget.HighImportance, d.Hide)
	d.SetButtons([]fyne.CanvasObject{w.answerButton(t("Copy details"), widget.MediumImportance, func() { w.copyDetails(err) }), end})
	room := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(480, room.Width-40), min(200, room.Height-40)))
	w.present(d, nil)
	w.win.Canvas().Focus(end)
}

// dialogEntry is a field of a dialog that Escape closes.
type dialogEntry struct {
	widget.Entry
	w     *Window
	leads leader // what the field searches; may be nil
}

// leader is what arrows and page keys move while a field has the keyboard.
type leader interface {
	lead(fyne.KeyName) bool // false for keys that do not move it
}

func (w *Window) newEntry() *dialogEntry {
	e := &dialogEntry{w: w}
	e.ExtendBaseWidget(e)
	return e
}

// newSearchEntry is a field in which something is searched: arrows and page
// keys move through that, Enter takes what was found.
func (w *Window) newSearchEntry(hint string, search func(string), take func(), leads leader) *dialogEntry {
	e := w.newEntry()
	e.SetPlaceHolder(hint)
	e.OnChanged, e.OnSubmitted, e.leads = search, func(string) { take() }, leads
	return e
}

// TypedKey implements [fyne.Focusable].
func (e *dialogEntry) TypedKey(k *fyne.KeyEvent) {
	switch {
	case k.Name == fyne.KeyEscape:
		e.w.closeDialog()
	case e.leads == nil || !e.leads.lead(k.Name):
		e.Entry.TypedKey(k)
	}
}

// TypedShortcut implements [fyne.Shortcutable].
func (e *dialogEntry) TypedShortcut(s fyne.Shortcut) { e.Entry.TypedShortcut(redoInText(s)) }
