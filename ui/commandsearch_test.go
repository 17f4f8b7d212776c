package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

func TestACommandCalledJustSoComesFirst(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	for typed, want := range map[string]string{"tear": "tool-tear", "Tear ": "tool-tear", "loss": "tool-loss", "grid": "show-grid", "print": "print"} {
		got := w.matching(typed)
		if len(got) == 0 {
			t.Errorf("%q finds nothing", typed)
			continue
		}
		if got[0].id != want {
			t.Errorf("%q finds %s first, want %s", typed, got[0].id, want)
		}
	}
}

func TestArrowsGoThroughWhatTheSearchFound(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	w.searchCommands()
	f, ok := w.win.Canvas().Focused().(*dialogEntry)
	if !ok {
		t.Fatalf("the search gives the keyboard to %T", w.win.Canvas().Focused())
	}
	s := f.leads.(*commandSearch)
	f.SetText("tear")
	want := w.matching("tear")
	press := func(k fyne.KeyName) { f.TypedKey(&fyne.KeyEvent{Name: k}) }
	press(fyne.KeyUp)
	if s.at != 0 {
		t.Errorf("above the first stands %d", s.at)
	}
	press(fyne.KeyDown)
	press(fyne.KeyDown)
	press(fyne.KeyUp)
	if s.at != 1 || len(want) < 3 {
		t.Fatalf("two down and one up marks %d of %d", s.at, len(want))
	}
	press(fyne.KeyPageDown)
	press(fyne.KeyPageDown)
	if s.at != len(want)-1 {
		t.Errorf("pages lead to %d, want the last of %d", s.at, len(want))
	}
	f.SetText("loss")
	press(fyne.KeyReturn)
	if got := w.surface.Tool(); got != "loss" || w.closeDialog() {
		t.Errorf("Enter took %s in hand, or the search stayed open", got)
	}
}

func TestASheetIsReadByKeysAlone(t *testing.T) {
	w := testWindow(t)
	w.helpSheet()
	end, ok := w.win.Canvas().Focused().(*answerButton)
	if !ok || end.leads == nil {
		t.Fatal("the help sheet gives its keys to nothing that moves it")
	}
	s := end.leads
	last := s.Content.MinSize().Height - s.Size().Height
	if last < 200 {
		t.Fatalf("the sheet is only %g longer than its window", last)
	}
	press := func(k fyne.KeyName) { end.TypedKey(&fyne.KeyEvent{Name: k}) }
	for _, step := range []struct {
		key  fyne.KeyName
		want float32
	}{{fyne.KeyUp, 0}, {fyne.KeyDown, lineOfScroll}, {fyne.KeyEnd, last}, {fyne.KeyPageDown, last},
		{fyne.KeyPageUp, last - 0.85*s.Size().Height}, {fyne.KeyHome, 0}} {
		press(step.key)
		if d := s.Offset.Y - step.want; d > 0.5 || d < -0.5 {
			t.Errorf("%s leads to %g, want %g", step.key, s.Offset.Y, step.want)
		}
	}
	press(fyne.KeySpace)
	if w.closeDialog() {
		t.Error("Space on Close left the sheet open")
	}
	if leadScroll(container.NewVScroll(widget.NewLabel("short")), fyne.KeyTab) {
		t.Error("Tab moves a text")
	}
}
