package ui

import (
	"strings"
	"testing"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// press gives a key without Ctrl and Alt to what has the focus, as the
// toolkit does: a key that writes comes as a letter too.
func press(c fyne.Canvas, k key) {
	letter, writes := rune(0), len(k.name) == 1
	if writes {
		letter = unicode.ToLower(rune(k.name[0]))
		if k.mod == shift {
			letter = unicode.ToUpper(letter)
		}
	}
	e := &fyne.KeyEvent{Name: k.name}
	if f := c.Focused(); f != nil {
		f.TypedKey(e)
		if writes {
			f.TypedRune(letter)
		}
		return
	}
	c.OnTypedKey()(e)
	if writes {
		c.OnTypedRune()(letter)
	}
}

func TestEveryPlainKeyWorksWhateverHasTheFocusAndNoneIsStolenFromAField(t *testing.T) {
	w := withBoth(t)
	text := newTextField(nil)
	entry := w.newEntry()
	choice := newChoice(func(string) {})
	choice.set([]string{"a", "b"}, []string{"Alder", "Birch"}, "a")
	list := newList(func() int { return 3 }, func() fyne.CanvasObject { return widget.NewLabel("") }, func(int, fyne.CanvasObject) {})
	probes := map[string]fyne.Focusable{"a field": text, "a field of a dialog": entry, "a choice": choice, "a list": list,
		"a button": newButton("x", func() {}), "a check": newCheck("x", nil), "a slider": newSlider(0, 3), "a table": newWordTable([]column{{"a", 40}}, nil),
		"a row": newPressRow(widget.NewLabel("x"), nil), "the leaf": w.surface, "nothing": nil}
	column := container.NewVBox()
	for _, p := range probes {
		if o, ok := p.(fyne.CanvasObject); ok && p != fyne.Focusable(w.surface) {
			column.Add(o)
		}
	}
	w.win.SetContent(container.NewBorder(nil, nil, nil, column, w.win.Content()))
	ran := ""
	tried := 0
	for _, c := range w.commands {
		c.enabled, c.run = nil, func(*Window) { ran += c.id }
	}
	for name, p := range probes {
		isField, isChoice := strings.HasPrefix(name, "a field"), name == "a choice"
		for _, c := range w.commands {
			for _, k := range c.keys {
				if k.mod&^shift != 0 || name == "the leaf" && c.surface || k.mod == shift && len(k.name) > 1 {
					continue // with Ctrl or Alt the menu hears it first; Shift is asked of the driver
				}
				w.win.Canvas().Unfocus()
				if p != nil {
					w.win.Canvas().Focus(p)
				}
				if w.win.Canvas().Focused() != p {
					t.Fatalf("%s cannot have the focus", name)
				}
				ran = ""
				tried++
				press(w.win.Canvas(), k)
				want := c.id
				if isField && (len(k.name) == 1 || k.name == fyne.KeyDelete || p == fyne.Focusable(entry)) || isChoice && len(k.name) == 1 {
					want = ""
				}
				onLeaf := name == "the leaf" && strings.Contains("01+-", string(k.name)) // the surface does these itself
				if ran != want && !onLeaf {
					t.Errorf("with %s in focus %s runs %q, want %q", name, k, ran, want)
				}
			}
		}
	}
	if tried < 400 {
		t.Errorf("only %d keys were tried", tried)
	}
	t.Logf("%d keys tried with %d kinds of focus", tried, len(probes))
	if text.Text == "" || entry.Text == "" {
		t.Error("nothing was written in the fields")
	}
}

func TestSpaceAndEnterPressWhatHasTheFocus(t *testing.T) {
	w := testWindow(t)
	pressed := 0
	b := newButton("x", func() { pressed++ })
	c := newCheck("x", func(bool) { pressed++ })
	r := newPressRow(widget.NewLabel("x"), func() { pressed++ })
	w.win.SetContent(container.NewVBox(b, c, r))
	for _, f := range []fyne.Focusable{b, c, r} {
		w.win.Canvas().Focus(f)
		for _, name := range []fyne.KeyName{fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter} {
			before := pressed
			f.TypedKey(&fyne.KeyEvent{Name: name})
			if name == fyne.KeySpace {
				f.TypedRune(' ')
			}
			if pressed != before+1 {
				t.Errorf("%T: %s presses it %d times", f, name, pressed-before)
			}
		}
	}
}

func TestBothKeysOfRedoWorkInAField(t *testing.T) {
	w := testWindow(t)
	text := newTextField(nil)
	w.win.SetContent(text)
	w.win.Canvas().Focus(text)
	text.TypedRune('a')
	text.TypedShortcut(&fyne.ShortcutUndo{})
	if text.Text != "" {
		t.Fatalf("undo leaves %q", text.Text)
	}
	text.TypedShortcut(w.command("redo").keys[1].shortcut())
	if text.Text != "a" {
		t.Errorf("Ctrl+Shift+Z leaves %q", text.Text)
	}
}
