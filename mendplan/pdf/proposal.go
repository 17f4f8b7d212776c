package pdf

import (
	"context"
	"fmt"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// proposal prints what an owner is asked to agree to: the object, its
// condition, what is proposed, what it takes, other ways, risks, consent.
func (b *book) proposal() {
	fl := b.newFlow(b.say("Proposal for treatment"), b.say("Proposal for treatment"))
	fl.object()
	fl.condition()
	fl.heading(b.say("What is proposed"))
	fl.words(b.job.Examination.Purpose)
	fl.mendsByKind(false)
	fl.heading(b.say("What it takes"))
	fl.materials()
	fl.hours()
	fl.choices()
	fl.heading(b.say("Risks"))
	fl.words(b.job.Examination.Risks)
	fl.words(b.say("Wet treatment cannot be undone and is begun only after each medium has been tested. Mends are made with Japanese tissue and an adhesive that water can release; they can be taken off again."))
	fl.stops()
	if c := b.job.Examination.Consent; c != "" {
		fl.fact(b.say("Agreed"), c)
	}
	fl.signature(b.say("agreed: owner, date, which way"))
	fl.signature(b.say("proposed by: %s", b.job.Examination.Author))
}

func (fl *flow) materials() {
	b := fl.b
	fl.y = b.tissueTable(fl.y, fl.page) + 3
	p := b.plan.Estimate.Paste
	if p.BatchG > 0 {
		fl.fact(b.say("Paste"), b.say("%s of starch paste; %s of dry starch", b.grams(p.BatchG), b.grams(p.StarchG)))
	}
}

// hours tells what the work takes at the bench, by what is done, in tiers as
// laboratories count them, and what it takes in days.
func (fl *flow) hours() {
	b := fl.b
	sum := 0.0
	var rows [][]string
	for _, r := range course.HoursByRole(b.job, b.plan) {
		sum += r.Minutes / 60
		each := fmt.Sprintf("%.0f min", r.Minutes/float64(r.Count))
		rows = append(rows, []string{b.roleWords(r.Role), fmt.Sprint(r.Count), each, b.figures("%.1f h", r.Minutes/60)})
	}
	fl.fact(b.say("Hours"), b.say("%.1f at the bench: %s", sum, b.tierWords(course.Tier(sum))))
	fl.table(b.stretch([]column{{b.say("work at the bench"), 60, false}, {b.say("how many"), 24, true}, {b.say("each, about"), 26, true}, {b.say("together"), 26, true}}, 0), rows)
	if start, err := course.ParseDay(b.day()); err == nil {
		s := course.Plan(b.job, b.plan, start, course.WorkOrder(b.job), true)
		if len(s.Slots) > 0 {
			fl.fact(b.say("Elapsed"), b.say("%s with drying and pressing; put together from %s at the earliest", b.count(s.Elapsed, "1 day", "%d days"), b.dayWords(s.Reassembly)))
		}
	}
}

// tierWords names a tier by its hours.
func (b *book) tierWords(tier int) string {
	return b.say("tier %d of 5", tier) + " (" + b.say(tiers[tier-1]) + ")"
}

// roleWords says what a piece of a role is; "" is getting leaves ready.
func (b *book) roleWords(r mendplan.Role) string {
	if r == "" {
		return b.say("getting leaves ready")
	}
	return b.say(string(r))
}

// choices prints the ways to do the job side by side, to be ticked.
func (fl *flow) choices() {
	b := fl.b
	ways := course.Choices(context.Background(), b.job, b.plan)
	if len(ways) > 0 {
		fl.heading(b.say("Ways to do it"))
		cols := b.stretch([]column{{"", 6, false}, {b.say("way"), 60, false}, {b.say("pieces"), 16, true}, {b.say("hours"), 16, true}, {b.say("tier"), 34, false}, {b.say("paste"), 16, true}, {b.say("tissue opened"), 32, true}}, 1)
		var rows [][]string
		for _, w := range ways {
			name := b.say(w.Name)
			if w.Tissue != "" {
				name += ": " + b.tissueName(w.Tissue)
			}
			if w.Unplaced > 0 {
				name += " (" + b.say("stock lacks room for %s", b.count(w.Unplaced, "1 piece", "%d pieces")) + ")"
			}
			rows = append(rows, []string{box, name, fmt.Sprint(w.Pieces), b.figures("%.1f", w.Hours), b.tierWords(w.Tier), b.grams(w.PasteG), b.costs(w.Costs)})
		}
		fl.table(cols, rows)
		fl.words(b.say("Hours are estimates at the bench; tissue is counted by whole sheets, of which remnants go back to stock."))
	}
	if o := b.job.Examination.Options; o != "" {
		fl.heading(b.say("Other ways"))
		fl.words(o)
	}
}

func (b *book) costs(costs []course.Cost) string {
	if len(costs) == 0 {
		return b.say("no price")
	}
	words := make([]string, len(costs))
	for i, c := range costs {
		words[i] = strings.TrimSpace(b.figures("%.2f %s", c.Amount, c.Currency))
	}
	return strings.Join(words, " + ")
}

func (fl *flow) stops() {
	var open []string
	for _, s := range course.OpenStops(fl.b.job) {
		open = append(open, fl.b.say(s))
	}
	fl.fact(fl.b.say("Not answered yet"), strings.Join(open, "; "))
}
