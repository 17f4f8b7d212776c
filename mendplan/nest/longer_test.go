package nest_test

import (
	"context"
	"fmt"
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

// A law, compared exactly: stock that is added never makes a layout worse, be
// it more of the same, other sheets, or a roll.
func TestAddingStockNeverMakesItWorse(t *testing.T) {
	helped, alone := 0, 0
	for seed := range uint64(80) {
		r := rand.New(rand.NewPCG(seed, 31))
		blanks, stock, opt := job(r)
		opt.KeepW, opt.KeepH, opt.KeepArea = 80, 80, 20000
		before := checked(t, blanks, stock, opt)
		more := append([]nest.Stock(nil), stock...)
		for i := range more {
			if more[i].Copies >= 0 {
				more[i].Copies += r.IntN(3)
			}
		}
		for i := range r.IntN(3) {
			more = append(more, nest.Stock{ID: fmt.Sprint("new", i), Group: stock[0].Group, W: 60 + float64(r.IntN(400)), H: 60 + float64(r.IntN(600)),
				Copies: 1 + r.IntN(3), Roll: r.IntN(4) == 0})
		}
		plain := nest.Solve(context.Background(), blanks, more, opt)
		opt.Before = []nest.Layout{before}
		after := checked(t, blanks, more, opt)
		a, b := lack(blanks, opt.Gap, before), lack(blanks, opt.Gap, after)
		if b > a || b == a && after.Use() > before.Use() {
			t.Errorf("seed %d: %g mm² lacked a place and the use was %.9g; with more stock %g and %.9g", seed, a, before.Use(), b, after.Use())
		}
		if p := lack(blanks, opt.Gap, plain); p > a || p == a && plain.Use() > before.Use() {
			alone++ // without the law it would have been worse
		}
		if b < a || after.Use() < before.Use() {
			helped++
		}
	}
	if helped < 10 {
		t.Errorf("more stock helped only %d jobs", helped)
	}
	t.Logf("of 80 jobs more stock helped %d; %d would be worse if the layout before were not known", helped, alone)
}
