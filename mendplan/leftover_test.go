package mendplan_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"leafmend/mendplan"
)

// Only temporary files of the same job whose writer is dead or unknown and
// long silent are removed; everything else beside the job stays.
func TestOnlyLeftoversOfTheSameFileAreRemoved(t *testing.T) {
	dir := t.TempDir()
	hour := time.Now().Add(-time.Hour)
	for _, c := range []struct {
		what, name string
		old, stays bool
	}{
		{"an old one of an unknown writer", ".a.leafmend.123456.part", true, false},
		{"an old one of another machine", ".a.leafmend.00000000-77-123456.part", true, false},
		{"a fresh one of an unknown writer", ".a.leafmend.223456.part", false, true},
		{"a fresh one of another machine", ".a.leafmend.00000000-78-123456.part", false, true},
		{"an old one of another job", ".b.leafmend.123456.part", true, true},
		{"an old one of a job with a longer name", ".a.leafmend.copy.123456.part", true, true},
		{"an old one of a job with a number behind its name", ".a.leafmend.7.123456.part", true, true},
		{"a file of the user", "a.leafmend.123456.part", true, true},
		{"a lock", ".a.leafmend.lock", true, true},
	} {
		name := filepath.Join(dir, c.name)
		if err := os.WriteFile(name, []byte("half"), 0o600); err != nil {
			t.Fatal(err)
		}
		if c.old {
			if err := os.Chtimes(name, hour, hour); err != nil {
				t.Fatal(err)
			}
		}
		if err := mendplan.SaveFile(filepath.Join(dir, "a.leafmend"), mendplan.Job{}); err != nil {
			t.Fatal(err)
		}
		if _, err := os.Stat(name); (err == nil) != c.stays {
			t.Errorf("%s: stays %v, want %v", c.what, err == nil, c.stays)
		}
	}
}

func TestAFileWithTheLongestNameCanBeSavedTwice(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, strings.Repeat("é", 123)+mendplan.FileSuffix) // 255 bytes, the most most file systems take
	for i := range 2 {
		if err := mendplan.SaveFile(path, mendplan.Job{Title: fmt.Sprint(i)}); err != nil {
			t.Fatal(err)
		}
	}
	if entries, err := os.ReadDir(dir); err != nil || len(entries) != 1 {
		t.Errorf("%d files where one belongs (%v)", len(entries), err)
	}
}

// Two writers of one process at once: neither takes the other's file for a
// leftover.
func TestAWriterAtWorkIsLeftAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	err := mendplan.WriteFile(path, func(w io.Writer) error {
		if err := mendplan.SaveFile(path, mendplan.Job{Title: "in between"}); err != nil {
			return err
		}
		_, err := io.WriteString(w, "last")
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if got, err := os.ReadFile(path); err != nil || string(got) != "last" {
		t.Errorf("the file holds %q (%v)", got, err)
	}
}

// A program killed at the first save under a name leaves a temporary file
// beside no file; the next save of any job there, or the next start, takes it
// away, and nothing else.
func TestLeftoversOfADeadWriterGoWhateverTheirName(t *testing.T) {
	host := mendplan.ShortHostForTest()
	dead, alive := endedPID(t), os.Getpid()
	for _, how := range []string{"a save beside", "the start"} {
		t.Run(how, func(t *testing.T) {
			dir := t.TempDir()
			stays := map[string]bool{
				fmt.Sprintf(".new.leafmend.%s-%d-17.part", host, dead):      false,
				fmt.Sprintf(".new.leafmend.json.%s-%d-17.part", host, dead): false,
				fmt.Sprintf(".new.leafmend.%s-%d-18.part", host, alive):     true,
				fmt.Sprintf(".new.leafmend.00000000-%d-17.part", dead):      true,
				fmt.Sprintf("new.leafmend.%s-%d-17.part", host, dead):       true,
				fmt.Sprintf(".letters.txt.%s-%d-17.part", host, dead):       true,
				fmt.Sprintf(".new.leafmend.%s-%d-17.part.old", host, dead):  true,
				".new.leafmend.lock": true,
			}
			for name := range stays {
				if err := os.WriteFile(filepath.Join(dir, name), []byte("half"), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			if how == "the start" {
				if n := mendplan.RemoveLeftovers(dir); n != 2 {
					t.Errorf("%d removed, want 2", n)
				}
			} else if err := mendplan.SaveFile(filepath.Join(dir, "other.leafmend"), mendplan.Job{}); err != nil {
				t.Fatal(err)
			}
			for name, stay := range stays {
				if _, err := os.Stat(filepath.Join(dir, name)); (err == nil) != stay {
					t.Errorf("%s: stays %v, want %v", name, err == nil, stay)
				}
			}
		})
	}
}
