package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// workPanel follows the work: what was done to which leaf, what comes next,
// the paste, and the days.
type workPanel struct {
	w      *Window
	leaves *wordTable
	chosen map[string]bool // leaves the next step is recorded for
	form   *stepForm
	steps  *wordTable
	tally  *widget.Label
	paste  *pasteBook
	days   *dayBook
	box    fyne.CanvasObject
}

func newWorkPanel(w *Window) *workPanel {
	p := &workPanel{w: w, chosen: map[string]bool{}, tally: small("")}
	p.leaves = newWordTable([]column{{"", 26}, {t("leaf"), 150}, {t("next"), 110}, {t("done"), 220}}, p.toggle)
	p.form = newStepForm(p)
	p.steps = newWordTable([]column{{t("day"), 80}, {t("leaf"), 50}, {t("step"), 110}, {t("by"), 80}, {t("details"), 220}}, p.dropStep)
	p.paste, p.days = newPasteBook(w), newDayBook(w)
	all := widget.NewButton(t("All leaves"), func() { p.chooseAll(true) })
	none := widget.NewButton(t("None"), func() { p.chooseAll(false) })
	left := container.NewBorder(container.NewVBox(container.NewHBox(heading(t("Leaves")), all, none), small(t("Press leaves to choose those the step is recorded for."))),
		p.tally, nil, nil, p.leaves)
	record := container.NewVSplit(container.NewVScroll(p.form.box),
		container.NewBorder(container.NewVBox(heading(t("Recorded")), small(t("Press a step to take it back."))), nil, nil, nil, p.steps))
	record.Offset = 0.6
	tabs := container.NewAppTabs(container.NewTabItem(t("Steps"), record), container.NewTabItem(t("Paste"), p.paste.box), container.NewTabItem(t("Days"), p.days.box))
	split := container.NewHSplit(left, tabs)
	split.Offset = 0.42
	p.box = container.New(layout.NewCustomPaddedLayout(4, 2, 6, 6), split)
	return p
}

func (p *workPanel) content() fyne.CanvasObject { return p.box }

func (p *workPanel) refresh() {
	j := p.w.session.Job()
	p.showLeaves(j)
	p.showSteps(j)
	p.showTally(j)
	p.form.refresh()
	p.paste.refresh()
	p.days.refresh()
}

func (p *workPanel) showLeaves(j mendplan.Job) {
	var rows [][]string
	for _, l := range j.Leaves {
		mark := ""
		if p.chosen[l.ID] {
			mark = "✓"
		}
		next := t("all done")
		if k := course.Next(j, l); k != "" {
			next = t(string(k))
		}
		var done []string
		for _, k := range slices.Concat(mendplan.StepKinds(), j.OwnSteps) {
			if course.Done(j, l.ID, k) {
				done = append(done, t(string(k)))
			}
		}
		rows = append(rows, []string{mark, leafTitle(l), next, strings.Join(done, ", ")})
	}
	p.leaves.show(rows)
}

func (p *workPanel) showSteps(j mendplan.Job) {
	var rows [][]string
	for i := len(j.Steps) - 1; i >= 0; i-- {
		s := j.Steps[i]
		l, _ := j.Leaf(s.Leaf)
		rows = append(rows, []string{strings.TrimSpace(s.Date + " " + s.Time), l.Mark, t(string(s.Kind)), s.By, detailsOf(s)})
	}
	p.steps.show(rows)
}

// detailsOf puts what a step holds besides day and name into one line.
func detailsOf(s mendplan.Step) string {
	var parts []string
	if x := s.Test; x != nil {
		parts = append(parts, fmt.Sprintf("%s, %s, %s %g s: %s", x.Medium, x.Place, x.Liquid, x.Seconds, t(string(x.Result))))
	}
	if b := s.Bath; b != nil {
		parts = append(parts, fmt.Sprintf("%s %s, %g min × %d, pH %g → %g", b.Agent, b.Concentration, b.Minutes, b.Baths, b.PHBefore, b.PHAfter))
	}
	for _, x := range []string{s.Batch, s.Note, s.Departure} {
		if x != "" {
			parts = append(parts, x)
		}
	}
	return strings.Join(parts, "; ")
}

func (p *workPanel) showTally(j mendplan.Job) {
	c := course.Count(j, p.w.session.Plan())
	words := t("%d of %d pieces on mended leaves.", c.PiecesDone, c.Pieces)
	for _, s := range c.Steps {
		if s.Leaves > 0 {
			words += " " + t(string(s.Kind)) + fmt.Sprintf(": %d/%d.", s.Leaves, c.Leaves)
		}
	}
	p.tally.SetText(words)
}

func (p *workPanel) toggle(row int) {
	l := p.w.session.Job().Leaves[row]
	p.chosen[l.ID] = !p.chosen[l.ID]
	p.showLeaves(p.w.session.Job())
	p.form.refresh()
}

func (p *workPanel) chooseAll(on bool) {
	for _, l := range p.w.session.Job().Leaves {
		p.chosen[l.ID] = on
	}
	p.refresh()
}

// chosenLeaves lists the leaves a step is recorded for, in the job's order.
func (p *workPanel) chosenLeaves() []string {
	var out []string
	for _, l := range p.w.session.Job().Leaves {
		if p.chosen[l.ID] {
			out = append(out, l.ID)
		}
	}
	return out
}

// dropStep takes a recorded step back, newest first in the list; it can be
// undone like everything.
func (p *workPanel) dropStep(row int) {
	j := p.w.session.Job()
	s := j.Steps[len(j.Steps)-1-row]
	p.w.session.Do("take back step", j.WithoutStep(s.Number))
	p.w.status.say(t("Taken back: %s. Undo brings it again.", t(string(s.Kind))))
}
