package course

import (
	"slices"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// Question is what should be answered before a step is recorded.
type Question struct {
	Leaf  string
	Words phrase.Phrase // what speaks against the step, one sentence
	Basis string        // what that rests on
}

const (
	basisIrreversible = "every wet step is irreversible (AIC Wiki, BPG Washing)"
	basisTest         = "test each medium first (M. A. Smith and others, JAIC 23(2), 1984; Dartmouth College Library, A Simple Book Repair Manual)"
	basisCollate      = "collate and list faults before taking apart (Cockerell, Bookbinding, and the Care of Books, 1901)"
	basisCommon       = "common practice, no source"
)

// wet are the acts that bring water to the leaf; mending does with paste.
var wet = []mendplan.StepKind{mendplan.Washed, mendplan.Alkalised, mendplan.Bleached, mendplan.MendedStep}

// Questions tells what should be asked before the step is recorded. The job
// does not hold it yet. None means nothing speaks against it.
func Questions(job mendplan.Job, step mendplan.Step) []Question {
	q := asker{job: job, step: step}
	q.leaf, _ = job.Leaf(step.Leaf)
	if slices.Contains(wet, step.Kind) {
		q.wetStep()
	}
	switch step.Kind {
	case mendplan.Bleached:
		q.bleach()
	case mendplan.Disbound:
		q.disbind()
	case mendplan.MendedStep:
		q.paste()
	case mendplan.PressedOut:
		q.pressOut()
	case mendplan.TrimmedStep:
		q.trim()
	case mendplan.Reassembled:
		q.reassemble()
	}
	return q.out
}

type asker struct {
	job  mendplan.Job
	step mendplan.Step
	leaf mendplan.Leaf
	out  []Question
}

func (q *asker) ask(basis, english string, a ...any) {
	q.out = append(q.out, Question{Leaf: q.step.Leaf, Words: phrase.Of(english, a...), Basis: basis})
}

func (q *asker) mark() string {
	if q.leaf.Mark != "" {
		return q.leaf.Mark
	}
	return q.step.Leaf
}

func (q *asker) wetStep() {
	tests := Tests(q.job, q.step.Leaf)
	if len(tests) == 0 {
		q.ask(basisTest, "No solubility test is recorded for leaf %s.", q.mark())
	}
	for _, t := range tests {
		if t.Result != mendplan.Stable {
			q.ask(basisTest, "On leaf %s %s %s in %s (%s).", q.mark(), t.Medium, phrase.Of(string(t.Result)), t.Liquid, t.Place)
		}
	}
	coated := q.job.LeafPaper.Coated
	if coated {
		q.ask("lay aside coated or glossy paper (US National Park Service, Conserve O Gram 13/2)", "The paper is coated; water can fuse or lift the coating.")
	}
	for _, d := range q.leaf.Damages {
		if d.Kind == mendplan.Mould {
			q.ask("NEDCC Preservation Leaflet 3.8", "Mould is noted on leaf %s: dry it, have it looked at and cleaned before anything wet.", q.mark())
			return
		}
	}
}

func (q *asker) bleach() {
	q.ask("old manuals' baths are avoided today or left to specialists (Cockerell, 1901, warns that most ruin the paper)",
		"Bleaching is only recorded here; was it decided and done by a qualified conservator?")
	if strings.TrimSpace(q.step.By) == "" {
		q.ask(basisCommon, "Say who performed the bleaching.")
	}
}

func (q *asker) disbind() {
	for _, k := range []mendplan.StepKind{mendplan.Collated, mendplan.Surveyed} {
		for _, l := range q.job.Leaves {
			if !Done(q.job, l.ID, k) {
				q.ask(basisCollate, "Not every leaf is %s: leaf %s is not.", phrase.Of(string(k)), l.Mark)
				break
			}
		}
	}
	if open := OpenStops(q.job); len(open) > 0 {
		q.ask("stop list (US National Park Service, Conserve O Gram 13/2; Missouri State Archives)", "%d questions of the stop list are not answered.", len(open))
	}
}

func (q *asker) paste() {
	if q.step.Batch == "" {
		return
	}
	for _, b := range q.job.Batches {
		if b.ID != q.step.Batch {
			continue
		}
		if s := BatchState(q.job, b, q.step.Date); s != Fresh {
			q.ask("keeping times of paste: BonaDea, Wheat Paste Recipes; Metropolitan Museum of Art recipe", "Batch %s is %s.", b.ID, phrase.Of(string(s)))
		}
		return
	}
	q.ask(basisCommon, "There is no batch %s in the job.", q.step.Batch)
}

func (q *asker) pressOut() {
	in, ok := Last(q.job, q.step.Leaf, mendplan.PressedIn)
	if !ok {
		q.ask(basisCommon, "Leaf %s is not recorded as put into the press.", q.mark())
		return
	}
	from, ok1 := at(in.Date, in.Time)
	to, ok2 := at(q.step.Date, q.step.Time)
	set := mendplan.InForce{Job: q.job.Rules}.Number(mendplan.UnderWeight)
	if ok1 && ok2 && to.Sub(from).Hours() < set {
		q.ask("one night in the press (Cockerell, 1901)", "Leaf %s has been under weight for %.1f h; %g h are set.", q.mark(), to.Sub(from).Hours(), set)
	}
}

func (q *asker) trim() {
	if InPress(q.job, q.step.Leaf) {
		q.ask("tissue is trimmed only when dry (BonaDea; Indiana University Libraries, Book Repair Manual)", "Leaf %s is still in the press.", q.mark())
		return
	}
	mended, ok := Last(q.job, q.step.Leaf, mendplan.MendedStep)
	if !ok {
		q.ask(basisCommon, "Leaf %s is not recorded as mended.", q.mark())
		return
	}
	if out, ok := Last(q.job, q.step.Leaf, mendplan.PressedOut); !ok || out.Date < mended.Date {
		q.ask("tissue is trimmed only when dry (BonaDea; Indiana University Libraries, Book Repair Manual)", "Leaf %s has not been dried under weight since it was mended.", q.mark())
	}
}

func (q *asker) reassemble() {
	good := 0
	for _, o := range q.job.Orders {
		if !o.Wrong {
			good++
		}
	}
	if good < 2 {
		q.ask(basisCommon, "The order has been checked %d times; two independent checks are asked for.", good)
	}
	for _, l := range q.job.Leaves {
		if InPress(q.job, l.ID) {
			q.ask(basisCommon, "Leaf %s is still in the press.", l.Mark)
		}
	}
}
