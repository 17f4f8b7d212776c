package journal_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"leafmend/ui/journal"
)

// sizes returns the bytes of all files of a folder, and how many there are.
func sizes(t *testing.T, dir string) (total int64, files int) {
	t.Helper()
	list, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range list {
		st, err := e.Info()
		if err != nil {
			t.Fatal(err)
		}
		if st.Size() > journal.MostLogSize {
			t.Errorf("%s has %d bytes, more than %d", e.Name(), st.Size(), journal.MostLogSize)
		}
		total, files = total+st.Size(), files+1
	}
	return total, files
}

func TestTenMegabytesOfLogStayBounded(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "log")
	first, second := journal.Open(dir), journal.Open(dir) // two windows of the program
	var wait sync.WaitGroup
	for _, j := range []*journal.Journal{first, second} {
		wait.Go(func() {
			defer j.Close()
			for i := range 10 << 20 / 2 / 150 {
				j.Log().Info("something happened that takes a line of about a hundred and fifty letters, so as to come to ten megabytes soon", "n", i)
			}
		})
	}
	wait.Wait()
	total, files := sizes(t, dir)
	if files != 2 || total < journal.MostLogSize {
		t.Errorf("%d files of %d bytes together; want the two last of %d", files, total, journal.MostLogSize)
	}
	data, err := os.ReadFile(filepath.Join(dir, journal.LogName))
	if err != nil || !strings.HasSuffix(string(data), "\n") {
		t.Errorf("the log does not end with a whole line: %v", err)
	}
	if last := journal.Tail(dir); len(last) != 20 {
		t.Errorf("the tail has %d lines", len(last))
	}
}

func TestALineOfAMegabyteIsCut(t *testing.T) {
	dir := t.TempDir()
	j := journal.Open(dir)
	j.Log().Error("long", "err", errors.New(strings.Repeat("x y ", 300_000)))
	j.Close()
	if total, _ := sizes(t, dir); total == 0 || total > 4<<10 {
		t.Errorf("one line takes %d bytes", total)
	}
}

func TestWithoutAFolderTheProgramGoesOnWithoutALog(t *testing.T) {
	dir := t.TempDir()
	file := filepath.Join(dir, "a file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for name, j := range map[string]*journal.Journal{
		"a file where the folder should be": journal.Open(filepath.Join(file, "log")),
		"a device that is always full":      full(t),
		"none at all":                       nil,
	} {
		t.Run(name, func(t *testing.T) {
			for i := range 50 {
				j.Log().Info("going on", "n", i)
			}
			if last := j.Last(); j != nil && (len(last) != 20 || !strings.Contains(last[19], "n=49")) {
				t.Errorf("the last lines are not at hand: %d", len(last))
			}
			j.Close()
		})
	}
}

// full is a journal whose file is a device that takes nothing.
func full(t *testing.T) *journal.Journal {
	t.Helper()
	dir := t.TempDir()
	if _, err := os.Stat("/dev/full"); err == nil {
		if err := os.Symlink("/dev/full", filepath.Join(dir, journal.LogName)); err != nil {
			t.Fatal(err)
		}
	}
	return journal.Open(dir)
}

func TestAReadOnlyFolderIsNoHindrance(t *testing.T) {
	dir := t.TempDir()
	if err := os.Chmod(dir, 0o500); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(dir, 0o700) })
	j := journal.Open(filepath.Join(dir, "log"))
	j.Log().Info("going on")
	if len(j.Last()) != 1 {
		t.Error("the line is not at hand")
	}
	j.Close()
}

func TestLinesHoldNumbersAndNoNames(t *testing.T) {
	dir := t.TempDir()
	j := journal.Open(dir)
	j.Redactor.NoteName("Gebührenheft der Käthe Weber")
	j.Log().Info("opened", "leaves", 5, "what", "Gebührenheft der Käthe Weber")
	j.Log().Warn("slow", "act", "print", "ms", 1234)
	j.Log().Error("failed", "err", fmt.Errorf("writing: %w", &os.PathError{Op: "open", Path: "/x/Käthe Weber/a.pdf", Err: os.ErrPermission}))
	j.Close()
	data, err := os.ReadFile(filepath.Join(dir, journal.LogName))
	if err != nil {
		t.Fatal(err)
	}
	log := string(data)
	for _, want := range []string{"msg=opened leaves=5", "act=print ms=1234", "permission denied", "level=ERROR"} {
		if !strings.Contains(log, want) {
			t.Errorf("no %q in\n%s", want, log)
		}
	}
	for _, gone := range []string{"Weber", "Käthe", "Gebühren"} {
		if strings.Contains(log, gone) {
			t.Errorf("%q in\n%s", gone, log)
		}
	}
}
