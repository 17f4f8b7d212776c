package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// The toolkit's buttons, checks, sliders and lists swallow every key while
// they have the focus. These keep the keys they use themselves and hand on
// the rest, so that the keys of commands work whatever has the focus.

// keyButton is a button that Space and Enter press.
type keyButton struct {
	widget.Button
	focused bool
}

func newButton(words string, press func()) *keyButton {
	return newButtonWithIcon(words, nil, press)
}

func newButtonWithIcon(words string, icon fyne.Resource, press func()) *keyButton {
	b := &keyButton{}
	b.Text, b.Icon, b.OnTapped = words, icon, press
	b.ExtendBaseWidget(b)
	return b
}

// TypedRune implements [fyne.Focusable].
func (b *keyButton) TypedRune(r rune) { handOnLetter(b, r) }

// TypedKey implements [fyne.Focusable].
func (b *keyButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace:
		b.Button.TypedKey(e)
	case fyne.KeyReturn, fyne.KeyEnter:
		b.Button.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		handOnKey(b, e)
	}
}

// keyCheck is a check that Space and Enter turn over.
type keyCheck struct{ widget.Check }

func newCheck(words string, changed func(bool)) *keyCheck {
	c := &keyCheck{}
	c.Text, c.OnChanged = words, changed
	c.ExtendBaseWidget(c)
	return c
}

// TypedRune implements [fyne.Focusable].
func (c *keyCheck) TypedRune(r rune) {
	if r == ' ' {
		c.Check.TypedRune(r)
		return
	}
	handOnLetter(c, r)
}

// TypedKey implements [fyne.Focusable].
func (c *keyCheck) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace: // comes as a letter
	case fyne.KeyReturn, fyne.KeyEnter:
		c.Check.TypedRune(' ')
	default:
		handOnKey(c, e)
	}
}

// FocusGained implements [fyne.Focusable].
func (c *keyCheck) FocusGained() {
	c.Check.FocusGained()
	keepInSight(c)
}

// wrapping puts the words of a check beside it, where they may run over
// several lines; pressing them turns the check over too.
func wrapping(c *keyCheck) fyne.CanvasObject {
	words := &checkWords{check: c}
	words.Text, words.Wrapping = c.Text, fyne.TextWrapWord
	words.ExtendBaseWidget(words)
	c.SetText("")
	return container.NewBorder(nil, nil, c, nil, words)
}

// checkWords are the words beside a check.
type checkWords struct {
	widget.Label
	check *keyCheck
}

// Tapped implements [fyne.Tappable].
func (w *checkWords) Tapped(*fyne.PointEvent) {
	if !w.check.Disabled() {
		w.check.SetChecked(!w.check.Checked)
	}
}

// keySlider is a slider that the arrow keys move.
type keySlider struct{ widget.Slider }

func newSlider(least, most float64) *keySlider {
	s := &keySlider{}
	s.Min, s.Max, s.Value, s.Step, s.Orientation = least, most, least, 1, widget.Horizontal
	s.ExtendBaseWidget(s)
	return s
}

// TypedRune implements [fyne.Focusable].
func (s *keySlider) TypedRune(r rune) { handOnLetter(s, r) }

// TypedKey implements [fyne.Focusable].
func (s *keySlider) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown:
		s.Slider.TypedKey(e)
	default:
		handOnKey(s, e)
	}
}

// keyList is a list that the arrow keys walk and Space chooses from; where the
// row in hand is told, arrows choose at once.
type keyList struct {
	widget.List
	at func() int // the row in hand; may be nil
}

func newList(length func() int, create func() fyne.CanvasObject, update func(int, fyne.CanvasObject)) *keyList {
	l := &keyList{}
	l.Length, l.CreateItem, l.UpdateItem = length, create, update
	l.ExtendBaseWidget(l)
	return l
}

// TypedRune implements [fyne.Focusable].
func (l *keyList) TypedRune(r rune) { handOnLetter(l, r) }

// TypedKey implements [fyne.Focusable].
func (l *keyList) TypedKey(e *fyne.KeyEvent) {
	if l.at != nil && leadRows(&l.List, l.at(), e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		l.List.TypedKey(e)
	case fyne.KeyReturn, fyne.KeyEnter:
		l.List.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	default:
		handOnKey(l, e)
	}
}

// leadRows takes another row of a list in hand by a key; at is the one now.
// It returns false for keys that do not.
func leadRows(l *widget.List, at int, name fyne.KeyName) bool {
	last := l.Length() - 1
	switch name {
	case fyne.KeyUp:
		at--
	case fyne.KeyDown:
		at++
	case fyne.KeyHome:
		at = 0
	case fyne.KeyEnd:
		at = last
	default:
		return false
	}
	if last >= 0 {
		l.Select(min(max(at, 0), last))
	}
	return true
}

// handOnLetter gives a letter that a focused widget has no use for to the
// window, as if nothing had the focus. Space is for the widget.
func handOnLetter(o fyne.CanvasObject, r rune) {
	if cv := fyne.CurrentApp().Driver().CanvasForObject(o); r != ' ' && cv != nil && cv.OnTypedRune() != nil {
		cv.OnTypedRune()(r)
	}
}

// handOnKey does the same with a key that writes nothing.
func handOnKey(o fyne.CanvasObject, e *fyne.KeyEvent) {
	if cv := fyne.CurrentApp().Driver().CanvasForObject(o); cv != nil && cv.OnTypedKey() != nil {
		cv.OnTypedKey()(e)
	}
}
