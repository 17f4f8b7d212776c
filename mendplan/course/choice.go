package course

import (
	"context"

	"leafmend/mendplan"
)

// Choice is one way to do a job that an owner may be offered.
type Choice struct {
	Name     string // in words, to be said in other languages too
	Tissue   string // ID of the tissue it is about; "" when it is about none
	Pieces   int
	Hours    float64 // at the bench
	Tier     int
	PasteG   float64 // batch to cook
	Costs    []Cost  // of the tissue opened
	Unplaced int     // pieces for which there is no stock
}

// Cost is an amount of money.
type Cost struct {
	Amount   float64
	Currency string
}

// Names of choices.
const (
	ChoiceAll        = "everything, as planned"
	ChoiceNoFills    = "losses left unfilled"
	ChoiceSevere     = "only what is severe or unstable"
	ChoiceWithTissue = "tears and splits with another tissue"
)

// choiceEffort is the budget of each layout: a first layout, which is what an
// estimate for an owner needs.
const choiceEffort = -1

// Choices works out what the job takes as planned and in other ways: without
// filling losses; only what is graded severe or unstable; tears and splits
// with each other tissue that is meant for them. Ways that come to the same
// pieces as the plan, or to none, are left out. Tissue is laid out afresh for
// each, so costs are those of whole sheets.
func Choices(ctx context.Context, job mendplan.Job, plan mendplan.Plan) []Choice {
	all := choiceOf(job, ChoiceAll, "", plan.Pieces, plan.Layouts)
	if all.Pieces == 0 {
		return nil
	}
	out := []Choice{all}
	add := func(name, tissue string, pieces []mendplan.Piece) {
		if len(pieces) == 0 {
			return
		}
		layouts, _ := mendplan.Layouts(ctx, job, pieces, choiceEffort, nil)
		out = append(out, choiceOf(job, name, tissue, pieces, layouts))
	}
	if kept := without(plan.Pieces, func(p mendplan.Piece) bool { return kindOf(job, p) == mendplan.Loss }); len(kept) < all.Pieces {
		add(ChoiceNoFills, "", kept)
	}
	if kept := without(plan.Pieces, func(p mendplan.Piece) bool { return !grave(job, p) }); len(kept) < all.Pieces {
		add(ChoiceSevere, "", kept)
	}
	for _, t := range job.Tissues {
		if t.Use == mendplan.ForInfills || !stocked(job, t.ID) {
			continue
		}
		if other, changed := withTissue(plan.Pieces, t.ID); changed {
			add(ChoiceWithTissue, t.ID, other)
		}
	}
	return out
}

func choiceOf(job mendplan.Job, name, tissue string, pieces []mendplan.Piece, layouts []mendplan.TissueLayout) Choice {
	plan := mendplan.Plan{Pieces: pieces, Layouts: layouts}
	c := Choice{Name: name, Tissue: tissue, Pieces: len(pieces), Hours: totalHours(job, plan)}
	c.Tier = Tier(c.Hours)
	pasted := 0.0
	for _, p := range pieces {
		pasted += p.PasteMM2
	}
	c.PasteG = mendplan.EstimatePaste(pasted, mendplan.InForce{Job: job.Rules}).BatchG
	for _, l := range layouts {
		for _, u := range l.Layout.Unplaced {
			c.Unplaced += u.Count
		}
		for _, s := range l.Layout.Sheets {
			c.Costs = AddCost(c.Costs, s.Price, currencyOf(job, s.Stock))
		}
	}
	return c
}

func totalHours(job mendplan.Job, plan mendplan.Plan) float64 {
	sum := 0.0
	for _, l := range Hours(job, plan) {
		sum += l.Minutes() / 60
	}
	return sum
}

// AddCost adds an amount to those of its currency; nothing is added for 0.
// The list given may be written to.
func AddCost(costs []Cost, amount float64, currency string) []Cost {
	if amount == 0 {
		return costs
	}
	for i := range costs {
		if costs[i].Currency == currency {
			costs[i].Amount += amount
			return costs
		}
	}
	return append(costs, Cost{amount, currency})
}

func currencyOf(job mendplan.Job, stock string) string {
	for _, s := range job.Stock {
		if s.ID == stock {
			return s.Currency
		}
	}
	return ""
}

func stocked(job mendplan.Job, tissue string) bool {
	for _, s := range job.Stock {
		if s.Tissue == tissue && s.Count > 0 {
			return true
		}
	}
	return false
}

func without(pieces []mendplan.Piece, drop func(mendplan.Piece) bool) []mendplan.Piece {
	var out []mendplan.Piece
	for _, p := range pieces {
		if !drop(p) {
			out = append(out, p)
		}
	}
	return out
}

// kindOf returns the kind of the damage a piece answers.
func kindOf(job mendplan.Job, p mendplan.Piece) mendplan.DamageKind {
	d, _ := damageOf(job, p)
	return d.Kind
}

func damageOf(job mendplan.Job, p mendplan.Piece) (mendplan.Damage, bool) {
	leaf, ok := job.Leaf(p.Leaf)
	if !ok {
		return mendplan.Damage{}, false
	}
	return leaf.Damage(p.Damage)
}

// grave reports whether a piece answers what is severe or unstable.
func grave(job mendplan.Job, p mendplan.Piece) bool {
	d, ok := damageOf(job, p)
	return ok && (d.Severity == mendplan.Severe || d.Unstable)
}

// withTissue returns the pieces with everything but infills made of another
// tissue, and whether that is a change.
func withTissue(pieces []mendplan.Piece, tissue string) ([]mendplan.Piece, bool) {
	out := make([]mendplan.Piece, len(pieces))
	changed := false
	for i, p := range pieces {
		if p.Role != mendplan.RoleFill && p.Tissue != tissue {
			p.Tissue, changed = tissue, true
		}
		out[i] = p
	}
	return out, changed
}
