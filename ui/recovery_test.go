package ui

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"leafmend/mendplan"
)

// endedProcess is a process of this machine that has ended.
func endedProcess(t *testing.T) mendplan.Process {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run", "^$")
	if err := cmd.Run(); err != nil {
		t.Fatal(err)
	}
	return mendplan.Process{PID: cmd.Process.Pid}
}

// leave puts a copy in a folder as a program would have left it.
func leave(t *testing.T, dir, name, title string, note recoveryNote, when time.Time) string {
	t.Helper()
	file := filepath.Join(dir, name+mendplan.FileSuffix)
	if err := keepCopy(file, note, mendplan.Job{Title: title}); err != nil {
		t.Fatal(err)
	}
	if err := os.Chtimes(file, when, when); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestCopiesOfProgramsThatEndedAreOfferedAndNoOthers(t *testing.T) {
	dead, self, now := endedProcess(t), mendplan.ThisProcess(), time.Now()
	path := filepath.Join(t.TempDir(), "a"+mendplan.FileSuffix)
	if err := mendplan.SaveFile(path, mendplan.Job{Title: "saved"}); err != nil {
		t.Fatal(err)
	}
	sum, err := mendplan.ChecksumFile(path)
	if err != nil {
		t.Fatal(err)
	}
	parent := mendplan.Process{PID: os.Getppid()} // runs, and is another
	reused := mendplan.Process{PID: os.Getppid(), Born: "another start/1"}
	for _, c := range []struct {
		name    string
		note    recoveryNote
		title   string
		when    time.Time
		offered bool
		stays   bool // in the folder
	}{
		{"its program has ended", recoveryNote{Job: path, Process: dead}, "a", now, true, true},
		{"its program runs", recoveryNote{Job: path, Process: parent}, "a", now, false, true},
		{"its number was given to another program", recoveryNote{Job: path, Process: reused}, "a", now, parent.Runs(), true},
		{"its number is ours, from before the machine was started", recoveryNote{Process: mendplan.Process{PID: self.PID, Born: "another start/1"}}, "a", now, true, true},
		{"nothing is known of its program", recoveryNote{}, "a", now, true, true},
		{"written years ahead, before the clock was set back", recoveryNote{Process: dead}, "a", now.AddDate(9, 0, 0), true, true},
		{"written years ago, or the clock was set ahead", recoveryNote{Process: dead}, "a", now.AddDate(-9, 0, 0), true, true},
		{"another machine's, an hour old", recoveryNote{Host: "bench 2", Process: parent}, "a", now.Add(-time.Hour), false, true},
		{"another machine's, two days old", recoveryNote{Host: "bench 2", Process: parent}, "a", now.Add(-48 * time.Hour), true, true},
		{"all of it is in the job's file", recoveryNote{Job: path, Process: dead}, "saved", now, false, false},
		{"killed between saving and taking it away", recoveryNote{Job: path, Process: dead, Saving: path, SavingSum: sum}, "older", now, false, false},
		{"killed before that save was done", recoveryNote{Job: path, Process: dead, Saving: path, SavingSum: "other"}, "newer", now, true, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			file := leave(t, dir, "x", c.title, c.note, c.when)
			left, dropped := leftCopies(dir, "", now)
			if (len(left) == 1) != c.offered || dropped != 0 {
				t.Errorf("offered %v, want %v; %d dropped", len(left) == 1, c.offered, dropped)
			}
			if _, err := os.Stat(file); (err == nil) != c.stays {
				t.Errorf("the copy stays %v, want %v", err == nil, c.stays)
			}
		})
	}
}

