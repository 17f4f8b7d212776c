package mendplan_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"leafmend/mendplan"
)

func TestBreaksByHandKeepEveryLimitAndMargin(t *testing.T) {
	broken := 0
	for i := range 400 {
		r := seeded(i)
		tear := randomTear(r)
		tear.Forks = nil
		d := styled(tear, mendplan.Strips, randomRules(r))
		best, _ := mendplan.Pieces(bench(d))
		for range 1 + r.IntN(4) {
			d.Mends[0].Breaks = append(d.Mends[0].Breaks, oddShare(r))
		}
		pieces, problems := mendplan.Pieces(bench(d))
		if len(ofKind(problems, mendplan.DoesNotFit)) == 0 {
			for _, p := range pieces {
				if long := longSide(narrowest(t, p)); long > inForce(d, mendplan.LongestStrip)+0.01 {
					t.Errorf("case %d: strip %s between breaks set by hand is %.2f mm long", i, p.Label, long)
				}
			}
		}
		if !reflect.DeepEqual(pieces, best) {
			broken++
			if !slices.ContainsFunc(pieces, brokenByHand) {
				t.Errorf("case %d: the strips differ, and none says that a hand broke them", i)
			}
		}
		margin := min(inForce(d, mendplan.SideMargin), inForce(d, mendplan.StripWidth)/2, inForce(d, mendplan.EndMargin)) - 0.002
		c := cover(t, pieces)
		for _, run := range onLeafMM(d.Points) {
			if left := uncovered(t, c, run, margin, leafBox(leafW, leafH, 0)); left > slackMM2 {
				t.Errorf("case %d: %.3f mm² of the margin lies outside the strips", i, left)
			}
		}
		d = d.WithMend(func(m *mendplan.Mend) { m.Breaks = nil })
		if again, _ := mendplan.Pieces(bench(d)); !reflect.DeepEqual(again, best) {
			t.Errorf("case %d: with the breaks dropped the strips are not the best again", i)
		}
	}
	if broken < 200 {
		t.Errorf("only in %d cases did the breaks matter", broken)
	}
	t.Logf("breaks mattered in %d cases", broken)
}

// brokenByHand reports whether a strip says that its break was set by hand.
func brokenByHand(p mendplan.Piece) bool {
	for _, why := range p.Reasons {
		if strings.HasPrefix(why.String(), "broken where set by hand") {
			return true
		}
	}
	return false
}

// oddShare is a place for a break, now and then one that is none.
func oddShare(r *rand.Rand) float64 {
	if r.IntN(8) == 0 {
		return []float64{0, 1, -3, 7, math.NaN()}[r.IntN(5)]
	}
	return r.Float64()
}
