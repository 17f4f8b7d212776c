package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// atStep reports the step of the guide, failing when it is another.
func atStep(t *testing.T, w *Window, want int) {
	t.Helper()
	if !w.guide.open() || w.guide.at != want {
		t.Fatalf("the guide is open: %v, at step %d, want %d: %s", w.guide.open(), w.guide.at, want, w.guide.words.Text)
	}
}

// typeOnLeaf presses keys while the leaf has the focus.
func typeOnLeaf(w *Window, names ...fyne.KeyName) {
	for _, n := range names {
		switch {
		case n == fyne.KeySpace:
			w.surface.KeyDown(&fyne.KeyEvent{Name: n})
			w.surface.KeyUp(&fyne.KeyEvent{Name: n})
		case len(n) == 1:
			w.surface.TypedRune(rune(strings.ToLower(string(n))[0]))
		default:
			w.surface.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
}

// repeat is one key pressed several times.
func repeat(name fyne.KeyName, times int) (keys []fyne.KeyName) {
	for range times {
		keys = append(keys, name)
	}
	return keys
}

func TestTheGuideIsWalkedByItsButtonsAndPresses(t *testing.T) {
	w := testWindow(t)
	test.Tap(w.trace.start.button("guide", 0))
	atStep(t, w, 0)
	if w.guide.help.Hidden || w.guide.words.Text == "" {
		t.Fatal("the first step says nothing")
	}
	withSample(t, w)
	atStep(t, w, 1)
	if !strings.Contains(w.guide.words.Text, "300 ppi") {
		t.Errorf("the scale is not told: %s", w.guide.words.Text)
	}
	test.Tap(w.guide.next)
	atStep(t, w, 2)
	test.Tap(w.guide.help)
	if leaf := mustLeaf(t, w); len(leaf.Damages) > 0 || w.surface.Tool() != leafview.TearTool {
		t.Fatalf("the guide leads to leaf %s with %d damages and the tool %s", leaf.Mark, len(leaf.Damages), w.surface.Tool())
	}
	w.settings.SetFollow(false)
	w.applyHabits()
	size := w.surface.Size()
	press := func(x, y float32) {
		pos := fyne.NewPos(size.Width*x, size.Height*y)
		e := &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: pos, AbsolutePosition: pos}, Button: desktop.MouseButtonPrimary}
		w.surface.MouseMoved(e)
		w.surface.MouseDown(e)
		w.surface.MouseUp(e)
	}
	press(0.3, 0.4)
	press(0.35, 0.5)
	typeOnLeaf(w, fyne.KeyReturn)
	atStep(t, w, 3)
	test.Tap(w.guide.help)
	if !hasDamage(w) {
		t.Error("nothing is chosen to change")
	}
	test.Tap(w.guide.next)
	test.Tap(w.guide.help)
	press(0.5, 0.4)
	press(0.55, 0.4)
	press(0.55, 0.5)
	press(0.5, 0.4) // the first point
	atStep(t, w, 5)
	test.Tap(w.guide.help)
	atStep(t, w, 6)
	w.guide.did(guidePrinted)
	atStep(t, w, 7)
	if w.guide.next.Text != "Finish" {
		t.Errorf("the last step goes on by %q", w.guide.next.Text)
	}
	test.Tap(w.guide.help)
	if w.guide.open() || w.session.Unsaved() {
		t.Error("saving does not end the guide")
	}
	if w.Run("guide"); w.guide.at != 1 {
		t.Errorf("a guide that was walked to its end begins at step %d, want at the scale", w.guide.at)
	}
}

func TestTheGuideIsWalkedByKeysAlone(t *testing.T) {
	w := testWindow(t)
	w.Run("guide")
	atStep(t, w, 0)
	withLeaf(t, w)
	atStep(t, w, 1)
	w.settings.SetFollow(false)
	w.applyHabits()
	w.shortcut(w.command("guide-next").keys[0].shortcut())
	atStep(t, w, 2)
	w.focusSurface()
	typeOnLeaf(w, "T")
	typeOnLeaf(w, append(repeat(fyne.KeyLeft, 5), fyne.KeySpace)...)
	typeOnLeaf(w, append(repeat(fyne.KeyRight, 12), fyne.KeySpace, fyne.KeyReturn)...)
	atStep(t, w, 3)
	w.shortcut(w.command("guide-next").keys[0].shortcut())
	typeOnLeaf(w, "L", fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeySpace)
	typeOnLeaf(w, append(repeat(fyne.KeyLeft, 6), fyne.KeySpace)...)
	typeOnLeaf(w, append(repeat(fyne.KeyDown, 6), fyne.KeySpace, fyne.KeyReturn)...)
	atStep(t, w, 5)
	w.shortcut(w.command("stage-cuts").keys[0].shortcut())
	atStep(t, w, 6)
	w.shortcut(w.command("guide-back").keys[0].shortcut())
	atStep(t, w, 5)
	w.shortcut(w.command("guide-next").keys[0].shortcut())
	dir := t.TempDir()
	path := filepath.Join(dir, "set.pdf")
	w.writePDF(path, w.session.Job(), nil, false)
	if _, err := os.Stat(path); err != nil {
		t.Fatal(err)
	}
	atStep(t, w, 7)
	w.writeJob(filepath.Join(dir, "first"+mendplan.FileSuffix), nil)
	if w.guide.open() {
		t.Error("the guide is still open after its last step")
	}
	t.Cleanup(func() { w.keepLock(nil) })
}

func TestTheGuideGoesOnWhereItWasLeft(t *testing.T) {
	w := withBoth(t)
	w.Run("guide")
	w.guide.step(1)
	w.guide.step(1)
	if w.Run("guide"); w.guide.open() || !strings.Contains(w.status.outcome, "Ctrl+F1") {
		t.Fatalf("open: %v, said: %s", w.guide.open(), w.status.outcome)
	}
	traceTear(t, w, at(200, 300), geom.Pt{X: 240, Y: 330}) // not heard while it is closed
	if w.Run("guide-next") {
		t.Error("a closed guide goes on")
	}
	w.Run("guide")
	atStep(t, w, 3)
	w.newJob()
	w.Run("guide")
	w.Run("guide")
	atStep(t, w, 0)
}
