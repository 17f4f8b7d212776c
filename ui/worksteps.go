package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// stepBook records what was done: the leaves on the left, to be chosen; the
// form and what it wrote on the right.
type stepBook struct {
	w      *Window
	leaves *wordTable
	chosen map[string]bool // leaves the next step is recorded for
	form   *stepForm
	steps  *wordTable
	shown  []int // numbers of the steps listed
	tally  *widget.Label
	all    fyne.CanvasObject
}

func newStepBook(w *Window) *stepBook {
	p := &stepBook{w: w, chosen: map[string]bool{}, tally: small("")}
	p.leaves = newWordTable([]column{{"", 26}, {t("leaf"), 130}, {t("next"), 110}, {t("done"), 200}}, p.toggle)
	p.form = newStepForm(p)
	p.steps = newWordTable([]column{{t("day"), 128}, {t("leaf"), 50}, {t("step"), 110}, {t("by"), 80}, {t("details"), 220}}, p.dropStep)
	heads := container.NewHBox(newButton(t("All leaves"), func() { p.chooseAll(true) }),
		newButton(t("None"), func() { p.chooseAll(false) }),
		newButton(t("Those due"), p.chooseDue))
	left := container.NewBorder(container.NewVBox(heads, small(t("Press leaves to choose those the step is recorded for."))),
		p.tally, nil, nil, p.leaves)
	record := container.NewVSplit(container.NewVScroll(p.form.box),
		container.NewBorder(container.NewVBox(heading(t("Recorded")), small(t("Press a step to take it back."))), nil, nil, nil, p.steps))
	record.Offset = 0.62
	split := container.NewHSplit(left, record)
	split.Offset = 0.42
	p.all = split
	return p
}

func (p *stepBook) content() fyne.CanvasObject { return p.all }

func (p *stepBook) refresh() {
	j := p.w.session.Job()
	p.showLeaves(j)
	p.showSteps(j)
	p.showTally(j)
	p.form.refresh()
}

// kindsOf lists the acts that can be recorded: the usual ones and the user's.
func kindsOf(j mendplan.Job) []mendplan.StepKind {
	return slices.Concat(mendplan.StepKinds(), j.OwnSteps)
}

func (p *stepBook) showLeaves(j mendplan.Job) {
	var rows [][]string
	for _, l := range j.Leaves {
		mark := ""
		if p.chosen[l.ID] {
			mark = "•"
		}
		next := t("all done")
		if k := course.Next(j, l); k != "" {
			next = t(string(k))
		}
		var done []string
		for _, k := range kindsOf(j) {
			if course.Done(j, l.ID, k) {
				done = append(done, t(string(k)))
			}
		}
		rows = append(rows, []string{mark, leafTitle(l), next, strings.Join(done, ", ")})
	}
	p.leaves.show(rows)
}

// showSteps lists what is recorded, the newest first: of the leaves chosen,
// or of all when none is.
func (p *stepBook) showSteps(j mendplan.Job) {
	var rows [][]string
	p.shown = p.shown[:0]
	any := len(p.chosenLeaves()) > 0
	for i := len(j.Steps) - 1; i >= 0; i-- {
		s := j.Steps[i]
		if any && !p.chosen[s.Leaf] {
			continue
		}
		l, _ := j.Leaf(s.Leaf)
		p.shown = append(p.shown, s.Number)
		rows = append(rows, []string{strings.TrimSpace(s.Date + " " + s.Time), l.Mark, t(string(s.Kind)), s.By, detailsOf(s)})
	}
	p.steps.show(rows)
}

// detailsOf puts what a step holds besides day and name into one line.
func detailsOf(s mendplan.Step) string {
	var parts []string
	if s.Side != "" {
		parts = append(parts, sideShort(s.Side))
	}
	if x := s.Test; x != nil {
		parts = append(parts, figures("%s, %s, %s %g s: %s", x.Medium, x.Place, x.Liquid, x.Seconds, t(string(x.Result))))
	}
	if b := s.Bath; b != nil {
		parts = append(parts, strings.Join(bathWords(*b), ", "))
	}
	for _, x := range []string{s.Batch, s.Note, s.Departure} {
		if x != "" {
			parts = append(parts, x)
		}
	}
	return strings.Join(parts, "; ")
}

