package journal

import (
	"os"
	"path/filepath"
	"sync"
)

// Names of the log and of the one before it, and the bound of each.
const (
	LogName     = "leafmend.log"
	OldLogName  = "leafmend.1.log"
	MostLogSize = 512 << 10 // bytes of each of the two
)

// rotated is a file that is put aside when it is full; only one is kept
// aside. Writing never fails towards the caller: without room or permission
// what is written is dropped, and the next line is tried again.
type rotated struct {
	mu   sync.Mutex
	dir  string
	most int64
	f    *os.File
}

// Write implements [io.Writer]. A line longer than the bound is cut.
func (r *rotated) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	n := len(p)
	if int64(n) > r.most {
		p = append(p[:r.most-1:r.most-1], '\n')
	}
	if r.ready(int64(len(p))) {
		if _, err := r.f.Write(p); err != nil {
			r.shut() // a full disk may have room again later
		}
	}
	return n, nil
}

// ready has the file open with room for n bytes more. Another window of the
// program may have put it aside meanwhile, so the name is looked at each
// time; lines are few.
func (r *rotated) ready(n int64) bool {
	path := filepath.Join(r.dir, LogName)
	if r.f != nil {
		here, err := r.f.Stat()
		there, err2 := os.Stat(path)
		if err != nil || err2 != nil || !os.SameFile(here, there) {
			r.shut()
		} else if here.Size()+n <= r.most {
			return true
		} else {
			r.shut()
		}
	}
	if st, err := os.Stat(path); err == nil && st.Size()+n > r.most {
		if os.Rename(path, filepath.Join(r.dir, OldLogName)) != nil {
			return false // better no line than a file without bound
		}
	}
	if os.MkdirAll(r.dir, 0o700) != nil {
		return false
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_APPEND, 0o600)
	if err != nil {
		return false
	}
	r.f = f
	return true
}

func (r *rotated) shut() {
	if r.f != nil {
		r.f.Close()
		r.f = nil
	}
}

// Close closes the file; a later line opens it again.
func (r *rotated) Close() error {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.shut()
	return nil
}