// The newest stay whatever the clock says, and the young ones whatever their
// number.
func TestCopiesPutOffAreBounded(t *testing.T) {
	dead, now := endedProcess(t), time.Now()
	for _, c := range []struct {
		name         string
		count        int
		age          time.Duration
		kept, thrown int
	}{
		{"few and old", mostCopies, 90 * 24 * time.Hour, mostCopies, 0},
		{"many and old", mostCopies + 7, 90 * 24 * time.Hour, mostCopies, 7},
		{"many and young", mostCopies + 7, 29 * 24 * time.Hour, mostCopies + 7, 0},
		{"many, and a clock set back", mostCopies + 7, -90 * 24 * time.Hour, mostCopies + 7, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			for i := range c.count {
				leave(t, dir, fmt.Sprint("x", i), "a", recoveryNote{Process: dead}, now.Add(-c.age-time.Duration(i)*time.Second))
			}
			left, dropped := leftCopies(dir, "", now)
			if len(left) != c.kept || dropped != c.thrown {
				t.Errorf("%d kept and %d thrown away, want %d and %d", len(left), dropped, c.kept, c.thrown)
			}
			if len(left) > 0 && filepath.Base(left[0].file) != "x0"+mendplan.FileSuffix {
				t.Errorf("the newest is not the first: %s", left[0].file)
			}
			if files, _ := os.ReadDir(dir); len(files) != 2*c.kept {
				t.Errorf("%d files for %d copies", len(files), c.kept)
			}
		})
	}
}

func TestWhatKilledProgramsLeftIsCleanedAtTheStart(t *testing.T) {
	dir, dead := t.TempDir(), endedProcess(t)
	whole := leave(t, dir, "whole", "a", recoveryNote{Process: dead}, time.Now())
	alone := filepath.Join(dir, "alone"+mendplan.FileSuffix)
	if err := writeNote(alone, recoveryNote{Host: thisHost(), Process: dead}); err != nil {
		t.Fatal(err)
	}
	living := filepath.Join(dir, "living"+mendplan.FileSuffix)
	if err := writeNote(living, recoveryNote{Host: thisHost(), Process: mendplan.ThisProcess()}); err != nil {
		t.Fatal(err)
	}
	leftCopies(dir, "", time.Now())
	for file, stays := range map[string]bool{whole: true, noteOf(whole): true, noteOf(alone): false, noteOf(living): true} {
		if _, err := os.Stat(file); (err == nil) != stays {
			t.Errorf("%s stays %v, want %v", filepath.Base(file), err == nil, stays)
		}
	}
}

func TestACopyIsTakenUpByOneProgramAndStaysUntilItIsSaved(t *testing.T) {
	w := testWindow(t)
	path := filepath.Join(t.TempDir(), "a"+mendplan.FileSuffix)
	if err := mendplan.SaveFile(path, mendplan.Job{Title: "old"}); err != nil {
		t.Fatal(err)
	}
	leave(t, w.recover.dir, "x", "new", recoveryNote{Job: path, Base: filepath.Dir(path), Process: endedProcess(t)}, time.Now())
	left, _ := leftCopies(w.recover.dir, "", time.Now())
	w.recover.offer(func() { t.Error("nothing was offered") })
	pressIn(t, w, "Take it up")
	t.Cleanup(func() { w.keepLock(nil) })
	if w.session.Job().Title != "new" || !w.session.Unsaved() || w.session.Path() != path || w.lock == nil {
		t.Fatalf("in hand is %q, unsaved %v, of %s, locked %v", w.session.Job().Title, w.session.Unsaved(), w.session.Path(), w.lock != nil)
	}
	if _, err := claim(left[0], filepath.Join(w.recover.dir, "second"+mendplan.FileSuffix)); err == nil {
		t.Error("a second program takes the copy too")
	}
	if again, _ := leftCopies(w.recover.dir, w.recover.file, time.Now()); len(again) != 0 {
		t.Errorf("%d copies are offered besides", len(again))
	}
	copied := w.recover.file
	if n := readNote(copied); n.Process != mendplan.ThisProcess() {
		t.Errorf("the copy is still of %+v", n.Process)
	}
	if job, _, err := mendplan.LoadFile(copied); err != nil || job.Title != "new" {
		t.Errorf("the copy is gone before the work is saved: %v", err)
	}
	w.save(nil)
	if _, err := os.Stat(copied); err == nil || w.asking() {
		t.Error("saved, the copy is left or something is asked")
	}
	if files, _ := os.ReadDir(w.recover.dir); len(files) != 0 {
		t.Errorf("left behind: %v", files)
	}
}

