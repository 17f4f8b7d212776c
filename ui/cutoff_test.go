package ui

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
	"leafmend/mendplan"
)

// frame is where something may be seen, in units of the window.
type frame struct{ left, top, right, bottom float32 }

const everywhere = math.MaxFloat32 / 4

// cutOff tells of every word, button and field under o that does not have the
// room it needs or leaves the frame that it can be seen in. What scrolls may
// be as long as it likes in the direction of its scrolling.
func cutOff(o fyne.CanvasObject, at fyne.Position, f frame, tell func(what string)) {
	if o == nil || !o.Visible() {
		return
	}
	at = at.Add(o.Position())
	if at.X < -5000 {
		return // given way, see givingRow
	}
	if words, ok := wordsOf(o); ok && words != "" {
		min, size := o.MinSize(), o.Size()
		if size.IsZero() {
			size = min // titles of the toolkit's dialogs are placed, but given no size
		}
		switch {
		case min.Width > size.Width+1 || min.Height > size.Height+1:
			tell(fmt.Sprintf("%T %q needs %v and has %v", o, words, min, size))
		case at.X < f.left-1 || at.Y < f.top-1 || at.X+size.Width > f.right+1 || at.Y+size.Height > f.bottom+1:
			tell(fmt.Sprintf("%T %q lies at %v, %v large, outside of %v", o, words, at, size, f))
		}
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			cutOff(c, at, f, tell)
		}
	case *container.Scroll:
		in := frame{max(f.left, at.X), max(f.top, at.Y), min(f.right, at.X+o.Size().Width), min(f.bottom, at.Y+o.Size().Height)}
		if o.Direction != container.ScrollHorizontalOnly {
			in.top, in.bottom = -everywhere, everywhere
		}
		if o.Direction != container.ScrollVerticalOnly {
			in.left, in.right = -everywhere, everywhere
		}
		cutOff(o.Content, at, in, tell)
	case *widget.Label, *checkWords, *widget.Entry, *textField, *dialogEntry, *widget.Select, *choiceField, *keyButton, *answerButton:
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			cutOff(c, at, f, tell)
		}
	}
}

// settle lays everything out again from the top, as the toolkit does before
// it paints: words that wrap know their height only when they know their width.
func settle(o fyne.CanvasObject) {
	if o == nil || !o.Visible() {
		return
	}
	switch o := o.(type) {
	case *fyne.Container:
		if o.Layout != nil {
			o.Layout.Layout(o.Objects, o.Size())
		}
		for _, c := range o.Objects {
			settle(c)
		}
	case fyne.Widget:
		r := test.WidgetRenderer(o)
		r.Layout(o.Size())
		for _, c := range r.Objects() {
			settle(c)
		}
	}
}

// wordsOf are the words of a widget that must all be seen; false for those
// that end in an ellipsis by design and for what holds no words.
func wordsOf(o fyne.CanvasObject) (string, bool) {
	switch o := o.(type) {
	case *widget.Label:
		return o.Text, o.Truncation == fyne.TextTruncateOff
	case *checkWords:
		return o.Text, true
	case *keyButton:
		return o.Text, true
	case *answerButton:
		return o.Text, true
	case *keyCheck:
		return o.Text, true
	case *pressable:
		return o.text, true
	}
	return "", false
}

// smallWindow is the window on the smallest screen, in a language and at a
// size of text, with a leaf of both sides, a tear and a loss.
func smallWindow(t *testing.T, code string, text TextSize) *Window {
	t.Helper()
	w := withBoth(t)
	job := w.session.Job()
	w.settings.SetLanguage(code)
	w.settings.SetTextSize(text)
	win := test.NewTempWindow(t, nil)
	w = build(w.app, win, Options{}, worker{inPlace: true})
	t.Cleanup(func() { useLanguage("en") })
	w.newJob()
	w.session.Do("add leaf", job)
	w.session.Show(job.Leaves[0].ID, "")
	win.Resize(fyne.NewSize(1024, 700-26)) // the menu bar has its 26
	traceTear(t, w, at(300, 200), at(360, 220))
	return w
}

func TestNoStageAndNoDialogIsCutOffOnASmallScreen(t *testing.T) {
	// Other languages are longer than English: they are seen in large text.
	for _, l := range assets.Languages() {
		sizes := []TextSize{LargeText}
		if l.Code == "en" {
			sizes = []TextSize{NormalText}
		}
		for _, text := range sizes {
			w := smallWindow(t, l.Code, text)
			size := w.win.Canvas().Size()
			whole := frame{0, 0, size.Width, size.Height}
			seen, job := map[string]bool{}, w.session.Job()
			look := func(place string, o fyne.CanvasObject) {
				for range 3 {
					settle(o)
				}
				cutOff(o, fyne.Position{}, whole, func(what string) {
					if !seen[what] {
						t.Errorf("%s, text %q, %s: %s", l.Code, text, place, what)
					}
					seen[what] = true
				})
			}
			for s := stageTrace; s <= stageWork; s++ {
				w.showStage(s)
				look(fmt.Sprintf("stage %d", s), w.win.Content())
			}
			dialogs := 0
			lookOver := func(place string) {
				if top := w.win.Canvas().Overlays().Top(); top != nil {
					dialogs++
					look("dialog of "+place, top)
				}
				for n := 0; w.asking() && n < 5; n++ {
					if !w.closeDialog() {
						w.win.Canvas().Overlays().Top().Hide()
					}
				}
			}
			for _, c := range w.commands {
				if c.id == "quit" {
					continue
				}
				w.showStage(stageTrace)
				if w.session.Select(job.Leaves[0].Damages[0].Number); w.Run(c.id) {
					look(c.id, w.win.Content())
					lookOver(c.id)
					w.session.Do("again", job)
				}
			}
			w.tellError(fmt.Errorf("no such file: %s", strings.Repeat("a rather long path/", 12)))
			lookOver("an error")
			w.askMeanwhile(strings.Repeat("long name ", 8)+mendplan.FileSuffix, nil)
			lookOver("a file that was changed meanwhile")
			if dialogs < 15 {
				t.Errorf("only %d dialogs were seen", dialogs)
			}
			t.Logf("%s, text %q: %d dialogs", l.Code, text, dialogs)
		}
	}
}
