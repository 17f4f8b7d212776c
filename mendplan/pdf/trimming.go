package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// trimming prints the list of edges to trim, to be ticked off, and for each
// leaf the pages that face up when it goes back.
func (b *book) trimming() {
	list := mendplan.TrimList(b.job, b.plan.Pieces)
	if len(list) == 0 {
		return
	}
	fl := b.newFlow("Trimming", "Trimming")
	fl.words("Trim last, when the leaf is dry and flat, with the leaf's own paper in view so that the true edge guides the rule. Small nicks stay bridged. " +
		"Metal rule, cut away from the holding hand, used blades into a sharps box.")
	fl.y += 1
	cols := b.stretch([]column{{"", 6, false}, {"leaf", 14, false}, {"edge", 26, false}, {"side up", 18, false}, {"from", 22, true}, {"to", 22, true},
		{"hangs over", 22, true}, {"pieces", 40, false}}, 7)
	var rows [][]string
	for _, t := range list {
		leaf, _ := b.job.Leaf(t.Leaf)
		words := strings.Join(t.Pieces, ", ")
		if t.Bridged {
			words += " (nicks bridged)"
		}
		rows = append(rows, []string{box, leaf.Mark, string(t.Edge), string(t.Up), b.units.Length(t.From), b.units.Length(t.To), b.units.Length(t.HangMM), words})
	}
	fl.table(cols, rows)
	fl.words("From and to are measured along the edge as the side up lies before you: from the left at head and tail, from the head at the others.")
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
		pages := strings.TrimSuffix(strings.TrimPrefix(fmt.Sprintf("%s | %s", r.Left, r.Right), " | "), " | ")
		rows = append(rows, []string{box, r.Mark, r.Gathering, pages, r.Below, r.Above})
	}
	if len(rows) == 0 {
		return
	}
	fl.heading("After trimming, back in order")
	fl.table(fl.b.stretch([]column{{"", 6, false}, {"leaf", 14, false}, {"gathering", 24, false}, {"pages that face up", 40, false}, {"laid on", 24, false}, {"then comes", 24, false}}, 5), rows)
}
