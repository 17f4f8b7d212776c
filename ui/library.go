package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// libraryPath is where the workshop's library lies: beside the program's
// settings, for all jobs.
func (w *Window) libraryPath() string {
	return filepath.Join(w.app.Storage().RootURI().Path(), "workshop"+mendplan.LibrarySuffix)
}

// libraryDialog offers what is kept from job to job: put it into this job,
// keep what this job has, or carry the whole to another machine.
func (w *Window) libraryDialog() {
	l, err := mendplan.LoadLibrary(w.libraryPath())
	if err != nil {
		w.tellError(err)
		return
	}
	have := widget.NewLabel(t("Kept: %d tissues, %d of stock, %d rules, %d recipes.", len(l.Tissues), len(l.Stock), len(l.Rules), len(l.Recipes)))
	have.Wrapping = fyne.TextWrapWord
	act := func(words, help string, on bool, run func()) fyne.CanvasObject {
		b := newButton(words, func() { w.closeDialog(); run() })
		if !on {
			b.Disable()
		}
		return container.NewVBox(b, small(help))
	}
	w.showSized(t("Kept between jobs"), container.NewVScroll(container.NewVBox(have,
		act(t("Take tissues and stock"), t("Tissues that this job lacks are added with what is in stock of them."), len(l.Tissues) > 0,
			func() { w.session.Do("take kept tissues", l.TissuesInto(w.session.Job())) }),
		act(t("Take rules and recipes"), t("The workshop's rules go over those of this job."), len(l.Rules)+len(l.Recipes) > 0,
			func() { w.session.Do("take kept rules", l.RulesInto(w.session.Job())) }),
		act(t("Keep this job's tissues and stock"), t("A tissue of the same name is replaced, others stay."), len(w.session.Job().Tissues) > 0,
			func() { w.keepLibrary(l.WithTissuesOf(w.session.Job())) }),
		act(t("Keep this job's rules and recipes"), t("They become the workshop's own."), true,
			func() { w.keepLibrary(l.WithRulesOf(w.session.Job())) }),
		act(t("Write to a file…"), t("To carry it to another machine, or to give it to a colleague."), true, func() { w.exportLibrary(l) }),
		act(t("Read from a file…"), t("What is kept here is replaced by what the file holds."), true, w.importLibrary),
	)), fyne.NewSize(520, 560))
}

// keepLibrary writes the library and says so.
func (w *Window) keepLibrary(l mendplan.Library) {
	if err := mendplan.SaveLibrary(w.libraryPath(), l); err != nil {
		w.tellError(err)
		return
	}
	w.status.say(t("Kept: %d tissues, %d of stock, %d rules, %d recipes.", len(l.Tissues), len(l.Stock), len(l.Rules), len(l.Recipes)))
}

func (w *Window) exportLibrary(l mendplan.Library) {
	name := "workshop" + mendplan.LibrarySuffix
	w.choose(choosing{title: t("Kept between jobs"), verb: t("Write"), suffix: []string{mendplan.LibrarySuffix}, name: name}, func(paths []string) {
		if err := mendplan.SaveLibrary(paths[0], l); err != nil {
			w.tellError(err)
			return
		}
		w.status.say(t("Written: %s", filepath.Base(paths[0])))
	})
}

func (w *Window) importLibrary() {
	w.choose(choosing{title: t("Kept between jobs"), verb: t("Open"), suffix: []string{mendplan.LibrarySuffix}}, func(paths []string) {
		l, err := mendplan.LoadLibrary(paths[0])
		if err != nil {
			w.tellError(err)
			return
		}
		w.keepLibrary(l)
	})
}
