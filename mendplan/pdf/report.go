package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// report prints what was done, after AIC Commentary 27: procedures with date
// and name, departures from the plan, materials added, final state, new
// information; with the mends and the pictures of every leaf, so that the
// paper copy stands alone.
func (b *book) report() {
	fl := b.newFlow(b.say("Treatment report"), b.say("Treatment report"))
	fl.object()
	fl.condition()
	fl.heading(b.say("Tally"))
	fl.mendsByKind(true)
	fl.heading(b.say("What was done"))
	fl.stepTable()
	fl.departures()
	fl.heading(b.say("Materials added"))
	fl.materialsAdded()
	fl.losses()
	if s := b.job.Examination.FinalState; s != "" {
		fl.heading(b.say("Final state"))
		fl.words(s)
	}
	if s := b.job.Examination.Found; s != "" {
		fl.heading(b.say("New information"))
		fl.words(s)
	}
	fl.signature(b.say("report by: %s", b.job.Examination.Author))
	for _, leaf := range b.job.Leaves {
		b.reportLeaf(leaf)
	}
}

func (fl *flow) object() {
	b := fl.b
	e := b.job.Examination
	fl.fact(b.say("Publication"), b.title())
	fl.fact(b.say("Job"), b.job.Number)
	fl.fact(b.say("Date"), b.day())
	fl.fact(b.say("Owner"), b.job.Owner)
	fl.fact(b.say("Object"), e.Object)
	fl.fact(b.say("Materials"), e.Materials)
	for _, leaf := range b.job.Leaves {
		if _, sheet, problem := mendplan.FrameOf(leaf, mendplan.Front); problem == nil {
			w, h := sheet.Size()
			fl.fact(b.say("Size"), b.say("%s, leaf %s lying open", b.units.Size(w, h), leaf.Mark))
			break
		}
	}
	fl.fact(b.say("Notes"), b.job.Notes)
}

func (fl *flow) condition() {
	b := fl.b
	fl.heading(b.say("Condition before treatment"))
	fl.words(b.job.Examination.Condition)
	fl.fact(b.say("Cause"), b.job.Examination.Cause)
	cols := b.stretch([]column{{b.say("leaf"), 40, false}, {b.say("damages"), 80, false}, {b.say("note"), 50, false}}, 1)
	var rows [][]string
	for _, leaf := range b.job.Leaves {
		if s := b.damageWords(leaf); s != "" {
			rows = append(rows, []string{strings.TrimSpace(markOf(leaf) + " " + leaf.Name), s, leaf.Note})
		}
	}
	fl.table(cols, rows)
}

// damageWords counts the damages of a leaf by kind: "2 × tear, 1 × loss", and
// says which are severe or unstable.
func (b *book) damageWords(leaf mendplan.Leaf) string {
	var parts []string
	for _, kind := range append(mendplan.MendedKinds(), mendplan.NotedKinds()...) {
		n, grave := 0, 0
		for _, d := range leaf.Damages {
			if d.Kind != kind {
				continue
			}
			n++
			if d.Severity == mendplan.Severe || d.Unstable {
				grave++
			}
		}
		if n == 0 {
			continue
		}
		words := fmt.Sprintf("%d × %s", n, b.say(string(kind)))
		if grave > 0 {
			words += " " + b.say("(%d severe or unstable)", grave)
		}
		parts = append(parts, words)
	}
	return strings.Join(parts, ", ")
}

func (fl *flow) mendsByKind(after bool) {
	b := fl.b
	t := course.Count(b.job, b.plan)
	for _, m := range t.Mends {
		s := fmt.Sprint(m.Count)
		if after {
			s = b.say("%d of %d mended", m.Done, m.Count)
		}
		fl.fact(b.say(string(m.Kind)), s)
	}
	if !after {
		return
	}
	for _, s := range t.Steps {
		if s.Leaves > 0 {
			fl.fact(b.say(string(s.Kind)), b.say("%d of %s", s.Leaves, b.count(t.Leaves, "1 leaf", "%d leaves")))
		}
	}
	fl.fact(b.say("pieces of tissue"), b.say("%d of %d", t.PiecesDone, t.Pieces))
}

