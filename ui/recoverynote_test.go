package ui

import (
	"os"
	"path/filepath"
	"testing"
)

// Whatever lies where a note should, reading it ends, and says no more than
// what can stand in a note.
func FuzzReadNote(f *testing.F) {
	f.Add([]byte(`{"job":"/a/b.leafmend","base":"/a","process":7}`))
	f.Add([]byte(`{"job":"\u0000","process":-1e99}`))
	f.Add([]byte("\x00\x00{{{{"))
	file := filepath.Join(f.TempDir(), "a.leafmend")
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := os.WriteFile(noteOf(file), data, 0o600); err != nil {
			t.Skip("the disk of the test is full")
		}
		if n := readNote(file); len(n.Job) > mostNoteBytes*3 {
			t.Errorf("a path of %d bytes", len(n.Job))
		}
	})
}
