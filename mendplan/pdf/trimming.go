package pdf

import (
	"fmt"
	"slices"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/course"
)

// trimming prints the list of edges to trim, to be ticked off, and for each
// leaf the pages that face up when it goes back.
func (b *book) trimming() {
	list := mendplan.TrimList(b.job, b.plan.Pieces)
	if len(list) == 0 {
		return
	}
	fl := b.newFlow(b.say("Trimming"), b.say("Trimming"))
	fl.words(b.say("Trim last, when the leaf is dry and flat, with the leaf's own paper in view so that the true edge guides the rule. Small nicks stay bridged.") + " " +
		b.say("Metal rule, cut away from the holding hand, used blades into a sharps box."))
	fl.y += 1
	cols := b.stretch([]column{{"", 6, false}, {b.say("leaf"), 14, false}, {b.say("edge"), 26, false}, {b.say("side up"), 18, false}, {b.say("from"), 22, true}, {b.say("to"), 22, true},
		{b.say("hangs over"), 22, true}, {b.say("pieces"), 40, false}}, 7)
	var rows [][]string
	for _, t := range list {
		leaf, _ := b.job.Leaf(t.Leaf)
		words := strings.Join(t.Pieces, ", ")
		if t.Bridged {
			words += " " + b.say("(nicks bridged)")
		}
		tick := box
		if slices.Contains(leaf.EdgesTrimmed, t.Key()) || course.Done(b.job, t.Leaf, mendplan.TrimmedStep) {
			tick = ticked
		}
		rows = append(rows, []string{tick, leaf.Mark, b.say(string(t.Edge)), b.say(string(t.Up)), b.units.Length(t.From), b.units.Length(t.To), b.units.Length(t.HangMM), words})
	}
	fl.table(cols, rows)
	fl.words(b.say("From and to are measured along the edge as the side up lies before you: from the left at head and tail, from the head at the others."))
	fl.backInOrder(list)
}

// backInOrder says for each trimmed leaf how it goes back on its gathering.
func (fl *flow) backInOrder(list []mendplan.Trim) {
	trimmed := map[string]bool{}
	for _, t := range list {
		trimmed[t.Leaf] = true
	}
	var rows [][]string
	for _, r := range collate.Order(fl.b.job, collate.OutsideIn) {
		if !trimmed[r.Leaf] {
			continue
		}
		pages := strings.TrimSuffix(strings.TrimPrefix(fmt.Sprintf("%s | %s", fl.b.pageLabel(r.Left), fl.b.pageLabel(r.Right)), " | "), " | ")
		rows = append(rows, []string{box, r.Mark, fl.b.gatheringName(r.Gathering), pages, r.Below, r.Above})
	}
	if len(rows) == 0 {
		return
	}
	fl.heading(fl.b.say("After trimming, back in order"))
	fl.table(fl.b.stretch([]column{{"", 6, false}, {fl.b.say("leaf"), 14, false}, {fl.b.say("gathering"), 24, false}, {fl.b.say("pages that face up"), 40, false}, {fl.b.say("laid on"), 24, false}, {fl.b.say("then comes"), 24, false}}, 5), rows)
}
