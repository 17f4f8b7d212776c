package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// salvaged is what could be read of a job file that is not whole.
type salvaged struct {
	job  mendplan.Job
	lost []mendplan.LostPart
	base string // folder the scans' paths start from
	name string // of the job, without ending
}

// salvage reads what it can of a file that could not be opened; nil when that
// is no leaf, or when nothing is missing.
func salvage(path string) *salvaged {
	job, lost, err := mendplan.SalvageFile(path)
	if err != nil || len(lost) == 0 || len(job.Leaves) == 0 {
		return nil
	}
	return &salvaged{job, lost, filepath.Dir(path), strings.TrimSuffix(filepath.Base(path), mendplan.FileSuffix)}
}

// mostLostShown bounds the list of a dialog; the rest is counted.
const mostLostShown = 200

// offerDamaged shows what a damaged job file has lost, and opens the rest as
// unsaved work without a file when the user says so. The file stays as it is.
func (w *Window) offerDamaged(path string, fault error, s *salvaged) {
	damages := 0
	for _, l := range s.job.Leaves {
		damages += len(l.Damages)
	}
	w.status.say(inWords(fault).what)
	what := widget.NewLabel(inWords(fault).what + "\n" + t("What can be read: %s, %s. The file itself stays as it is.", leafCount(len(s.job.Leaves)), t("damages: %d", damages)))
	what.Wrapping = fyne.TextWrapWord
	var lines []string
	for i, l := range s.lost {
		if i == mostLostShown {
			lines = append(lines, t("… and %d more", len(s.lost)-i))
			break
		}
		lines = append(lines, "• "+say(l.Phrase()))
	}
	list := widget.NewLabel(strings.Join(lines, "\n"))
	list.Wrapping = fyne.TextWrapWord
	body := container.NewBorder(what, nil, nil, nil, container.NewVScroll(list))
	history, mark := w.session.history, w.session.history.Mark()
	w.confirm(t("This job file is damaged"), t("Open what can be read"), t("Leave it"), body, fyne.NewSize(620, 420), func(yes bool) {
		switch {
		case !yes:
		case history != w.session.history || mark != history.Mark():
			w.leaving(func() { w.takeDamaged(path, s) })
		default:
			w.takeDamaged(path, s)
		}
	})
}

// takeDamaged puts a salvaged job in hand, unsaved and without a file.
func (w *Window) takeDamaged(path string, s *salvaged) {
	var found []mendplan.Problem
	for _, l := range s.lost {
		found = append(found, l.Problem())
	}
	w.keepLock(nil)
	w.mark = fileMark{}
	w.looks.startIn(s.base)
	w.session.Take(mendplan.Job{}, "", found)
	w.session.base = s.base
	w.session.Do("open a damaged job", s.job)
	w.session.keepPlace()
	w.session.proposed, w.session.damaged = t("%s (recovered)", s.name)+mendplan.FileSuffix, path
	w.showStage(stageTrace)
	w.showLook()
	w.focusSurface()
	w.status.say(t("Opened what could be read. Save it under a new name to keep it."))
	w.checkScans()
}

// overDamaged refuses to save over the damaged file that the job in hand was
// read from: more of it may yet be read by someone else.
func (w *Window) overDamaged(path string) bool {
	if w.session.damaged == "" || path != w.session.damaged {
		return false
	}
	w.tellError(mendplan.DamagedKept(path))
	return true
}
