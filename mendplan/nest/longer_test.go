package nest_test

import (
	"context"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/nest"
)

// lack is the area of the blanks that found no place, the gap about them
// included, mm².
func lack(blanks []nest.Blank, gap float64, l nest.Layout) (mm2 float64) {
	for _, u := range l.Unplaced {
		for _, b := range blanks {
			if b.ID == u.Blank {
				mm2 += (b.W + gap) * (b.H + gap) * float64(u.Count)
			}
		}
	}
	return mm2
}

// A law, compared exactly: more effort never makes a layout worse.
func TestALongerSearchIsNeverWorse(t *testing.T) {
	better := 0
	for seed := range uint64(24) {
		blanks, stock, opt := job(rand.New(rand.NewPCG(seed, 77)))
		opt.Seed = seed
		var before nest.Layout
		for i, effort := range []int{-1, 1, 3, 7, 12, 20, 40} {
			opt.Effort = effort
			l := nest.Solve(context.Background(), blanks, stock, opt)
			if i > 0 {
				if a, b := lack(blanks, opt.Gap, before), lack(blanks, opt.Gap, l); b > a+1e-6 {
					t.Errorf("seed %d, effort %d: %g mm² lack a place, with less effort %g", seed, effort, b, a)
				} else if b >= a-1e-6 && l.Use() > before.Use() {
					t.Errorf("seed %d, effort %d: the use is %.9g, with less effort %.9g", seed, effort, l.Use(), before.Use())
				} else if l.Use() < before.Use() {
					better++
				}
			}
			before = l
		}
	}
	if better < 10 {
		t.Errorf("more effort bettered only %d layouts", better)
	}
}
