package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"leafmend/mendplan"
)

func TestAJobFileChangedByAnotherProgramIsNotWrittenOverUnasked(t *testing.T) {
	for _, c := range []struct {
		name, press string
		ours        bool // what the file holds afterwards
	}{
		{"going on keeps the other's file", "Go on working", false},
		{"writing over it is one press", "Write over it", true},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := testWindow(t)
			path := filepath.Join(t.TempDir(), "x"+mendplan.FileSuffix)
			w.writeJob(path, nil)
			t.Cleanup(func() { w.keepLock(nil) })
			j := w.session.Job()
			j.Title = "ours"
			w.session.Do("change title", j)
			w.save(nil)
			if len(w.dialogs) != 0 {
				t.Fatal("a file that nobody else wrote is asked about")
			}
			other := j
			other.Title = "theirs"
			if err := mendplan.SaveFile(path, other); err != nil {
				t.Fatal(err)
			}
			j.Notes = "more of ours"
			w.session.Do("change notes", j)
			w.save(nil)
			if len(w.dialogs) != 1 {
				t.Fatalf("%d dialogs ask about the changed file", len(w.dialogs))
			}
			pressIn(t, w, c.press)
			data, err := os.ReadFile(path)
			if err != nil || strings.Contains(string(data), "more of ours") != c.ours {
				t.Errorf("the file holds %s, %v", data, err)
			}
			if w.session.Unsaved() == c.ours {
				t.Errorf("unsaved is %v", w.session.Unsaved())
			}
		})
	}
}

func TestAJobFileThatIsGoneIsWrittenAnew(t *testing.T) {
	w := testWindow(t)
	path := filepath.Join(t.TempDir(), "x"+mendplan.FileSuffix)
	w.writeJob(path, nil)
	t.Cleanup(func() { w.keepLock(nil) })
	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	w.save(nil)
	if _, err := os.Stat(path); err != nil || len(w.dialogs) != 0 {
		t.Errorf("the file was not made anew: %v, %d dialogs", err, len(w.dialogs))
	}
}