func TestACopyPutOffOrThrownAway(t *testing.T) {
	for _, c := range []struct {
		name, press string
		stays       bool
	}{
		{"put off, it is offered at the next start", "Decide later", true},
		{"thrown away, it is gone", "Throw it away", false},
		{"Escape puts it off", "", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := testWindow(t)
			file := leave(t, w.recover.dir, "x", "a", recoveryNote{Process: endedProcess(t)}, time.Now())
			went := false
			w.recover.offer(func() { went = true })
			if c.press == "" {
				w.closeDialog()
			} else {
				pressIn(t, w, c.press)
			}
			if _, err := os.Stat(file); (err == nil) != c.stays || !went || w.asking() {
				t.Errorf("the copy stays %v, want %v; the start goes on: %v", err == nil, c.stays, went)
			}
		})
	}
}

func TestACopyOfAJobThatIsOpenElsewhereBecomesAJobWithoutAFile(t *testing.T) {
	w := testWindow(t)
	path := filepath.Join(t.TempDir(), "a"+mendplan.FileSuffix)
	other, _, err := mendplan.Lock(path, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { other.Release() })
	leave(t, w.recover.dir, "x", "new", recoveryNote{Job: path, Base: filepath.Dir(path), Process: endedProcess(t)}, time.Now())
	w.recover.offer(func() {})
	pressIn(t, w, "Take it up")
	if w.session.Job().Title != "new" || w.session.Path() != "" || !strings.Contains(w.status.outcome, "another name") {
		t.Errorf("in hand is %q of %q; said is %q", w.session.Job().Title, w.session.Path(), w.status.outcome)
	}
}

// The job's file was written by somebody else between the crash and the start.
func TestSavingRecoveredWorkAsksWhenTheFileWasChanged(t *testing.T) {
	for _, c := range []struct {
		name string
		note func(sum string) recoveryNote
		asks bool
	}{
		{"by another program", func(string) recoveryNote { return recoveryNote{Sum: "of before"} }, true},
		{"by this program, killed before it knew", func(sum string) recoveryNote { return recoveryNote{Sum: "of before", Ours: sum} }, false},
		{"not at all", func(sum string) recoveryNote { return recoveryNote{Sum: sum} }, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := testWindow(t)
			path := filepath.Join(t.TempDir(), "a"+mendplan.FileSuffix)
			if err := mendplan.SaveFile(path, mendplan.Job{Title: "theirs"}); err != nil {
				t.Fatal(err)
			}
			sum, err := mendplan.ChecksumFile(path)
			if err != nil {
				t.Fatal(err)
			}
			note := c.note(sum)
			note.Job, note.Base, note.Process = path, filepath.Dir(path), endedProcess(t)
			leave(t, w.recover.dir, "x", "ours", note, time.Now())
			w.recover.offer(func() {})
			pressIn(t, w, "Take it up")
			t.Cleanup(func() { w.keepLock(nil) })
			w.save(nil)
			if w.asking() != c.asks || w.session.Unsaved() != c.asks {
				t.Errorf("asks %v, unsaved %v, want %v", w.asking(), w.session.Unsaved(), c.asks)
			}
		})
	}
}

// Work that is given up or taken back leaves no copy.
func TestNoCopyStaysOfWorkGivenUp(t *testing.T) {
	for _, c := range []struct {
		name string
		act  func(w *Window)
	}{
		{"another job is begun", (*Window).newJob},
		{"all is undone", func(w *Window) { w.session.Undo() }},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := testWindow(t)
			j := w.session.Job()
			j.Title = "a"
			w.session.Do("change title", j)
			if files, _ := os.ReadDir(w.recover.dir); len(files) != 2 {
				t.Fatalf("%d files while the work is unsaved", len(files))
			}
			c.act(w)
			if files, _ := os.ReadDir(w.recover.dir); len(files) != 0 {
				t.Errorf("left behind: %v", files)
			}
		})
	}
}
