package ui

import (
	"cmp"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"leafmend/mendplan"
)

// Copies left by crashes go only by the user's word, with two exceptions in
// which nothing is lost: a copy whose work is in the job's file, and, so that
// the folder stays bounded, copies that the user has put off beyond the
// newest mostCopies and older than copyAge, of which the user is told. A
// clock that jumps ahead can therefore never take the newest.
const (
	mostCopies = 20
	copyAge    = 30 * 24 * time.Hour
	strangeAge = 24 * time.Hour // of a copy of another machine, whose processes cannot be asked
)

// leftCopy is a copy whose program no longer runs.
type leftCopy struct {
	file string
	note recoveryNote
	when time.Time // last written
}

// leftCopies returns the copies that may be taken up, the newest first, and
// how many were too old and too many. It cleans the folder of what killed
// programs left: half-written files, notes without copies, and copies whose
// work was saved. own is the copy of the job in hand, "" when there is none.
func leftCopies(dir, own string, now time.Time) (left []leftCopy, dropped int) {
	mendplan.RemoveLeftovers(dir)
	files, _ := filepath.Glob(filepath.Join(dir, "*"+mendplan.FileSuffix)) // the pattern is well-formed
	for _, file := range files {
		st, err := os.Stat(file)
		if err != nil || file == own {
			continue
		}
		c := leftCopy{file, readNote(file), st.ModTime()}
		switch {
		case c.note.alive(c.when, now):
		case c.saved():
			removeCopy(file)
		default:
			left = append(left, c)
		}
	}
	cleanNotes(dir, own)
	slices.SortStableFunc(left, func(a, b leftCopy) int { return cmp.Compare(b.when.UnixNano(), a.when.UnixNano()) })
	kept := left[:0]
	for i, c := range left {
		if i >= mostCopies && now.Sub(c.when) > copyAge {
			removeCopy(c.file)
			dropped++
			continue
		}
		kept = append(kept, c)
	}
	return kept, dropped
}

// mostNoteBytes bounds a note: two paths, a checksum and a process.
const mostNoteBytes = 64 << 10

// readNote reads the note beside a copy; a damaged one only loses where the
// job was saved.
func readNote(file string) (n recoveryNote) {
	f, err := os.Open(noteOf(file))
	if err != nil {
		return n
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, mostNoteBytes))
	if err != nil || json.Unmarshal(data, &n) != nil {
		return recoveryNote{}
	}
	return n
}

// alive reports whether the program that wrote the note may still run. The
// copy of this very process that is not the one in hand was left by it.
func (n recoveryNote) alive(when, now time.Time) bool {
	if n.Host != "" && n.Host != thisHost() {
		return now.Sub(when).Abs() < strangeAge
	}
	return n.Process != mendplan.ThisProcess() && n.Process.Runs()
}

// saved reports whether the job's file holds all that the copy holds: the
// program was killed after saving and before it took the copy away.
func (c leftCopy) saved() bool {
	if c.note.Saving != "" && c.note.SavingSum != "" {
		if sum, err := mendplan.ChecksumFile(c.note.Saving); err == nil && sum == c.note.SavingSum {
			return true
		}
	}
	if c.note.Job == "" {
		return false
	}
	job, err := mendplan.ChecksumFile(c.note.Job)
	if err != nil {
		return false
	}
	copied, err := mendplan.ChecksumFile(c.file)
	return err == nil && job == copied
}

// cleanNotes removes notes without copies: the program was killed between
// writing the two, or between taking them away.
func cleanNotes(dir, own string) {
	notes, _ := filepath.Glob(filepath.Join(dir, "*"+noteOf(mendplan.FileSuffix)))
	for _, note := range notes {
		file := strings.TrimSuffix(note, noteOf(""))
		if _, err := os.Stat(file); !os.IsNotExist(err) || file == own {
			continue
		}
		if n := readNote(file); n.Host == "" || n.Host == thisHost() && !n.Process.Runs() {
			os.Remove(note)
		}
	}
}

// running reports whether a process other than this one is there.
func running(pid int) bool { return pid != os.Getpid() && mendplan.Process{PID: pid}.Runs() }
