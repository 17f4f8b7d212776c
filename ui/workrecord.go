package ui

import (
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// recordSteps asks what should be asked first, then writes the steps down, as
// one step of the job; done, which may be nil, is called when they are.
func (w *Window) recordSteps(steps []mendplan.Step, done func()) {
	j := w.session.Job()
	var asked []course.Question
	for _, s := range steps {
		for _, q := range course.Questions(j, s) {
			if !slices.ContainsFunc(asked, func(o course.Question) bool { return o.Words.String() == q.Words.String() }) {
				asked = append(asked, q)
			}
		}
	}
	write := func() {
		w.session.Do("record step", withSteps(w.session.Job(), steps))
		w.status.say(t("Recorded for %d leaves: %s.", len(steps), t(string(steps[0].Kind))))
		if done != nil {
			done()
		}
	}
	if len(asked) == 0 {
		write()
		return
	}
	w.askBefore(asked, write)
}

// withSteps writes steps down; a leaf recorded as mended is ticked off as
// well, so that list and record say the same.
func withSteps(j mendplan.Job, steps []mendplan.Step) mendplan.Job {
	j = j.AddSteps(steps...)
	for _, s := range steps {
		if leaf, ok := j.Leaf(s.Leaf); ok && s.Kind == mendplan.MendedStep {
			leaf.Mended = true
			j = j.WithLeaf(leaf)
		}
	}
	return j
}

// askBefore shows what speaks against a step; the conservator decides.
func (w *Window) askBefore(asked []course.Question, write func()) {
	box := tight()
	for i, q := range asked {
		if i == 12 {
			box.Add(small(t("… and %d more.", len(asked)-i)))
			break
		}
		l := widget.NewLabel(q.Words.In(catalogue))
		l.Wrapping = fyne.TextWrapWord
		box.Add(l)
		box.Add(small(q.Basis))
	}
	box.Add(small(t(course.Defer)))
	w.confirm(t("Before this is recorded"), t("Record all the same"), t("Not yet"), container.NewVScroll(box), fyne.NewSize(560, 420), func(yes bool) {
		if yes {
			write()
		}
	})
}

// stepNow is a step of a leaf at this moment.
func stepNow(leaf string, kind mendplan.StepKind, by string) mendplan.Step {
	now := time.Now()
	return mendplan.Step{Leaf: leaf, Kind: kind, By: by, Date: now.Format(time.DateOnly), Time: now.Format("15:04")}
}

// ownStepDialog asks for an act that is not in the list.
func (w *Window) ownStepDialog() {
	field := w.newEntry()
	field.SetPlaceHolder(t("such as: humidified"))
	w.ask(t("An act of your own"), t("Add it"), []fyne.CanvasObject{field}, nil, func() string {
		kind := mendplan.StepKind(strings.TrimSpace(field.Text))
		j := w.session.Job()
		switch {
		case kind == "":
			return t("Write what is done, in a word or two.")
		case slices.ContainsFunc(kindsOf(j), func(k mendplan.StepKind) bool { return strings.EqualFold(string(k), string(kind)) }):
			return t("That act is in the list already.")
		}
		j.OwnSteps = append(slices.Clone(j.OwnSteps), kind)
		w.session.Do("add act", j)
		w.showWork(workSteps).form.kind.pick(string(kind))
		return ""
	})
}
