//go:build linux || darwin

package ui

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/ui/oneloop"
)

// wordsShown is all that labels of the dialog in front say.
func wordsShown(w *Window) string {
	var b strings.Builder
	if top := w.win.Canvas().Overlays().Top(); top != nil {
		for _, o := range test.LaidOutObjects(top) {
			if l, ok := o.(*widget.Label); ok {
				b.WriteString(l.Text + "\n")
			}
		}
	}
	return b.String()
}

// smallDisk mounts a disk of 32 kB.
func smallDisk(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if out, err := exec.Command("mount", "-t", "tmpfs", "-o", "size=32k", "tmpfs", dir).CombinedOutput(); err != nil {
		t.Skipf("a small disk may not be mounted by this user: %v %s", err, out)
	}
	t.Cleanup(func() { exec.Command("umount", "-l", dir).Run() })
	return dir
}

// Whatever keeps a job from being saved is told with a remedy and a way to
// another folder; the old file is as it was, the work goes on in its recovery
// copy, and saving elsewhere ends the trouble.
func TestAFaultAtSavingLosesNothingAndLeadsElsewhere(t *testing.T) {
	for _, c := range []struct {
		name   string
		folder func(t *testing.T) string
		fault  func(t *testing.T, dir string) (now string) // the folder in which the old file lies
		remedy string
	}{
		{"the disk is full", smallDisk,
			func(t *testing.T, dir string) string { return dir }, "Make room on the disk"},
		{"the folder is for reading only", smallDisk,
			func(t *testing.T, dir string) string {
				if out, err := exec.Command("mount", "-o", "remount,ro", dir).CombinedOutput(); err != nil {
					t.Skipf("this user may not make a disk read-only: %v %s", err, out)
				}
				return dir
			}, "another folder"},
		{"the network folder has vanished", func(t *testing.T) string {
			dir := filepath.Join(t.TempDir(), "network")
			if err := os.Mkdir(dir, 0o755); err != nil {
				t.Fatal(err)
			}
			return dir
		}, func(t *testing.T, dir string) string {
			if err := os.Rename(dir, dir+" gone"); err != nil {
				t.Fatal(err)
			}
			return dir + " gone"
		}, "The folder is gone"},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := testWindow(t)
			dir := c.folder(t)
			path := filepath.Join(dir, "x"+mendplan.FileSuffix)
			w.writeJob(path, nil)
			t.Cleanup(func() { w.keepLock(nil) })
			old, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			now := c.fault(t, dir)
			j := w.session.Job()
			j.Notes = strings.Repeat("more than the disk holds ", 3000)
			w.session.Do("change notes", j)
			followed := false
			w.save(func() { followed = true })
			words := wordsShown(w)
			for _, part := range []string{"x" + mendplan.FileSuffix, "the old file is as it was", c.remedy, "a recovery copy is kept"} {
				if !strings.Contains(words, part) {
					t.Errorf("%q does not say %q", words, part)
				}
			}
			if data, err := os.ReadFile(filepath.Join(now, filepath.Base(path))); err != nil || string(data) != string(old) {
				t.Errorf("the old file is not as it was: %v", err)
			}
			if kept, _, err := mendplan.LoadFile(w.recover.file); err != nil || kept.Notes != j.Notes {
				t.Errorf("the recovery copy does not hold the work: %v", err)
			}
			if followed || !w.session.Unsaved() {
				t.Fatal("the work counts as saved")
			}
			pressIn(t, w, "Save under another name")
			if !w.asking() {
				t.Fatal("no other folder is asked for")
			}
			w.closeDialog()
			copied := w.recover.file
			w.writeJob(filepath.Join(t.TempDir(), "y"+mendplan.FileSuffix), nil)
			if w.session.Unsaved() || w.asking() {
				t.Error("saved elsewhere, the work counts as unsaved")
			}
			if _, err := os.Stat(copied); err == nil {
				t.Error("the recovery copy is left though the job is saved")
			}
		})
	}
}

// loopWindow is a window with true work aside and one goroutine for events:
// the test's, in pump.
func loopWindow(t *testing.T) (w *Window, pump func(what string, until func() bool)) {
	t.Helper()
	was := fyne.CurrentApp()
	app, events := oneloop.NewApp()
	t.Cleanup(func() { fyne.SetCurrentApp(was) })
	win := test.NewWindow(nil)
	t.Cleanup(win.Close)
	w = build(app, win, Options{Recovery: filepath.Join(t.TempDir(), "recovery")}, worker{})
	win.Resize(fyne.NewSize(1280, 800))
	w.newJob()
	return w, func(what string, until func() bool) {
		t.Helper()
		late := time.After(time.Minute)
		for !until() {
			select {
			case f := <-events:
				f()
			case <-late:
				t.Fatal("the window waits for ever: " + what)
			}
		}
	}
}

