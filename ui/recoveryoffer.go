package ui

import (
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// offer looks aside for copies that a crash left and asks what is to be done
// with them, one after the other; then is called when none was taken up.
func (r *recovery) offer(then func()) {
	if r.dir == "" {
		then()
		return
	}
	var left []leftCopy
	dropped, own := 0, r.file
	r.w.fileWork(r.dir, func() error {
		left, dropped = leftCopies(r.dir, own, time.Now())
		return nil
	}, func(error) {
		r.offerEach(left, func() {
			then()
			if dropped > 0 {
				r.w.status.say(t("%d copies of unsaved work, put off for more than 30 days, were taken away; the newest %d are kept.", dropped, mostCopies))
			}
		})
	})
}

func (r *recovery) offerEach(left []leftCopy, then func()) {
	if len(left) == 0 {
		then()
		return
	}
	c, next := left[0], func() { r.offerEach(left[1:], then) }
	name := t("a job that was never saved")
	if c.note.Job != "" {
		name = filepath.Base(c.note.Job)
	}
	text := t("The program did not end well last time. There is a copy of %s, written %s.", name, c.when.Format("2006-01-02 15:04"))
	if more := len(left) - 1; more > 0 {
		text += "\n" + t("Copies that wait besides: %d.", more)
	}
	r.w.question(t("Take up unsaved work again?"), text, fyne.NewSize(520, 190), next, // Escape puts it off
		answer{t("Throw it away"), widget.DangerImportance, func() {
			r.w.fileWork(r.dir, func() error { removeCopy(c.file); return nil }, nil)
			next()
		}},
		answer{t("Decide later"), widget.MediumImportance, next},
		answer{t("Take it up"), widget.HighImportance, func() { r.takeUp(c, next) }})
}

// recovered is what is read before a copy is put in hand.
type recovered struct {
	file      string // that this program keeps it in now
	job, old  mendplan.Job
	problems  []mendplan.Problem
	lock      *mendplan.JobLock
	held      *mendplan.Held
	path, sum string
}

// takeUp puts a copy in hand as unsaved work on the job it belongs to. The
// copy stays until the work is saved or given up. A job that is open
// elsewhere is left to that program: the work becomes a job without a file.
// otherwise is done when the copy cannot be taken up.
func (r *recovery) takeUp(c leftCopy, otherwise func()) {
	mine := r.freshName()
	var got recovered
	var rest *salvaged
	r.w.fileWork(r.dir, func() (err error) {
		if got, err = claim(c, mine); err != nil {
			rest = salvage(c.file)
		}
		return err
	}, func(err error) {
		switch {
		case err == nil:
			r.putInHand(c.note, got)
		case rest != nil: // the copy stays where it is, for whoever reads more of it
			rest.base, rest.name = c.note.Base, strings.TrimSuffix(filepath.Base(c.note.Job), mendplan.FileSuffix)
			if c.note.Job == "" {
				rest.name = t("a job that was never saved")
			}
			otherwise()
			r.w.offerDamaged(c.file, err, rest)
		default:
			otherwise()
			r.w.tellError(err)
		}
	})
}

func (r *recovery) putInHand(note recoveryNote, got recovered) {
	w := r.w
	w.looks.startIn(note.Base)
	w.session.Take(got.old, got.path, got.problems)
	w.session.base = note.Base
	r.file = got.file
	w.keepLock(got.lock)
	w.mark = fileMark{got.path, got.sum}
	w.session.Do("take up recovered work", got.job)
	w.session.keepPlace()
	if got.held != nil {
		w.status.say(t("Recovered. The job is open in %s: save this under another name.", say(got.held.Words())))
	} else {
		w.status.say(t("Recovered. Save it to keep it."))
	}
	w.checkScans()
	w.tellFault()
}

// claim makes a copy this program's own. Of two programs that start at once
// one gets it, since the copy can be renamed but once; killed at any moment
// it leaves the copy with one of its two notes.
func claim(c leftCopy, mine string) (got recovered, err error) {
	got.file, got.path, got.sum = mine, c.note.Job, c.note.Sum
	if got.job, got.problems, err = mendplan.LoadFile(c.file); err != nil {
		return got, err
	}
	own := c.note
	own.Process, own.Host, own.Saving, own.SavingSum = mendplan.ThisProcess(), thisHost(), "", ""
	if err := writeNote(mine, own); err != nil {
		return got, err
	}
	if err := os.Rename(c.file, mine); err != nil {
		os.Remove(noteOf(mine))
		return got, err
	}
	os.Remove(noteOf(c.file))
	if got.path == "" {
		return got, nil
	}
	got.lock, got.held, _ = mendplan.Lock(got.path, time.Now()) // without a lock the work can go on
	if got.held != nil {
		got.path, got.sum = "", ""
		return got, nil
	}
	if got.old, _, err = mendplan.LoadFile(got.path); err != nil {
		got.old = mendplan.Job{} // the file is gone or damaged: the copy is all there is
	}
	if sum, err := mendplan.ChecksumFile(got.path); err == nil && (got.sum == "" || sum == c.note.Ours || sum == c.note.SavingSum) {
		got.sum = sum // written by this program, killed before it knew
	}
	return got, nil
}
