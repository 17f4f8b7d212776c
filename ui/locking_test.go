package ui

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"leafmend/mendplan"
)

func TestAJobThatIsOpenElsewhereIsAskedAbout(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	if err := mendplan.SaveFile(path, mendplan.Job{Title: "Annual"}); err != nil {
		t.Fatal(err)
	}
	other, held, err := mendplan.Lock(path, time.Now())
	if err != nil || held != nil {
		t.Fatal(held, err)
	}
	w := testWindow(t)
	w.openPath(path)
	if w.win.Canvas().Overlays().Top() == nil || w.session.Job().Title != "" {
		t.Fatal("a job another program holds was opened without asking")
	}
	w.win.Canvas().Overlays().Top().Hide()
	if err := other.Release(); err != nil {
		t.Fatal(err)
	}
	w.openPath(path)
	if w.session.Job().Title != "Annual" || w.lock == nil {
		t.Fatal("a free job was not opened and locked")
	}
	if _, held, _ := mendplan.Lock(path, time.Now()); held == nil {
		t.Error("the job in hand is free for others")
	}
	w.newJob()
	if _, err := os.Stat(mendplan.LockPath(path)); err == nil {
		t.Error("the lock is left after another job was begun")
	}
}

func TestTheLockFollowsTheJobToAnotherFile(t *testing.T) {
	dir := t.TempDir()
	first, second := filepath.Join(dir, "a.leafmend"), filepath.Join(dir, "b.leafmend")
	w := testWindow(t)
	w.writeJob(first, nil)
	w.writeJob(second, nil)
	w.writeJob(second, nil)
	if _, err := os.Stat(mendplan.LockPath(first)); err == nil {
		t.Error("the old file is still locked")
	}
	if _, err := os.Stat(mendplan.LockPath(second)); err != nil {
		t.Errorf("the new file is not locked: %v", err)
	}
}

func TestTheLockIsRenewedWhileTheJobIsWorkedOn(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	w := testWindow(t)
	w.writeJob(path, nil)
	long := time.Now().Add(-20 * time.Hour)
	if err := os.Chtimes(mendplan.LockPath(path), long, long); err != nil {
		t.Fatal(err)
	}
	j := w.session.Job()
	j.Title = "Annual"
	w.session.Do("change title", j)
	st, err := os.Stat(mendplan.LockPath(path))
	if err != nil || time.Since(st.ModTime()) > time.Minute {
		t.Errorf("after an edit the lock is of %v, %v", st.ModTime(), err)
	}
}