// stalled puts in the place of a file one that does not answer until it is
// let go: opening a pipe waits for who writes into it.
func stalled(t *testing.T, path string) (letGo func()) {
	t.Helper()
	os.Remove(path)
	if err := syscall.Mkfifo(path, 0o644); err != nil {
		t.Skipf("this disk holds no pipes: %v", err)
	}
	return func() {
		if f, err := os.OpenFile(path, os.O_WRONLY|syscall.O_NONBLOCK, 0); err == nil {
			f.Close()
		}
	}
}

// A folder that does not answer holds up the save and not the window: the
// user is told, goes on working, keeps copies, saves elsewhere, and what comes
// of the first save at last no longer matters.
func TestAFolderThatDoesNotAnswerDoesNotHoldUpTheWindow(t *testing.T) {
	w, pump := loopWindow(t)
	path, other := filepath.Join(t.TempDir(), "x"+mendplan.FileSuffix), filepath.Join(t.TempDir(), "y"+mendplan.FileSuffix)
	saved := false
	w.writeJob(path, func() { saved = true })
	pump("the first save", func() bool { return saved && w.lock != nil })
	letGo := stalled(t, path)
	j := w.session.Job()
	j.Title = "ours"
	w.session.Do("change title", j)
	w.save(func() { t.Error("the stalled save counts as done") })
	pump("the user is told", func() bool { w.tellSlow(w.saves[path], path); return len(w.dialogs) > 0 })
	if words := wordsShown(w); !strings.Contains(words, "does not answer") || !strings.Contains(words, "a recovery copy is kept") {
		t.Errorf("the user reads %q", words)
	}
	pump("the copy is kept", func() bool {
		kept, _, err := mendplan.LoadFile(w.recover.file)
		return err == nil && kept.Title == "ours"
	})
	j.Title = "ours, later"
	w.session.Do("change title", j)
	saved = false
	w.writeJob(other, func() { saved = true })
	pump("saving elsewhere", func() bool { return saved })
	if len(w.dialogs) > 0 || w.session.Unsaved() || w.session.Path() != other {
		t.Errorf("saved elsewhere: %d dialogs, unsaved %v, at %s", len(w.dialogs), w.session.Unsaved(), w.session.Path())
	}
	letGo()
	pump("the stalled save ends", func() bool { return w.saves[path] == nil })
	if len(w.dialogs) > 0 || w.session.Path() != other {
		t.Errorf("the stalled save came between: %d dialogs, at %s", len(w.dialogs), w.session.Path())
	}
	w.keepLock(nil)
	w.files.end(quitWait)
}

func TestAJobThatDoesNotAnswerIsNotWaitedFor(t *testing.T) {
	w, pump := loopWindow(t)
	slow, good := filepath.Join(t.TempDir(), "slow"+mendplan.FileSuffix), filepath.Join(t.TempDir(), "good"+mendplan.FileSuffix)
	if err := mendplan.SaveFile(good, mendplan.Job{Title: "good"}); err != nil {
		t.Fatal(err)
	}
	letGo := stalled(t, slow)
	w.openPath(slow)
	w.openPath(good)
	pump("another job opens", func() bool { return w.session.Job().Title == "good" })
	letGo()
	w.files.endOf(filepath.Dir(slow), time.Now().Add(quitWait))
	if w.session.Path() != good || len(w.dialogs) > 0 {
		t.Errorf("the job that did not answer came between: %s", w.session.Path())
	}
	w.keepLock(nil)
	w.files.end(quitWait)
}

// What is done while a save runs is not counted as saved.
func TestEditsDuringASaveStayUnsaved(t *testing.T) {
	w, pump := loopWindow(t)
	path := filepath.Join(t.TempDir(), "x"+mendplan.FileSuffix)
	saved := false
	w.writeJob(path, func() { saved = true })
	j := w.session.Job()
	j.Title = "later"
	w.session.Do("change title", j)
	pump("the save", func() bool { return saved })
	onDisk, _, err := mendplan.LoadFile(path)
	if err != nil || onDisk.Title != "" || !w.session.Unsaved() {
		t.Errorf("the file holds %q, unsaved %v, %v", onDisk.Title, w.session.Unsaved(), err)
	}
	w.session.Undo()
	if w.session.Unsaved() {
		t.Error("back at what was saved, the job counts as unsaved")
	}
	pump("the lock", func() bool { return w.lock != nil })
	w.keepLock(nil)
	w.files.end(quitWait)
}
