package ui

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"syscall"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// recoveryDelay is how long after a change the recovery copy is written: a
// crash takes no more than the last five seconds of work, writing included.
const recoveryDelay = 4 * time.Second

// recovery keeps a copy of unsaved work in a folder of its own, never in the
// user's file, and does not touch the history. The copy goes when the work is
// saved or given up; one that is still there at the start was left by a crash.
type recovery struct {
	w     *Window
	dir   string
	timer *time.Timer
	file  string // of the copy kept for the job in hand; "" when there is none
}

// recoveryNote lies beside each copy.
type recoveryNote struct {
	Job  string `json:"job"`     // path of the job file; "" when it was never saved
	Base string `json:"base"`    // folder the scans' paths start from
	PID  int    `json:"process"` // of the program that wrote it
}

func newRecovery(w *Window) *recovery {
	r := &recovery{w: w, dir: w.opt.Recovery}
	if r.dir != "" {
		w.session.jobChanged.listen(r.changed)
	}
	return r
}

// changed has a copy written a while after the last change.
func (r *recovery) changed() {
	if !r.w.session.Unsaved() {
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

// write keeps a copy of the job as it is. It is done aside; failing leaves
// the user's work alone and is told once in the status line.
func (r *recovery) write() {
	s := r.w.session
	if r.dir == "" || !s.Unsaved() {
		return
	}
	r.w.renewLock()
	if r.file == "" {
		sum := sha256.Sum256([]byte(fmt.Sprint(s.Path(), os.Getpid(), time.Now().UnixNano())))
		r.file = filepath.Join(r.dir, hex.EncodeToString(sum[:8])+mendplan.FileSuffix)
	}
	job, note, file := s.Job(), recoveryNote{s.Path(), s.base, os.Getpid()}, r.file
	r.w.work.start(func() error {
		if err := ensureDir(r.dir); err != nil {
			return err
		}
		if err := mendplan.WriteFile(noteOf(file), func(w io.Writer) error { return json.NewEncoder(w).Encode(note) }); err != nil {
			return err
		}
		return mendplan.SaveFile(file, job)
	}, func(err error) {
		if err != nil {
			r.w.status.say(t("No recovery copy could be written: save your work now and then. (%s)", inWords(err).what))
		}
	})
}

func noteOf(file string) string { return file + ".json" }

// clear takes the copy of the job in hand away.
func (r *recovery) clear() {
	if r.timer != nil {
		r.timer.Stop()
		r.timer = nil
	}
	if r.file != "" {
		removeCopy(r.file)
		r.file = ""
	}
}

func removeCopy(file string) {
	os.Remove(file)
	os.Remove(noteOf(file))
}

// offer asks what is to be done with copies that a crash left, one after the
// other; then is called when none was taken up.
func (r *recovery) offer(then func()) {
	file, note, ok := r.left()
	if !ok {
		then()
		return
	}
	name, when := t("a job that was never saved"), ""
	if note.Job != "" {
		name = filepath.Base(note.Job)
	}
	if st, err := os.Stat(file); err == nil {
		when = st.ModTime().Format("2006-01-02 15:04")
	}
	words := widget.NewLabel(t("The program did not end well last time. There is a copy of %s, written %s.", name, when))
	words.Wrapping = fyne.TextWrapWord
	r.w.confirm(t("Take up unsaved work again?"), t("Take it up"), t("Throw it away"), words, fyne.NewSize(460, 180), func(yes bool) {
		if yes {
			r.takeUp(file, note)
			return
		}
		removeCopy(file)
		r.offer(then)
	})
}

// left finds a copy whose program no longer runs.
func (r *recovery) left() (file string, note recoveryNote, ok bool) {
	if r.dir == "" {
		return "", note, false
	}
	files, _ := filepath.Glob(filepath.Join(r.dir, "*"+mendplan.FileSuffix)) // the pattern is well-formed
	for _, file := range files {
		note = recoveryNote{}
		if data, err := os.ReadFile(noteOf(file)); err == nil {
			_ = json.Unmarshal(data, &note) // a damaged note only loses where the job was saved
		}
		if file != r.file && !running(note.PID) {
			return file, note, true
		}
	}
	return "", recoveryNote{}, false
}

// running reports whether a process other than this one is there.
func running(pid int) bool {
	if pid <= 0 || pid == os.Getpid() {
		return false
	}
	p, err := os.FindProcess(pid)
	return err == nil && p.Signal(syscall.Signal(0)) == nil
}

// takeUp puts a copy in hand as unsaved work on the job it belongs to.
func (r *recovery) takeUp(file string, note recoveryNote) {
	job, problems, err := mendplan.LoadFile(file)
	if err != nil {
		r.w.tellError(err)
		return
	}
	old, _, err := mendplan.LoadFile(note.Job)
	if err != nil {
		old = mendplan.Job{}
	}
	r.w.looks.startIn(note.Base)
	r.w.session.Take(old, note.Job, problems)
	r.w.session.base = note.Base
	r.file = file
	r.w.session.Do("take up recovered work", job)
	r.w.session.keepPlace()
	r.w.status.say(t("Recovered. Save it to keep it."))
	r.w.checkScans()
}
