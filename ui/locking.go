package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// withLock takes the lock of the job at path and then calls open. When
// another program holds it, the user is asked first, since two that save the
// same job undo each other's work. A folder in which no lock can be made
// hinders nobody.
func (w *Window) withLock(path string, open func()) {
	if w.lock != nil && path == w.session.Path() {
		open()
		return
	}
	lock, held, err := mendplan.Lock(path, time.Now())
	if held == nil {
		w.keepLock(lock)
		open()
		if err != nil {
			w.status.say(t("No lock could be made beside the job: take care that nobody else has it open."))
		}
		return
	}
	words := widget.NewLabel(t("This job is open in %s. Whoever saves last overwrites what the other did.", say(held.Words())))
	words.Wrapping = fyne.TextWrapWord
	w.confirm(t("The job is open elsewhere"), t("Take it over"), t("Leave it"), words, fyne.NewSize(460, 180), func(yes bool) {
		if !yes {
			return
		}
		lock, err := mendplan.TakeLock(path, time.Now())
		if err != nil {
			w.tellError(err)
			return
		}
		w.keepLock(lock)
		open()
	})
}

// keepLock holds another job's lock, or none, in the place of the old.
func (w *Window) keepLock(lock *mendplan.JobLock) {
	old := w.lock
	w.lock = lock
	if err := old.Release(); err != nil {
		w.status.say(sentence(errorIn(err)))
	}
}

// renewLock shows others that the job is still being worked on, as often as
// the recovery copy is written, and says when somebody has taken it over.
func (w *Window) renewLock() {
	if w.lock != nil && !w.lock.Renew(time.Now()) {
		w.status.say(t("Another program has taken the job over: save under another name, and compare."))
	}
}

// lockAfterSave follows the job to the file it was saved in, and says when
// somebody has taken the job over meanwhile.
func (w *Window) lockAfterSave(path string, moved bool) {
	if !moved && w.lock != nil {
		if !w.lock.Renew(time.Now()) {
			w.status.say(t("Saved, but another program has taken the job over: compare before you go on."))
		}
		return
	}
	if lock, held, _ := mendplan.Lock(path, time.Now()); held == nil {
		w.keepLock(lock)
	}
}
