package mendplan_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"leafmend/mendplan"
)

func TestOneOfTwoWindowsGetsTheJob(t *testing.T) {
	path := filepath.Join(t.TempDir(), "song book.leafmend")
	now := time.Now()
	first, held, err := mendplan.Lock(path, now)
	if first == nil || held != nil || err != nil {
		t.Fatalf("a free job is not given: %v, %v", held, err)
	}
	if _, err := os.Stat(filepath.Join(filepath.Dir(path), ".song book.leafmend.lock")); err != nil {
		t.Error(err)
	}
	second, held, err := mendplan.Lock(path, now)
	if second != nil || held == nil || err != nil {
		t.Fatalf("a held job is given twice: %v", err)
	}
	if held.PID != os.Getpid() || held.String() != "another window of this program" {
		t.Errorf("held by %v", held)
	}
	if !first.Renew() {
		t.Error("the holder cannot renew")
	}
	for range 2 {
		if err := first.Release(); err != nil {
			t.Fatal(err)
		}
	}
	if second, held, err = mendplan.Lock(path, now); second == nil || err != nil {
		t.Fatalf("a job given back is not free: %v, %v", held, err)
	}
	if err := second.Release(); err != nil {
		t.Fatal(err)
	}
	if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) > 0 {
		t.Errorf("left behind: %v", entries)
	}
}

// endedPID is the number of a process that has ended.
func endedPID(t *testing.T) int {
	t.Helper()
	cmd := exec.Command(os.Args[0], "-test.run", "^$")
	if err := cmd.Run(); err != nil {
		t.Fatal(err)
	}
	return cmd.Process.Pid
}

func TestStaleLocksAreTakenOverAndOthersAreNot(t *testing.T) {
	host, err := os.Hostname()
	if err != nil {
		t.Fatal(err)
	}
	now := time.Now() // of the file system, whose clock decides
	lock := func(host string, pid int, age time.Duration) string {
		b, err := json.Marshal(mendplan.Held{Host: host, PID: pid, Time: now.Add(-age)})
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	born := func(body string) string { // of a process that began at another time
		return strings.TrimSuffix(body, "}") + `,"born":"another start/1"}`
	}
	ended := endedPID(t)
	for _, c := range []struct {
		name, body string
		touched    time.Duration // before now
		free       bool
	}{
		{"a dead process of this machine, a moment ago", lock(host, ended, 0), 0, true},
		{"a living process of this machine, a week ago", lock(host, os.Getpid(), 168*time.Hour), 168 * time.Hour, false},
		{"another machine, 23 hours ago", lock("bench 2", ended, 23*time.Hour), 23 * time.Hour, false},
		{"another machine, 25 hours ago", lock("bench 2", ended, 25*time.Hour), 25 * time.Hour, true},
		{"another machine, a week ago, renewed an hour ago", lock("bench 2", ended, 168*time.Hour), time.Hour, false},
		{"another machine, in the future: the clock of the file system was set back", lock("bench 2", ended, -48*time.Hour), -48 * time.Hour, false},
		{"another machine whose clock is a year ahead, an hour ago", lock("bench 2", ended, -365*24*time.Hour), time.Hour, false},
		{"another machine whose clock is a year ahead, 25 hours ago", lock("bench 2", ended, -365*24*time.Hour), 25 * time.Hour, true},
		{"another machine whose clock is a year behind, an hour ago", lock("bench 2", ended, 365*24*time.Hour), time.Hour, false},
		{"a number that another process was given since", born(lock(host, os.Getpid(), time.Hour)), time.Hour, true},
		{"half written just now", `{"host":"be`, time.Second, false},
		{"half written and left", `{"host":"be`, time.Hour, true},
		{"empty and left", "", time.Hour, true},
		{"a process that cannot be, left", lock(host, -1, time.Hour), time.Hour, true},
		{"far too long and left", strings.Repeat("[", 1<<20), time.Hour, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.leafmend")
			file := mendplan.LockPath(path)
			if err := os.WriteFile(file, []byte(c.body), 0o644); err != nil {
				t.Fatal(err)
			}
			if err := os.Chtimes(file, now.Add(-c.touched), now.Add(-c.touched)); err != nil {
				t.Fatal(err)
			}
			got, held, err := mendplan.Lock(path, now)
			if err != nil {
				t.Fatal(err)
			}
			if (got != nil) != c.free || (held == nil) != c.free {
				t.Fatalf("free %v (held by %v), want %v", got != nil, held, c.free)
			}
			if body, err := os.ReadFile(file); err != nil || (string(body) == c.body) == c.free {
				t.Errorf("the lock file holds %.60q (%v)", body, err)
			}
			if entries, _ := os.ReadDir(filepath.Dir(path)); len(entries) != 1 {
				t.Errorf("left behind: %v", entries)
			}
		})
	}
}

func TestALockTakenByForceIsKnownAsLostAndNotReleased(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	now := time.Now()
	first, _, err := mendplan.Lock(path, now)
	if err != nil {
		t.Fatal(err)
	}
	second, err := mendplan.TakeLock(path, now)
	if err != nil {
		t.Fatal(err)
	}
	if first.Renew() {
		t.Error("the first holder is not told that the lock is lost")
	}
	if err := first.Release(); err != nil {
		t.Fatal(err)
	}
	if !second.Renew() {
		t.Error("the first holder released the second's lock")
	}
}

