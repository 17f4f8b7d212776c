package ui

import (
	"os"
	"path/filepath"
	"time"
)

// folderWait is how long the window waits to learn whether a folder is there.
const folderWait = 200 * time.Millisecond

// isFolder reports whether dir is a folder that answers. It is for places to
// begin at, asked on the toolkit's goroutine: a disk that does not answer in
// time counts as not there.
func isFolder(dir string) bool {
	if dir == "" {
		return false
	}
	answer := make(chan bool, 1)
	go func() {
		st, err := os.Stat(dir)
		answer <- err == nil && st.IsDir()
	}()
	select {
	case is := <-answer:
		return is
	case <-time.After(folderWait):
		return false
	}
}

// leadsToFolder reports whether an entry is a folder or a link to one.
func leadsToFolder(dir string, e os.DirEntry) bool {
	if e.Type()&os.ModeSymlink == 0 {
		return e.IsDir()
	}
	st, err := os.Stat(filepath.Join(dir, e.Name()))
	return err == nil && st.IsDir()
}
