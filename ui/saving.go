package ui

import (
	"errors"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// stallAfter is how long a folder may take to save before the user is told
// and offered another.
const stallAfter = 5 * time.Second

// saving is a save under way to one file.
type saving struct {
	then  []func() // to be done when it has succeeded
	again bool     // the user asked again meanwhile: what changed since is saved after
	left  bool     // the user has saved elsewhere meanwhile: this one counts no more
	begin time.Time
	slow  *dialog.CustomDialog
	timer *time.Timer
}

// save writes the job to its file, or asks for one; then may be nil. The file
// is looked at first, aside: another program may have changed it.
func (w *Window) save(then func()) {
	path := w.session.Path()
	if path == "" {
		w.saveAs(then)
		return
	}
	if w.joinSave(path, then) {
		return
	}
	mark, changed := w.mark, false
	s := w.beginSave(path, then)
	w.fileWork(filepath.Dir(path), func() error {
		changed = changedMeanwhile(mark, path)
		return nil
	}, func(error) {
		switch {
		case s.left:
			w.endSave(s, path)
		case changed:
			w.endSave(s, path)
			w.askMeanwhile(path, s.done)
		default:
			w.writeFor(s, path)
		}
	})
}

// writeJob saves the job at path without asking; then may be nil.
func (w *Window) writeJob(path string, then func()) {
	if !w.overDamaged(path) && !w.joinSave(path, then) {
		w.writeFor(w.beginSave(path, then), path)
	}
}

// joinSave has a save that is under way to path done once more when it ends.
func (w *Window) joinSave(path string, then func()) bool {
	s := w.saves[path]
	if s == nil {
		return false
	}
	s.again = true
	if then != nil {
		s.then = append(s.then, then)
	}
	w.status.say(t("%s is still being saved: the folder is slow to answer.", filepath.Base(path)))
	return true
}

func (w *Window) beginSave(path string, then func()) *saving {
	if w.saves == nil {
		w.saves = map[string]*saving{}
	}
	s := &saving{begin: time.Now()}
	if then != nil {
		s.then = append(s.then, then)
	}
	w.saves[path] = s
	if !w.work.inPlace {
		s.timer = time.AfterFunc(stallAfter, func() { fyne.Do(func() { w.tellSlow(s, path) }) })
	}
	return s
}

func (w *Window) endSave(s *saving, path string) {
	delete(w.saves, path)
	if s.timer != nil {
		s.timer.Stop()
	}
	s.hide()
}

// hide takes the dialog away that tells of a slow folder.
func (s *saving) hide() {
	if s.slow != nil {
		s.slow.Hide()
	}
}

func (s *saving) done() {
	for _, then := range s.then {
		then()
	}
}

// writeFor writes the job as it is now. Before, the copy of unsaved work is
// told what is going to be in the file: killed in between, the program knows
// at its next start which of the two is the later.
func (w *Window) writeFor(s *saving, path string) {
	history, mark := w.session.history, w.session.history.Mark()
	job := w.session.ToSave(path)
	var data []byte
	sum := ""
	tell := w.recover.saving(path)
	w.recover.pending = &sum
	w.fileWork(w.recover.dir, func() (err error) {
		if data, err = mendplan.Encode(job); err == nil {
			sum = mendplan.Checksum(data)
			tell(sum)
		}
		return err
	}, func(err error) {
		if err != nil {
			w.saveFailed(s, path, err)
			return
		}
		w.fileWork(filepath.Dir(path), func() error { return mendplan.SaveEncoded(path, data) }, func(err error) {
			if w.recover.pending == &sum {
				w.recover.pending = nil
			}
			if err != nil {
				w.saveFailed(s, path, err)
				return
			}
			w.saved(s, path, sum, history, mark)
		})
	})
}

// saved follows a save that has succeeded; the user may have gone on working,
// or have put another job in hand.
func (w *Window) saved(s *saving, path, sum string, history *mendplan.History, mark int) {
	w.endSave(s, path)
	if s.left {
		return
	}
	if history == w.session.history {
		w.mark = fileMark{path, sum}
		moved := path != w.session.Path()
		for _, other := range w.saves {
			other.left = true
			other.hide()
		}
		w.session.SavedAt(path, mark)
		if !w.session.Unsaved() {
			w.recover.clear()
		}
		w.logJob("saved", s.begin)
		w.status.say(t("Saved in %s.", filepath.Base(path)))
		w.lockAfterSave(path, moved)
		w.guide.did(guideSaved)
	}
	w.settings.NoteRecent(path)
	w.fillRecent()
	w.refreshCommands()
	if s.again && history == w.session.history && w.session.Unsaved() {
		w.writeJob(path, s.done)
		return
	}
	s.done()
}

// saveFailed says why and leads to another folder. The old file is as it was,
// and the copy of unsaved work is written at once.
func (w *Window) saveFailed(s *saving, path string, err error) {
	w.endSave(s, path)
	if s.left {
		return
	}
	w.recover.write()
	var file *mendplan.FileError
	if !errors.As(err, &file) {
		w.tellError(err)
		return
	}
	said := inWords(err)
	w.status.say(said.what)
	w.askElsewhere(t("The job is not saved"), said.what+"\n"+said.remedy+"\n"+w.recover.words(), t("Go on working"), s.done)
}

// tellSlow tells the user that a folder does not answer. Saving goes on; the
// dialog goes when it ends.
func (w *Window) tellSlow(s *saving, path string) {
	if w.saves[path] != s || s.slow != nil || s.left {
		return
	}
	w.recover.write()
	words := t("%s: the folder does not answer. The program waits for it, and you can go on working.", filepath.Base(path))
	s.slow = w.askElsewhere(t("Not saved yet"), words+"\n"+w.recover.words(), t("Wait for it"), s.done)
}

// askElsewhere tells of a save that did not come about and offers another
// place; then is what was to follow the save.
func (w *Window) askElsewhere(title, text, leave string, then func()) *dialog.CustomDialog {
	return w.question(title, text, fyne.NewSize(560, 220), nil,
		answer{leave, widget.MediumImportance, nil},
		answer{t("Save under another name"), widget.HighImportance, func() { w.saveAs(then) }})
}
