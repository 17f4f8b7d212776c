package mendplan

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"time"

	"leafmend/mendplan/phrase"
)

// Two programs that edit one job would each save over the other's work. A
// lock file “.NAME.leafmend.lock” beside the job tells the second one who
// holds it. A lock whose holder cannot be alive any more is stale and is
// taken over: on the same machine when its process has ended, on another
// when it was neither taken nor renewed for 24 hours. A lock is advice: it
// hinders nobody from reading, and saving stays safe without it.

const (
	lockAge      = 24 * time.Hour   // a lock of another machine older than this is stale
	garbledAge   = time.Minute      // a lock that cannot be read may be half written until then
	mostLockSize = 4 << 10          // bytes; a lock file is about 100
	lockTries    = 5                // a lock may be released and taken again while we look
	lockFixed    = ".leafmend.lock" // ends the names of lock files
)

// lockTurn counts the locks of this process.
var lockTurn atomic.Int64

// Held tells who holds a job. The zero value is a holder of whom nothing is
// known.
type Held struct {
	Host string    `json:"host"`
	PID  int       `json:"pid"`
	Time time.Time `json:"time"`           // when the lock was taken, UTC
	Turn int64     `json:"turn,omitempty"` // tells locks of one process apart
}

// String says in English who holds the job.
func (h Held) String() string { return h.Words().String() }

// Words says who holds the job.
func (h Held) Words() phrase.Phrase {
	switch {
	case h.Host == "" && h.PID == 0:
		return phrase.Of("another program")
	case h.Host == hostName() && h.PID == os.Getpid():
		return phrase.Of("another window of this program")
	case h.Host == hostName():
		return phrase.Of("another program on this machine (process %d)", h.PID)
	}
	return phrase.Of("a program on the machine “%s” (process %d)", h.Host, h.PID)
}

// JobLock is a lock held. Its nil value is no lock and may be renewed and
// released.
type JobLock struct {
	file string
	body []byte
}

// LockPath returns the name of the lock file of the job at path.
func LockPath(path string) string {
	if target, err := filepath.EvalSymlinks(path); err == nil {
		path = target // two names of one file share a lock
	}
	base := strings.TrimSuffix(filepath.Base(path), FileSuffix)
	return filepath.Join(filepath.Dir(path), strings.TrimSuffix(partPrefix(base), ".")+lockFixed)
}

// Lock takes the lock of the job at path, which need not exist yet. If
// another program or window holds it, held tells who, and there is no lock
// and no error. An error is a *[FileError]: the lock could not be written, as
// in a folder that is for reading only; the job can be opened all the same.
// now is the time told to others.
func Lock(path string, now time.Time) (lock *JobLock, held *Held, err error) {
	file := LockPath(path)
	for range lockTries {
		lock, err := createLock(file, now)
		if err == nil {
			return lock, nil, nil
		}
		if !errors.Is(err, fs.ErrExist) {
			return nil, nil, lockFault(path, err)
		}
		holder, seen, stale, err := readLock(file, now)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue // released meanwhile
		case err != nil:
			return nil, nil, lockFault(path, err)
		case !stale:
			return nil, &holder, nil
		}
		if err := dropStale(file, seen); err != nil {
			return nil, nil, lockFault(path, err)
		}
	}
	return nil, &Held{}, nil // it changes hands as fast as we look
}

// TakeLock takes the lock whoever holds it, for a user who was told and knows
// better, as after a crash of another machine.
func TakeLock(path string, now time.Time) (*JobLock, error) {
	file := LockPath(path)
	if err := os.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, lockFault(path, err)
	}
	lock, err := createLock(file, now)
	if err != nil {
		return nil, lockFault(path, err)
	}
	return lock, nil
}

// Renew tells programs on other machines that the job is still open; once an
// hour is plenty. It reports false when the lock is no longer ours: somebody
// took it over and may have saved.
func (l *JobLock) Renew(now time.Time) bool {
	if l == nil {
		return true
	}
	if body, err := readLittle(l.file); err != nil || !bytes.Equal(body, l.body) {
		return false
	}
	return os.Chtimes(l.file, now, now) == nil
}

// Release gives the lock back. One that somebody took over meanwhile stays.
// It may be called more than once.
func (l *JobLock) Release() error {
	if l == nil {
		return nil
	}
	body, err := readLittle(l.file)
	if errors.Is(err, fs.ErrNotExist) || err == nil && !bytes.Equal(body, l.body) {
		return nil
	}
	if err == nil {
		err = os.Remove(l.file)
	}
	if err != nil {
		return &FileError{Path: l.file, Words: phrase.Of("the mark that the job is open could not be taken away"), Remedy: phrase.Of("remove the file by hand when nobody else has the job open"), Err: err}
	}
	return nil
}

// createLock makes the lock file; fs.ErrExist means there is one.
func createLock(file string, now time.Time) (*JobLock, error) {
	body, err := json.Marshal(Held{Host: hostName(), PID: os.Getpid(), Time: now.UTC().Truncate(time.Second), Turn: lockTurn.Add(1)})
	if err != nil {
		return nil, fmt.Errorf("putting the lock into words: %w", err)
	}
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return nil, err
	}
	_, err = f.Write(body)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(file)
		return nil, err
	}
	return &JobLock{file, body}, nil
}

// readLock reads a lock file and judges it.
func readLock(file string, now time.Time) (h Held, seen []byte, stale bool, err error) {
	st, err := os.Lstat(file)
	if err != nil {
		return h, nil, false, err
	}
	if !st.Mode().IsRegular() {
		return h, nil, false, nil // not ours: leave it alone and say the job is held
	}
	if seen, err = readLittle(file); err != nil {
		return h, nil, false, err
	}
	quiet := now.Sub(st.ModTime()) // below zero where a clock was set back: fresh
	if json.Unmarshal(seen, &h) != nil || h.PID <= 0 {
		return Held{}, seen, quiet > garbledAge, nil
	}
	if h.Host == hostName() {
		return h, seen, !processRuns(h.PID), nil
	}
	return h, seen, min(quiet, now.Sub(h.Time)) > lockAge, nil
}

// dropStale removes the stale lock seen. It is put aside before it is
// removed: if another program took the stale lock over since we looked, it
// is that program's lock we hold, and it goes back.
func dropStale(file string, seen []byte) error {
	aside := strings.TrimSuffix(file, ".lock") + fmt.Sprintf(".%s-%d-%d.part", shortHash(hostName()), os.Getpid(), lockTurn.Add(1))
	if err := os.Rename(file, aside); err != nil {
		if errors.Is(err, fs.ErrNotExist) {
			return nil
		}
		return err
	}
	if body, err := readLittle(aside); err == nil && !bytes.Equal(body, seen) {
		os.Link(aside, file) // fails where a third program was quicker, which then holds it
	}
	return os.Remove(aside)
}

func readLittle(file string) ([]byte, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, mostLockSize))
}

func lockFault(path string, err error) *FileError {
	return &FileError{Path: path, Words: phrase.Of("the job could not be marked as open for others"), Remedy: phrase.Of("see that nobody else edits it, or %s", saveRemedy(err)), Err: err}
}
