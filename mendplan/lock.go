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
//
// No clock of a machine is trusted. On the same machine the process decides,
// known by its number and its begin. For another machine both times are those
// of the file system the lock lies on: that of the lock, and that of a file
// made for the purpose. A lock dated in the future, since that clock was set
// back, is dated anew when it is met: it neither holds for ever nor is it
// thrown away while its program renews it.

const (
	lockAge      = 24 * time.Hour   // a lock of another machine older than this is stale
	clockSlack   = time.Minute      // a lock dated so far ahead is of a clock that was set back
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
	Born string    `json:"born,omitempty"` // when the process began; see [Process]
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
		holder, seen, stale, err := readLock(file)
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

// Folder returns the folder the lock lies in; "" for no lock.
func (l *JobLock) Folder() string {
	if l == nil {
		return ""
	}
	return filepath.Dir(l.file)
}

// Renew tells programs on other machines that the job is still open; once an
// hour is plenty. It reports false when the lock is no longer ours: somebody
// took it over and may have saved. A folder that cannot be reached for the
// moment takes no lock away.
func (l *JobLock) Renew() bool {
	if l == nil {
		return true
	}
	f, err := os.OpenFile(l.file, os.O_RDWR, 0)
	if err != nil {
		_, gone := os.Stat(filepath.Dir(l.file))
		return gone != nil || !errors.Is(err, fs.ErrNotExist)
	}
	defer f.Close()
	body, err := io.ReadAll(io.LimitReader(f, mostLockSize))
	if err != nil {
		return true
	}
	if !bytes.Equal(body, l.body) {
		return false
	}
	// Written again, it is dated by the file system's clock, not by ours. If
	// somebody takes it over meanwhile, this is the old file, no longer theirs.
	_, _ = f.WriteAt(body, 0)
	return true
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

// createLock makes the lock file; fs.ErrExist means there is one. It appears
// whole or not at all, where the disk can give a file a second name: a program
// killed meanwhile leaves no empty lock behind.
func createLock(file string, now time.Time) (*JobLock, error) {
	body, err := json.Marshal(Held{Host: hostName(), PID: thisProcess.PID, Born: thisProcess.Born, Time: now.UTC().Truncate(time.Second), Turn: lockTurn.Add(1)})
	if err != nil {
		return nil, fmt.Errorf("putting the lock into words: %w", err)
	}
	aside := asideOf(file)
	if err := writeNew(aside, body); err != nil {
		return nil, err
	}
	defer os.Remove(aside)
	err = os.Link(aside, file)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		err = writeNew(file, body)
	}
	if err != nil {
		return nil, err
	}
	return &JobLock{file, body}, nil
}

// writeNew writes a file that must not be there yet.
func writeNew(file string, body []byte) error {
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	_, err = f.Write(body)
	if err = errors.Join(err, f.Close()); err != nil {
		os.Remove(file)
	}
	return err
}

// readLock reads a lock file and judges it.
func readLock(file string) (h Held, seen []byte, stale bool, err error) {
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
	if json.Unmarshal(seen, &h) != nil || h.PID <= 0 {
		return Held{}, seen, quietFor(file, st.ModTime()) > garbledAge, nil
	}
	if h.Host == hostName() {
		return h, seen, !Process{h.PID, h.Born}.Runs(), nil
	}
	return h, seen, quietFor(file, st.ModTime()) > lockAge, nil
}

// quietFor is how long ago the lock was dated, by the clock of the file system
// it lies on. Where no file can be made to read that clock, nothing is known
// and the lock counts as fresh. A lock dated ahead of that clock is dated anew.
func quietFor(file string, dated time.Time) time.Duration {
	probe := asideOf(file)
	if writeNew(probe, []byte{'\n'}) != nil {
		return 0
	}
	defer os.Remove(probe)
	st, err := os.Stat(probe)
	if err != nil {
		return 0
	}
	quiet := st.ModTime().Sub(dated)
	if quiet < -clockSlack {
		_ = os.Chtimes(file, st.ModTime(), st.ModTime()) // where that is not allowed the user may still take it
		return 0
	}
	return quiet
}

// asideOf is a name beside a lock for a file of the moment; it is of the kind
// that is cleaned away when its process was killed.
func asideOf(file string) string {
	return strings.TrimSuffix(file, ".lock") + fmt.Sprintf(".%s-%d-%d.part", shortHash(hostName()), os.Getpid(), lockTurn.Add(1))
}

// dropStale removes the stale lock seen. It is put aside before it is
// removed: if another program took the stale lock over since we looked, it
// is that program's lock we hold, and it goes back.
func dropStale(file string, seen []byte) error {
	aside := asideOf(file)
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