// Many at once on a stale lock: one gets it.
func TestOneOfManyTakesAStaleLock(t *testing.T) {
	host, err := os.Hostname()
	if err != nil {
		t.Fatal(err)
	}
	stale := fmt.Sprintf(`{"host":%q,"pid":%d,"time":"2026-03-02T09:00:00Z"}`, host, endedPID(t))
	for round := range 50 {
		path := filepath.Join(t.TempDir(), "a.leafmend")
		if err := os.WriteFile(mendplan.LockPath(path), []byte(stale), 0o644); err != nil {
			t.Fatal(err)
		}
		var wg sync.WaitGroup
		got := make([]*mendplan.JobLock, 8)
		for i := range got {
			wg.Go(func() { got[i], _, _ = mendplan.Lock(path, time.Now()) })
		}
		wg.Wait()
		holders := 0
		for _, l := range got {
			if l != nil && l.Renew() {
				holders++
			}
		}
		if holders != 1 {
			t.Fatalf("round %d: %d hold the lock", round, holders)
		}
	}
}

func TestALockThatCannotBeWrittenIsToldWithTheRemedy(t *testing.T) {
	_, held, err := mendplan.Lock(filepath.Join(t.TempDir(), "gone", "a.leafmend"), time.Now())
	var fe *mendplan.FileError
	if !errors.As(err, &fe) || held != nil || !strings.Contains(fe.Remedy.String(), "the folder is gone") {
		t.Errorf("got %v, %v", held, err)
	}
	var none *mendplan.JobLock
	if !none.Renew() || none.Release() != nil {
		t.Error("no lock cannot be renewed and released")
	}
}

// The clock of this machine is told to others and judges nothing.
func TestAClockSetForwardOrBackThrowsNoLockAway(t *testing.T) {
	for _, c := range []struct {
		name string
		jump time.Duration
	}{
		{"a year forward", 365 * 24 * time.Hour},
		{"a year back", -365 * 24 * time.Hour},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.leafmend")
			body := fmt.Sprintf(`{"host":"bench 2","pid":7,"time":%q}`, time.Now().UTC().Format(time.RFC3339))
			if err := os.WriteFile(mendplan.LockPath(path), []byte(body), 0o644); err != nil {
				t.Fatal(err)
			}
			if lock, held, err := mendplan.Lock(path, time.Now().Add(c.jump)); lock != nil || held == nil || err != nil {
				t.Errorf("a fresh lock of another machine was thrown away: %v, %v", held, err)
			}
		})
	}
}

// A lock dated in the future ages from when it is met, unless it is renewed.
func TestALockFromTheFutureDoesNotHoldForEver(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	file := mendplan.LockPath(path)
	if err := os.WriteFile(file, []byte(`{"host":"bench 2","pid":7,"time":"2040-01-01T00:00:00Z"}`), 0o644); err != nil {
		t.Fatal(err)
	}
	future := time.Now().Add(5 * 365 * 24 * time.Hour)
	if err := os.Chtimes(file, future, future); err != nil {
		t.Fatal(err)
	}
	if lock, held, err := mendplan.Lock(path, time.Now()); lock != nil || held == nil || err != nil {
		t.Fatalf("thrown away while its program may live: %v, %v", held, err)
	}
	st, err := os.Stat(file)
	if err != nil || time.Until(st.ModTime()) > time.Minute {
		t.Fatalf("still dated %v, %v", st.ModTime(), err)
	}
	past := st.ModTime().Add(-25 * time.Hour) // a day later nobody has renewed it
	if err := os.Chtimes(file, past, past); err != nil {
		t.Fatal(err)
	}
	if lock, held, err := mendplan.Lock(path, time.Now()); lock == nil || err != nil {
		t.Errorf("a day later it still holds: %v, %v", held, err)
	}
}

func TestARenewedLockIsDatedByTheFileSystem(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.leafmend")
	lock, _, err := mendplan.Lock(path, time.Now())
	if err != nil {
		t.Fatal(err)
	}
	old := time.Now().Add(-20 * time.Hour)
	if err := os.Chtimes(mendplan.LockPath(path), old, old); err != nil {
		t.Fatal(err)
	}
	if !lock.Renew() {
		t.Fatal("the lock is no longer ours")
	}
	if st, err := os.Stat(mendplan.LockPath(path)); err != nil || time.Since(st.ModTime()) > time.Minute {
		t.Errorf("renewed, the lock is of %v, %v", st.ModTime(), err)
	}
}

func TestAFolderThatVanishesTakesNoLockAway(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "network")
	if err := os.Mkdir(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	lock, _, err := mendplan.Lock(filepath.Join(dir, "a.leafmend"), time.Now())
	if err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(dir, dir+" gone"); err != nil {
		t.Fatal(err)
	}
	if !lock.Renew() {
		t.Error("the user is told that somebody took the job over")
	}
	if err := os.Rename(dir+" gone", dir); err != nil {
		t.Fatal(err)
	}
	if !lock.Renew() {
		t.Error("the folder is back and the lock is lost")
	}
}
