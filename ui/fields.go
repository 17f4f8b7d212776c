package ui

import (
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// labelled puts a short word before a field.
func labelled(words string, field fyne.CanvasObject) fyne.CanvasObject {
	l := widget.NewLabel(words)
	l.Truncation = fyne.TextTruncateEllipsis
	return container.New(&labelledLayout{}, l, field)
}

// labelledLayout gives the word a fixed share of the width and the field the
// rest, so that fields stand under one another.
type labelledLayout struct{}

const labelShare = 0.36

func (*labelledLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(o[1].MinSize().Width/(1-labelShare), max(o[0].MinSize().Height, o[1].MinSize().Height))
}

func (*labelledLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	w := size.Width * labelShare
	o[0].Resize(fyne.NewSize(w, o[0].MinSize().Height))
	o[0].Move(fyne.NewPos(0, (size.Height-o[0].MinSize().Height)/2))
	o[1].Resize(fyne.NewSize(size.Width-w, size.Height))
	o[1].Move(fyne.NewPos(w, 0))
}

// small is a line of quiet words that wraps.
func small(words string) *widget.Label {
	l := widget.NewLabel(words)
	l.Wrapping = fyne.TextWrapWord
	l.SizeName = theme.SizeNameCaptionText
	l.Importance = widget.LowImportance
	return l
}

// heading is the title of a group of fields.
func heading(words string) *widget.Label {
	l := widget.NewLabel(words)
	l.TextStyle.Bold = true
	return l
}

// tight stacks lines without gaps.
func tight(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(layout.NewCustomPaddedVBoxLayout(0), objects...)
}

// inScroll stacks lines without gaps, as tight does, and leaves room on the
// right for the bar of what they are scrolled in.
func inScroll(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(besideBar{layout.NewCustomPaddedVBoxLayout(0)}, objects...)
}

// besideBar lays out as another layout does, but for the width of a bar.
type besideBar struct{ inner fyne.Layout }

func barWidth() float32 { return theme.ScrollBarSize() }

// MinSize implements [fyne.Layout].
func (b besideBar) MinSize(o []fyne.CanvasObject) fyne.Size {
	return b.inner.MinSize(o).AddWidthHeight(barWidth(), 0)
}

// Layout implements [fyne.Layout].
func (b besideBar) Layout(o []fyne.CanvasObject, size fyne.Size) {
	b.inner.Layout(o, size.SubtractWidthHeight(barWidth(), 0))
}

// choiceField is a select whose choices have an id each. It tells only what
// the user chose, never what was set.
type choiceField struct {
	widget.Select
	ids   []string
	quiet bool
}

func newChoice(pick func(id string)) *choiceField {
	c := &choiceField{}
	c.OnChanged = func(string) {
		if i := c.SelectedIndex(); !c.quiet && i >= 0 && i < len(c.ids) {
			pick(c.ids[i])
		}
	}
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained implements [fyne.Focusable].
func (c *choiceField) FocusGained() {
	c.Select.FocusGained()
	keepInSight(c)
}

// set shows words for ids and marks one as chosen.
func (c *choiceField) set(ids, words []string, chosen string) {
	c.quiet = true
	defer func() { c.quiet = false }()
	c.ids = ids
	c.Options = words
	for i, id := range ids {
		if id == chosen {
			c.SetSelectedIndex(i)
			c.Refresh()
			return
		}
	}
	c.ClearSelected()
	c.Refresh()
}

// TypedKey implements [fyne.Focusable]: the arrow keys change the choice at
// once; Space and Enter show the list.
func (c *choiceField) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyUp, fyne.KeyLeft:
		c.step(-1)
	case fyne.KeyDown, fyne.KeyRight:
		c.step(1)
	case fyne.KeyReturn, fyne.KeyEnter:
		c.Select.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeySpace:
		c.Select.TypedKey(e)
	default:
		handOnKey(c, e)
	}
}

