package ui

import (
	"fmt"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

func TestManyProblemsAreShownSomeAtATime(t *testing.T) {
	w := testWindow(t)
	var found []mendplan.Problem
	for i := range 120 {
		found = append(found, mendplan.Problem{Kind: mendplan.BadFile, Weight: mendplan.Doubt, Words: phrase.Of("%s", fmt.Sprint("fault ", i))})
	}
	w.session.Take(mendplan.Job{}, "", found)
	p := newProblemsPanel(w)
	all := len(w.session.Problems())
	for _, want := range []int{50, 100, all, all} {
		p.refresh()
		lines := 0
		var more *keyButton
		for _, o := range p.box.Objects {
			switch o := o.(type) {
			case *pressRow:
				lines++
			case *keyButton:
				more = o
			}
		}
		if lines != want || (more != nil) != (want < all) {
			t.Fatalf("%d of %d problems are shown, want %d; more are offered: %v", lines, all, want, more != nil)
		}
		if more != nil {
			more.OnTapped()
		}
	}
}