func (fl *flow) departures() {
	b := fl.b
	fl.heading(b.say("Departures from the plan"))
	said := false
	for _, s := range b.job.Steps {
		if s.Departure != "" {
			leaf, _ := b.job.Leaf(s.Leaf)
			fl.words(b.say("Leaf %s, %s, %s: %s", markOf(leaf), s.Date, s.By, s.Departure))
			said = true
		}
	}
	if !said {
		fl.words(b.say("None recorded."))
	}
}

// materialsAdded names what was put on the object, with its composition: of
// tissue only what is on leaves already.
func (fl *flow) materialsAdded() {
	b := fl.b
	none := true
	for _, t := range course.Count(b.job, b.plan).Tissue {
		if t.PiecesDone == 0 {
			continue
		}
		none = false
		tissue, _ := b.job.Tissue(t.Tissue)
		fibre := tissue.Fibre
		if fibre == "" {
			fibre = b.say("fibre not recorded")
		}
		fl.fact(b.tissueName(t.Tissue), b.say("%s, %g g/m²: %s, %s, %.3g g", fibre, tissue.Grammage, b.count(t.PiecesDone, "1 piece", "%d pieces"), b.units.Area(t.AreaDoneMM2), t.MassDoneG))
	}
	for _, batch := range b.job.Batches {
		fl.fact(b.say("Paste %s", batch.ID), b.recipeWords(batch.Recipe)+", "+b.say("made %s", batch.Made)+b.usedOn(batch.ID))
		none = false
	}
	if none {
		fl.words(b.say("None recorded."))
	}
}

// usedOn lists the leaves mended with a batch.
func (b *book) usedOn(batch string) string {
	var ids []string
	for _, s := range b.job.Steps {
		if s.Batch == batch && s.Leaf != "" {
			ids = append(ids, s.Leaf)
		}
	}
	if len(ids) == 0 {
		return ""
	}
	return ", " + b.say("used on leaves %s", b.marks(ids))
}

// recipeWords tells what an adhesive is made of.
func (b *book) recipeWords(id string) string {
	rules := mendplan.InForce{Job: b.job.Rules}
	for _, r := range course.Recipes(b.job) {
		if r.ID != id {
			continue
		}
		words := []string{b.say(r.Name)}
		if share := course.StarchShare(r, rules.Number(mendplan.BulkDensity)); share > 0 {
			words = append(words, b.say("%.1f %% starch by mass as cooked", share*100))
		}
		if r.Ether > 0 {
			words = append(words, b.say("cellulose ether, %g %% gel", r.Ether))
		}
		if r.PasteParts+r.GelParts > 0 {
			words = append(words, b.say("%g parts paste to %g of gel", r.PasteParts, r.GelParts))
		}
		if r.Method != "" {
			words = append(words, b.say(r.Method))
		}
		return strings.Join(words, ", ")
	}
	return b.say("recipe %s", id)
}

// losses lists areas of losses and what they would weigh as pulp, for those
// who fill them later or elsewhere.
func (fl *flow) losses() {
	b := fl.b
	masses := mendplan.LossMasses(b.job)
	if len(masses) == 0 {
		return
	}
	fl.heading(b.say("Losses"))
	cols := b.stretch([]column{{b.say("leaf"), 30, false}, {b.say("damage"), 20, true}, {b.say("area"), 30, true}, {b.say("mass at the leaf's weight"), 40, true}}, 0)
	var rows [][]string
	for _, m := range masses {
		leaf, _ := b.job.Leaf(m.Leaf)
		mass := b.say("weight of the leaf not known")
		if m.MassG > 0 {
			mass = b.figures("%.3g g", m.MassG)
		}
		rows = append(rows, []string{markOf(leaf), fmt.Sprint(m.Damage), b.units.Area(m.AreaMM2), mass})
	}
	fl.table(cols, rows)
}
