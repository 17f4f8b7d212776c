package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
)

// pressIn presses the button of that name in what lies over the window.
func pressIn(t *testing.T, w *Window, words string) {
	t.Helper()
	var found *keyButton
	for _, o := range test.LaidOutObjects(w.win.Canvas().Overlays().Top()) {
		b, ok := o.(*keyButton)
		if answer, is := o.(*answerButton); is {
			b, ok = &answer.keyButton, true
		}
		if ok && b.Text == words {
			found = b
		}
	}
	if found == nil || found.Disabled() {
		t.Fatalf("there is no button “%s” to press", words)
	}
	found.OnTapped()
}

func TestTissuesAndRulesAreKeptFromJobToJob(t *testing.T) {
	w := testWindow(t)
	os.Remove(w.libraryPath())
	t.Cleanup(func() { os.Remove(w.libraryPath()) })
	withSample(t, w)
	names := len(w.session.Job().Tissues)
	j := w.session.Job()
	j.Rules = j.Rules.With(mendplan.SideMargin, mendplan.Num(4))
	w.session.Do("change measure", j)
	w.Run("library")
	pressIn(t, w, "Keep this job's tissues and stock")
	w.Run("library")
	pressIn(t, w, "Keep this job's rules and recipes")

	w.newJob()
	w.Run("library")
	pressIn(t, w, "Take tissues and stock")
	if got := len(w.session.Job().Tissues); got < names {
		t.Errorf("the new job has %d tissues, want the %d kept", got, names)
	}
	w.Run("library")
	pressIn(t, w, "Take rules and recipes")
	if n := (mendplan.InForce{Job: w.session.Job().Rules}).Number(mendplan.SideMargin); n != 4 {
		t.Errorf("the margin in the new job is %g", n)
	}
	w.Run("undo")
	if n := (mendplan.InForce{Job: w.session.Job().Rules}).Number(mendplan.SideMargin); n == 4 {
		t.Error("taking the rules is not undone")
	}
}

func TestADamagedLibraryIsToldAndLeftAlone(t *testing.T) {
	w := testWindow(t)
	path := w.libraryPath()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, []byte("{half"), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Remove(path) })
	w.Run("library")
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("nothing is told")
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "{half" {
		t.Errorf("the file is now %q, %v", data, err)
	}
}
