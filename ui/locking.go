package ui

import (
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// renewEvery is how often a lock is renewed while the job lies open and is
// not worked on; a day's silence would free it for other machines.
const renewEvery = 30 * time.Minute

// withLock takes the lock of the job at path and then calls open. When
// another program holds it, the user is asked first, since two that save the
// same job undo each other's work. A folder in which no lock can be made
// hinders nobody.
func (w *Window) withLock(path string, open func()) {
	if w.lock != nil && path == w.session.Path() {
		open()
		return
	}
	var lock *mendplan.JobLock
	var held *mendplan.Held
	w.fileWork(filepath.Dir(path), func() (err error) {
		lock, held, err = mendplan.Lock(path, time.Now())
		return err
	}, func(err error) {
		if held != nil {
			w.askTakeOver(path, *held, open)
			return
		}
		w.keepLock(lock)
		open()
		if err != nil {
			w.status.say(t("No lock could be made beside the job: take care that nobody else has it open."))
		}
	})
}

func (w *Window) askTakeOver(path string, held mendplan.Held, open func()) {
	words := widget.NewLabel(t("This job is open in %s. Whoever saves last overwrites what the other did.", say(held.Words())))
	words.Wrapping = fyne.TextWrapWord
	w.confirm(t("The job is open elsewhere"), t("Take it over"), t("Leave it"), words, fyne.NewSize(460, 180), func(yes bool) {
		if !yes {
			return
		}
		var lock *mendplan.JobLock
		w.fileWork(filepath.Dir(path), func() (err error) {
			lock, err = mendplan.TakeLock(path, time.Now())
			return err
		}, func(err error) {
			if err != nil {
				w.tellError(err)
				return
			}
			w.keepLock(lock)
			open()
		})
	})
}

// keepLock holds another job's lock, or none, in the place of the old.
func (w *Window) keepLock(lock *mendplan.JobLock) {
	old := w.lock
	w.lock = lock
	if w.lockTimer != nil {
		w.lockTimer.Stop()
		w.lockTimer = nil
	}
	if old != nil {
		w.fileWork(old.Folder(), old.Release, func(err error) {
			if err != nil {
				w.status.say(sentence(errorIn(err)))
			}
		})
	}
	if lock != nil && !w.work.inPlace {
		w.lockTimer = time.AfterFunc(renewEvery, func() { fyne.Do(w.renewAgain) })
	}
}

func (w *Window) renewAgain() {
	if w.lockTimer != nil {
		w.lockTimer.Reset(renewEvery)
		w.renewLock()
	}
}

// renewLock shows others that the job is still being worked on, as often as
// the recovery copy is written, and says when somebody has taken it over.
func (w *Window) renewLock() {
	w.renewLockOr(t("Another program has taken the job over: save under another name, and compare."))
}

// renewLockOr renews the lock aside, one renewal at a time; lost is said when
// it is no longer ours.
func (w *Window) renewLockOr(lost string) {
	lock := w.lock
	if lock == nil || w.renewing {
		return
	}
	ours := true
	w.renewing = true
	w.fileWork(lock.Folder(), func() error {
		ours = lock.Renew()
		return nil
	}, func(error) {
		w.renewing = false
		if !ours && lock == w.lock {
			w.status.say(lost)
		}
	})
}

// lockAfterSave follows the job to the file it was saved in, and says when
// somebody has taken the job over meanwhile, or has that file open.
func (w *Window) lockAfterSave(path string, moved bool) {
	if !moved && w.lock != nil {
		w.renewLockOr(t("Saved, but another program has taken the job over: compare before you go on."))
		return
	}
	var lock *mendplan.JobLock
	var held *mendplan.Held
	w.fileWork(filepath.Dir(path), func() (err error) {
		lock, held, err = mendplan.Lock(path, time.Now())
		return err
	}, func(error) {
		if held != nil {
			w.keepLock(nil)
			w.status.say(t("Saved, but the job is open in %s too: compare before you go on.", say(held.Words())))
			return
		}
		w.keepLock(lock)
	})
}