// bathWords tells what is recorded of a bath, and nothing of what is not.
func bathWords(b mendplan.Bath) []string {
	var out []string
	if a := strings.TrimSpace(b.Agent + " " + b.Concentration); a != "" {
		out = append(out, a)
	}
	if b.Minutes > 0 || b.Baths > 0 {
		out = append(out, figures("%g min × %d", b.Minutes, max(b.Baths, 1)))
	}
	if b.PHBefore > 0 || b.PHAfter > 0 {
		out = append(out, t("pH from %g to %g", b.PHBefore, b.PHAfter))
	}
	if b.LeafPHBefore > 0 || b.LeafPHAfter > 0 {
		out = append(out, t("leaf pH from %g to %g", b.LeafPHBefore, b.LeafPHAfter))
	}
	if b.ReservePercent > 0 {
		out = append(out, t("alkaline reserve %g %%, %.0f meq/kg", b.ReservePercent, course.ReserveMeq(b.ReservePercent)))
	}
	return out
}

func (p *stepBook) showTally(j mendplan.Job) { p.tally.SetText(tallyWords(j, p.w.session.Plan())) }

// tallyWords tells how far the work has come.
func tallyWords(j mendplan.Job, plan mendplan.Plan) string {
	c := course.Count(j, plan)
	words := t("%d of %d pieces on mended leaves.", c.PiecesDone, c.Pieces)
	for _, s := range c.Steps {
		if s.Leaves > 0 {
			words += " " + t(string(s.Kind)) + fmt.Sprintf(": %d/%d.", s.Leaves, c.Leaves)
		}
	}
	return words
}

func (p *stepBook) toggle(row int) {
	j := p.w.session.Job()
	l := j.Leaves[row]
	p.chosen[l.ID] = !p.chosen[l.ID]
	p.showLeaves(j)
	p.showSteps(j)
	p.form.refresh()
}

func (p *stepBook) chooseAll(on bool) {
	for _, l := range p.w.session.Job().Leaves {
		p.chosen[l.ID] = on
	}
	p.refresh()
}

// chooseDue chooses the leaves whose next step is the one in the form; when
// that is nobody's, those whose next step is the first leaf's.
func (p *stepBook) chooseDue() {
	j := p.w.session.Job()
	kind := mendplan.StepKind(p.form.kind.chosen())
	due := func(k mendplan.StepKind) (n int) {
		for _, l := range j.Leaves {
			p.chosen[l.ID] = k != "" && course.Next(j, l) == k
			if p.chosen[l.ID] {
				n++
			}
		}
		return n
	}
	if due(kind) == 0 && len(j.Leaves) > 0 {
		for _, l := range j.Leaves {
			if k := course.Next(j, l); k != "" {
				p.form.kind.pick(string(k))
				due(k)
				break
			}
		}
	}
	p.refresh()
}

// chosenLeaves lists the leaves a step is recorded for, in the job's order.
func (p *stepBook) chosenLeaves() []string {
	var out []string
	for _, l := range p.w.session.Job().Leaves {
		if p.chosen[l.ID] {
			out = append(out, l.ID)
		}
	}
	return out
}

// dropStep takes a recorded step back; it can be undone like everything.
func (p *stepBook) dropStep(row int) {
	j := p.w.session.Job()
	i := slices.IndexFunc(j.Steps, func(s mendplan.Step) bool { return row < len(p.shown) && s.Number == p.shown[row] })
	if i < 0 {
		return
	}
	kind := j.Steps[i].Kind
	p.w.session.Do("take back step", j.WithoutStep(j.Steps[i].Number))
	p.w.status.say(t("Taken back: %s. Undo brings it again.", t(string(kind))))
}

// toggleInHand chooses the leaf that is shown, or lets it go.
func (p *stepBook) toggleInHand() {
	leaf, _ := p.w.session.Leaf()
	for i, l := range p.w.session.Job().Leaves {
		if l.ID == leaf.ID {
			p.toggle(i)
		}
	}
}