// TypedRune implements [fyne.Focusable]: a letter goes to the next choice that
// begins with it.
func (c *choiceField) TypedRune(r rune) {
	for i := range c.ids {
		k := (c.SelectedIndex() + 1 + i) % len(c.ids)
		if first := []rune(c.Options[k]); len(first) > 0 && unicode.ToLower(first[0]) == unicode.ToLower(r) {
			c.SetSelectedIndex(k)
			return
		}
	}
}

// step chooses the next or the one before, as a user does.
func (c *choiceField) step(by int) {
	if i := c.SelectedIndex() + by; !c.Disabled() && i >= 0 && i < len(c.ids) {
		c.SetSelectedIndex(i)
	}
}

// textField is an entry that tells what was typed when the user is done with
// it (Enter, or the focus goes), and, where live is set, at every key. What
// is set from outside never overwrites what is being typed.
type textField struct {
	widget.Entry
	done    func(text string)
	live    func(text string)
	told    string // last text set or told
	focused bool
	quiet   bool
}

func newTextField(done func(string)) *textField {
	f := &textField{done: done}
	f.ExtendBaseWidget(f)
	f.OnSubmitted = func(string) { f.tell() }
	f.OnChanged = func(s string) {
		if !f.quiet && f.live != nil {
			f.live(s)
		}
	}
	return f
}

func newTextArea(done func(string)) *textField {
	f := newTextField(done)
	f.MultiLine = true
	f.Wrapping = fyne.TextWrapWord
	f.SetMinRowsVisible(3)
	return f
}

func (f *textField) tell() {
	if f.Text != f.told {
		f.told = f.Text
		if f.done != nil {
			f.done(f.Text)
		}
	}
}

// FocusGained implements [fyne.Focusable].
func (f *textField) FocusGained() {
	f.focused = true
	f.Entry.FocusGained()
	keepInSight(f)
	if !f.MultiLine {
		f.Entry.TypedShortcut(&fyne.ShortcutSelectAll{}) // so that typing replaces what is there
	}
}

// FocusLost implements [fyne.Focusable].
func (f *textField) FocusLost() {
	f.focused = false
	f.Entry.FocusLost()
	f.tell()
}

// TypedKey implements [fyne.Focusable]: keys that neither write nor move
// within the text mean the window.
func (f *textField) TypedKey(e *fyne.KeyEvent) {
	page := e.Name == fyne.KeyPageUp || e.Name == fyne.KeyPageDown
	if e.Name == fyne.KeyF1 || page && !f.MultiLine {
		handOnKey(f, e)
		return
	}
	f.Entry.TypedKey(e)
}

// TypedShortcut implements [fyne.Shortcutable]: the second key of Redo is
// known here as well.
func (f *textField) TypedShortcut(s fyne.Shortcut) { f.Entry.TypedShortcut(redoInText(s)) }

// redoInText makes of the keys that the window knows for Redo the one shortcut
// that the toolkit's fields know.
func redoInText(s fyne.Shortcut) fyne.Shortcut {
	if c, ok := s.(*desktop.CustomShortcut); ok && c.KeyName == fyne.KeyZ && c.Modifier == ctrl|shift {
		return &fyne.ShortcutRedo{}
	}
	return s
}

// set shows text unless the user is typing.
func (f *textField) set(text string) {
	if f.focused || f.Text == text && f.told == text {
		return
	}
	f.quiet = true
	f.told = text
	f.SetText(text)
	f.quiet = false
}

// pick chooses as a user does.
func (c *choiceField) pick(id string) {
	for i, have := range c.ids {
		if have == id {
			c.SetSelectedIndex(i)
		}
	}
}

// chosen returns the id that is chosen; "" when none is.
func (c *choiceField) chosen() string {
	if i := c.SelectedIndex(); i >= 0 && i < len(c.ids) {
		return c.ids[i]
	}
	return ""
}
