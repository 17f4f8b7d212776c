package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// proposal prints what an owner is asked to agree to: the object, its
// condition, what is proposed, what it takes, risks, consent.
func (b *book) proposal() {
	fl := b.newFlow("Proposal for treatment", "Proposal for treatment")
	fl.object()
	fl.condition()
	fl.heading("What is proposed")
	fl.words(b.job.Examination.Purpose)
	fl.mendsByKind(false)
	fl.heading("What it takes")
	fl.materials()
	fl.hours()
	if o := b.job.Examination.Options; o != "" {
		fl.heading("Other ways")
		fl.words(o)
	}
	fl.heading("Risks")
	fl.words(b.job.Examination.Risks)
	fl.words("Wet treatment cannot be undone and is begun only after each medium has been tested. Mends are made with Japanese tissue and an adhesive that water can release; they can be taken off again.")
	fl.stops()
	fl.signature("agreed: owner, date")
	fl.signature("proposed by: " + b.job.Examination.Author)
}

// report prints what was done, after AIC Commentary 27: procedures with date
// and name, departures from the plan, materials added, final state, new
// information.
func (b *book) report() {
	fl := b.newFlow("Treatment report", "Treatment report")
	fl.object()
	fl.condition()
	fl.heading("What was done")
	fl.mendsByKind(true)
	fl.stepTable()
	fl.departures()
	fl.heading("Materials added")
	fl.materialsAdded()
	fl.losses()
	if s := b.job.Examination.FinalState; s != "" {
		fl.heading("Final state")
		fl.words(s)
	}
	if s := b.job.Examination.Found; s != "" {
		fl.heading("New information")
		fl.words(s)
	}
	fl.signature("report by: " + b.job.Examination.Author)
}

func (fl *flow) object() {
	e := fl.b.job.Examination
	fl.fact("Publication", titleOf(fl.b.job))
	fl.fact("Job", fl.b.job.Number)
	fl.fact("Date", fl.b.day())
	fl.fact("Owner", fl.b.job.Owner)
	fl.fact("Object", e.Object)
	fl.fact("Materials", e.Materials)
	for _, leaf := range fl.b.job.Leaves {
		if _, sheet, problem := mendplan.FrameOf(leaf, mendplan.Front); problem == nil {
			w, h := sheet.Size()
			fl.fact("Size", fmt.Sprintf("%s, leaf %s lying open", fl.b.units.Size(w, h), leaf.Mark))
			break
		}
	}
	fl.fact("Notes", fl.b.job.Notes)
}

func (fl *flow) condition() {
	fl.heading("Condition before treatment")
	fl.words(fl.b.job.Examination.Condition)
	fl.fact("Cause", fl.b.job.Examination.Cause)
	cols := fl.b.stretch([]column{{"leaf", 30, false}, {"damages", 80, false}, {"note", 40, false}}, 1)
	var rows [][]string
	for _, leaf := range fl.b.job.Leaves {
		if s := damageWords(leaf); s != "" {
			rows = append(rows, []string{leaf.Mark + " " + leaf.Name, s, leaf.Note})
		}
	}
	fl.table(cols, rows)
}

