package nest_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/nest"
	"leafmend/mendplan/nest/check"
)

// checked solves and fails the test on any fault of the layout.
func checked(t testing.TB, blanks []nest.Blank, stock []nest.Stock, opt nest.Options) nest.Layout {
	t.Helper()
	l := nest.Solve(context.Background(), blanks, stock, opt)
	if err := check.Layout(blanks, stock, opt, l); err != nil {
		t.Fatalf("%d blanks on %d stock items, gap %g: %v", len(blanks), len(stock), opt.Gap, err)
	}
	return l
}

// Closed form: the number of whole strips along times across.
func TestEqualStripsFromOneSheet(t *testing.T) {
	for _, c := range []struct {
		say        string
		w, h       float64
		sheetW     float64
		sheetH     float64
		turn       nest.Turn
		ask, place int
	}{
		{"strips of 80 mm along the long side: 11 × 52", 12, 80, 635, 939.8, nest.Fixed, 600, 572},
		{"strips of 80 mm along the short side: 7 × 78", 12, 80, 939.8, 635, nest.Fixed, 600, 546},
		{"guards of 300 mm along the long side: 3 × 31", 20, 300, 635, 939.8, nest.Fixed, 100, 93},
		{"guards of 300 mm along the short side: 2 × 46", 20, 300, 939.8, 635, nest.Fixed, 100, 92},
	} {
		b := []nest.Blank{{ID: "strip", W: c.w, H: c.h, Count: c.ask, Turn: c.turn}}
		s := []nest.Stock{{ID: "sheet", W: c.sheetW, H: c.sheetH, Copies: 1}}
		l := checked(t, b, s, nest.Options{Effort: -1})
		if got := len(l.Sheets[0].Places); got != c.place {
			t.Errorf("%s: %d placed, want %d", c.say, got, c.place)
		}
		if len(l.Unplaced) != 1 || l.Unplaced[0].Count != c.ask-c.place {
			t.Errorf("%s: unplaced %+v", c.say, l.Unplaced)
		}
	}
}

// job makes a random problem, awkward on purpose.
func job(r *rand.Rand) ([]nest.Blank, []nest.Stock, nest.Options) {
	var blanks []nest.Blank
	groups := []string{"kozo", "gampi"}[:1+r.IntN(2)]
	for i := range 1 + r.IntN(25) {
		b := nest.Blank{ID: fmt.Sprintf("b%d", i), W: 1 + float64(r.IntN(900))/4, H: 1 + float64(r.IntN(900))/4,
			Count: r.IntN(4), Turn: nest.Turn(r.IntN(2)), Group: groups[r.IntN(len(groups))]}
		blanks = append(blanks, b)
	}
	var stock []nest.Stock
	for i := range 1 + r.IntN(4) {
		s := nest.Stock{ID: fmt.Sprintf("s%d", i), W: 100 + float64(r.IntN(500)), H: 100 + float64(r.IntN(900)),
			Copies: r.IntN(5) - 1, Group: groups[r.IntN(len(groups))], Roll: r.IntN(5) == 0, Remnant: r.IntN(3) == 0}
		if r.IntN(2) == 0 {
			s.Margin = nest.Margin{Left: float64(r.IntN(20)), Right: float64(r.IntN(20)), Top: float64(r.IntN(20)), Bottom: float64(r.IntN(20))}
		}
		stock = append(stock, s)
	}
	opt := nest.Options{Gap: float64(r.IntN(3)) * 1.5, Seed: r.Uint64(), Effort: 1 + r.IntN(5)}
	if r.IntN(2) == 0 {
		opt.KeepW, opt.KeepH, opt.KeepArea = 80, 80, 20000
	}
	return blanks, stock, opt
}

func TestEveryLayoutStandsUpToTheChecker(t *testing.T) {
	for seed := range uint64(100) {
		blanks, stock, opt := job(rand.New(rand.NewPCG(seed, 5)))
		checked(t, blanks, stock, opt)
	}
}

func TestPinnedAndCutPiecesStayWhereTheyAre(t *testing.T) {
	pinned := 0
	for seed := range uint64(60) {
		r := rand.New(rand.NewPCG(seed, 8))
		blanks, stock, opt := job(r)
		l := checked(t, blanks, stock, opt)
		for _, s := range l.Sheets {
			for _, p := range s.Places {
				if r.IntN(3) > 0 {
					continue
				}
				for i := range blanks {
					if blanks[i].ID == p.Blank {
						blanks[i].Pins = append(blanks[i].Pins, nest.Pin{Index: p.Index, Stock: s.Stock, Copy: s.Copy,
							X: p.X, Y: p.Y, Turned: p.Turned, Cut: r.IntN(2) == 0})
					}
				}
			}
		}
		for i := range stock {
			stock[i].Opened = r.IntN(2)
		}
		again := checked(t, blanks, stock, opt)
		for _, n := range again.Notes {
			t.Errorf("seed %d: %s", seed, n)
		}
		for _, s := range again.Sheets {
			for _, p := range s.Places {
				if p.Pinned {
					pinned++
				}
			}
		}
	}
	if pinned < 100 {
		t.Errorf("only %d pieces were pinned", pinned)
	}
}
