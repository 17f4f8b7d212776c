package ui

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
)

// recoveryDelay is how long after a change the recovery copy is written: a
// crash takes no more than the last five seconds of work, writing included.
const recoveryDelay = 2 * time.Second

// recovery keeps a copy of unsaved work in a folder of its own, never in the
// user's file, and does not touch the history. The copy goes when the work is
// saved or given up; one that is still there at the start was left by a crash.
type recovery struct {
	w       *Window
	dir     string
	timer   *time.Timer
	file    string       // of the copy kept for the job in hand; "" when there is none
	writing bool         // one write at a time …
	again   bool         // … and one more when it ends
	failing bool         // the last copy could not be written
	noted   recoveryNote // as last written beside the copy
	told    int          // counts what saves noted there meanwhile
	pending *string      // checksum of the save under way; known in the lane of the copies
}

// recoveryNote lies beside each copy.
type recoveryNote struct {
	Job  string `json:"job"`  // path of the job file; "" when it was never saved
	Base string `json:"base"` // folder the scans' paths start from
	// Sum is the checksum of the job file as this program last knew it, Ours
	// the one it has once a save that was under way has succeeded.
	Sum  string `json:"sum,omitempty"`
	Ours string `json:"ours,omitempty"`
	Host string `json:"host,omitempty"` // machine of the program that wrote it
	mendplan.Process
	// Saving and SavingSum tell the file that was going to be written, and
	// its checksum, when the copy held nothing that was not to be in it.
	Saving    string `json:"saving,omitempty"`
	SavingSum string `json:"savingSum,omitempty"`
}

func newRecovery(w *Window) *recovery {
	r := &recovery{w: w, dir: w.opt.Recovery}
	if r.dir != "" {
		w.session.jobChanged.listen(r.changed)
	}
	return r
}

// changed has a copy written a while after the first change that is in none.
// A job without unsaved work needs no copy: it was just put in hand, or all
// was taken back.
func (r *recovery) changed() {
	if !r.w.session.Unsaved() {
		r.clear()
		return
	}
	if r.w.work.inPlace {
		r.write()
		return
	}
	if r.timer == nil {
		r.timer = time.AfterFunc(recoveryDelay, func() {
			fyne.Do(func() {
				r.timer = nil
				r.write()
			})
		})
	}
}

// note is what is to lie beside a copy of the job in hand.
func (r *recovery) note() recoveryNote {
	n := recoveryNote{Job: r.w.session.Path(), Base: r.w.session.base, Host: thisHost(), Process: mendplan.ThisProcess()}
	if r.w.mark.path == n.Job {
		n.Sum = r.w.mark.sum
	}
	return n
}

func thisHost() string {
	name, err := os.Hostname()
	if err != nil {
		return ""
	}
	return name
}

// write keeps a copy of the job as it is. It is done aside; failing leaves
// the user's work alone and is told in the status line.
func (r *recovery) write() {
	s := r.w.session
	if r.dir == "" || !s.Unsaved() {
		return
	}
	if r.writing {
		r.again = true
		return
	}
	r.w.renewLock()
	if r.file == "" {
		r.file = r.freshName()
	}
	r.writing = true
	job, note, noted, told, file, pending := s.Job(), r.note(), r.noted, r.told, r.file, r.pending
	r.w.fileWork(r.dir, func() error {
		if pending != nil {
			note.Ours = *pending
		}
		if _, err := os.Stat(noteOf(file)); err == nil && note == noted {
			return mendplan.SaveFile(file, job) // the note beside it says so already
		}
		return keepCopy(file, note, job)
	}, func(err error) {
		r.writing, r.failing = false, err != nil
		if err == nil && file == r.file && told == r.told {
			r.noted = note
		}
		if err != nil {
			r.w.status.say(t("No recovery copy could be written: save your work now and then. (%s)", inWords(err).what))
		}
		if r.again {
			r.again = false
			r.write()
		}
	})
}

func keepCopy(file string, note recoveryNote, job mendplan.Job) error {
	if err := ensureDir(filepath.Dir(file)); err != nil {
		return err
	}
	if err := writeNote(file, note); err != nil {
		return err
	}
	return mendplan.SaveFile(file, job)
}

// rescue writes the copy here and now, when the program is about to end and
// nothing aside comes back any more. A write under way is waited for a while.
func (r *recovery) rescue() {
	s := r.w.session
	if r.dir == "" || !s.Unsaved() {
		return
	}
	r.w.files.endOf(r.dir, time.Now().Add(quitWait))
	if r.file == "" {
		r.file = r.freshName()
	}
	_ = keepCopy(r.file, r.note(), s.Job()) // there is nobody left to tell
}

// words tells the user whether unsaved work is safe from a crash.
func (r *recovery) words() string {
	if r.dir == "" || r.failing {
		return t("There is no recovery copy either: do not close the program before the job is saved elsewhere.")
	}
	return t("Nothing is lost: a recovery copy is kept on this machine until the job is saved.")
}

// freshName is a name for a copy that no other program has.
func (r *recovery) freshName() string {
	self := mendplan.ThisProcess()
	sum := sha256.Sum256([]byte(fmt.Sprint(r.w.session.Path(), thisHost(), self.PID, self.Born, time.Now().UnixNano())))
	return filepath.Join(r.dir, hex.EncodeToString(sum[:8])+mendplan.FileSuffix)
}

func noteOf(file string) string { return file + ".json" }

func writeNote(file string, note recoveryNote) error {
	return mendplan.WriteFile(noteOf(file), func(w io.Writer) error { return json.NewEncoder(w).Encode(note) })
}

// saving returns what notes beside the copy, if there is one, that the job as
// it is now is going to be written to path; it is called in the lane of the
// copies. A later copy drops the note again, since it holds more.
func (r *recovery) saving(path string) func(sum string) {
	if r.dir == "" || r.file == "" {
		return func(string) {}
	}
	note, file := r.note(), r.file
	r.noted = recoveryNote{} // the next copy writes its own
	r.told++
	return func(sum string) {
		note.Saving, note.SavingSum = path, sum
		_ = writeNote(file, note) // without it a copy that is no longer needed may be offered
	}
}

// clear takes the copy of the job in hand away.
func (r *recovery) clear() {
	if r.timer != nil {
		r.timer.Stop()
		r.timer = nil
	}
	if file := r.file; file != "" {
		r.file, r.again = "", false
		r.w.fileWork(r.dir, func() error { removeCopy(file); return nil }, nil)
	}
}

// removeCopy takes the copy first: a note alone is cleaned at the next start.
func removeCopy(file string) {
	os.Remove(file)
	os.Remove(noteOf(file))
}