// damageWords counts the damages of a leaf by kind: "2 tears, 1 loss".
func damageWords(leaf mendplan.Leaf) string {
	var parts []string
	for _, kind := range append(mendplan.MendedKinds(), mendplan.NotedKinds()...) {
		n := 0
		for _, d := range leaf.Damages {
			if d.Kind == kind {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d × %s", n, kind))
		}
	}
	return strings.Join(parts, ", ")
}

func (fl *flow) mendsByKind(after bool) {
	t := course.Count(fl.b.job, fl.b.plan)
	for _, m := range t.Mends {
		s := fmt.Sprint(m.Count)
		if after {
			s = fmt.Sprintf("%d of %d mended", m.Done, m.Count)
		}
		fl.fact(string(m.Kind), s)
	}
	if after {
		for _, s := range t.Steps {
			if s.Leaves > 0 {
				fl.fact(string(s.Kind), fmt.Sprintf("%d of %s", s.Leaves, fl.b.count(t.Leaves, "1 leaf", "%d leaves")))
			}
		}
		fl.fact("pieces of tissue", fmt.Sprintf("%d of %d", t.PiecesDone, t.Pieces))
	}
}

func (fl *flow) materials() {
	fl.y = fl.b.tissueTable(fl.y, fl.page) + 3
	p := fl.b.plan.Estimate.Paste
	if p.BatchG > 0 {
		fl.fact("Paste", fmt.Sprintf("%s of starch paste; %s of dry starch", grams(p.BatchG), grams(p.StarchG)))
	}
}

func (fl *flow) hours() {
	sum := 0.0
	for _, l := range course.Hours(fl.b.job, fl.b.plan) {
		sum += l.Minutes() / 60
	}
	fl.fact("Hours", fmt.Sprintf("%.1f at the bench, tier %d of 5; drying comes on top (see the calendar)", sum, course.Tier(sum)))
}

func (fl *flow) stops() {
	fl.fact("Not answered yet", strings.Join(course.OpenStops(fl.b.job), "; "))
}

func (fl *flow) stepTable() {
	cols := fl.b.stretch([]column{{"day", 20, false}, {"leaf", 14, false}, {"side", 12, false}, {"step", 30, false}, {"by", 26, false}, {"details", 60, false}}, 5)
	var rows [][]string
	for _, s := range fl.b.job.Steps {
		leaf, _ := fl.b.job.Leaf(s.Leaf)
		rows = append(rows, []string{s.Date, leaf.Mark, string(s.Side), string(s.Kind), s.By, stepDetails(s)})
	}
	fl.table(cols, rows)
}

func stepDetails(s mendplan.Step) string {
	var parts []string
	if t := s.Test; t != nil {
		parts = append(parts, fmt.Sprintf("%s, %s: %s, %g s: %s", t.Medium, t.Place, t.Liquid, t.Seconds, t.Result))
	}
	if bath := s.Bath; bath != nil {
		parts = append(parts, strings.TrimSpace(fmt.Sprintf("%s %s, %g min, %d baths, pH %g to %g", bath.Agent, bath.Concentration, bath.Minutes, bath.Baths, bath.PHBefore, bath.PHAfter)))
	}
	if s.Batch != "" {
		parts = append(parts, "paste "+s.Batch)
	}
	if s.Note != "" {
		parts = append(parts, s.Note)
	}
	return strings.Join(parts, "; ")
}

func (fl *flow) departures() {
	var said []string
	for _, s := range fl.b.job.Steps {
		if s.Departure != "" {
			leaf, _ := fl.b.job.Leaf(s.Leaf)
			said = append(said, fmt.Sprintf("Leaf %s, %s: %s", leaf.Mark, s.Date, s.Departure))
		}
	}
	fl.heading("Departures from the plan")
	if len(said) == 0 {
		fl.words("None recorded.")
	}
	for _, s := range said {
		fl.words(s)
	}
}

// materialsAdded names what was put on the object, with its composition.
func (fl *flow) materialsAdded() {
	for _, t := range course.Count(fl.b.job, fl.b.plan).Tissue {
		tissue, _ := fl.b.job.Tissue(t.Tissue)
		fl.fact(tissue.Name, fmt.Sprintf("%s, %g g/m²: %s, %s, %.3g g", orUnknown(tissue.Fibre), tissue.Grammage, fl.b.count(t.Pieces, "1 piece", "%d pieces"), fl.b.units.Area(t.AreaMM2), t.MassG))
	}
	for _, batch := range fl.b.job.Batches {
		fl.fact("Paste "+batch.ID, fmt.Sprintf("%s, made %s", recipeName(fl.b.job, batch.Recipe), batch.Made))
	}
}

func orUnknown(fibre string) string {
	if fibre == "" {
		return "fibre not recorded"
	}
	return fibre
}

func recipeName(job mendplan.Job, id string) string {
	for _, r := range course.Recipes(job) {
		if r.ID == id {
			return strings.TrimSpace(r.Name + ", " + r.Method)
		}
	}
	return "recipe " + id
}

// losses lists areas of losses and what they would weigh as pulp, for those
// who fill them later or elsewhere.
func (fl *flow) losses() {
	masses := mendplan.LossMasses(fl.b.job)
	if len(masses) == 0 {
		return
	}
	fl.heading("Losses")
	cols := fl.b.stretch([]column{{"leaf", 30, false}, {"damage", 20, true}, {"area", 30, true}, {"mass at the leaf's weight", 40, true}}, 0)
	var rows [][]string
	for _, m := range masses {
		leaf, _ := fl.b.job.Leaf(m.Leaf)
		mass := "weight of the leaf not known"
		if m.MassG > 0 {
			mass = fmt.Sprintf("%.3g g", m.MassG)
		}
		rows = append(rows, []string{leaf.Mark, fmt.Sprint(m.Damage), fl.b.units.Area(m.AreaMM2), mass})
	}
	fl.table(cols, rows)
}
