package nest_test

import (
	"context"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"runtime"
	"testing"

	"leafmend/mendplan/nest"
	"leafmend/mendplan/nest/check"
)

func TestSameSeedSameLayoutOnAnyNumberOfCores(t *testing.T) {
	for seed := range uint64(15) {
		blanks, stock, opt := job(rand.New(rand.NewPCG(seed, 21)))
		opt.Effort = 6
		a := nest.Solve(context.Background(), blanks, stock, opt)
		old := runtime.GOMAXPROCS(1)
		b := nest.Solve(context.Background(), blanks, stock, opt)
		runtime.GOMAXPROCS(old)
		if !reflect.DeepEqual(a, b) {
			t.Errorf("seed %d: two runs differ", seed)
		}
	}
}

func TestCancelledAtOnceStillPlacesAll(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	blanks := []nest.Blank{{ID: "strip", W: 20, H: 200, Count: 50}}
	stock := []nest.Stock{{ID: "sheet", W: 640, H: 970, Copies: -1, Margin: nest.All(10)}}
	l := nest.Solve(ctx, blanks, stock, nest.Options{Gap: 3, KeepW: 80, KeepH: 80})
	if n := len(l.Unplaced); n > 0 || len(l.Sheets) != 1 {
		t.Errorf("%d unplaced on %d sheets", n, len(l.Sheets))
	}
}

func TestRemnantsComeFirstWhenTheyWeighLess(t *testing.T) {
	blanks := []nest.Blank{{ID: "patch", W: 90, H: 90, Count: 2}}
	stock := []nest.Stock{
		{ID: "sheet", W: 200, H: 100, Copies: 1},
		{ID: "left", W: 210, H: 120, Copies: 1, Remnant: true},
	}
	if l := checked(t, blanks, stock, nest.Options{Effort: 5}); l.Sheets[0].Stock != "sheet" {
		t.Errorf("by area alone the sheet is smaller, but %s is used", l.Sheets[0].Stock)
	}
	l := checked(t, blanks, stock, nest.Options{Effort: 5, Weights: nest.Weights{RemnantsFirst: 0.5}})
	if len(l.Sheets) != 1 || l.Sheets[0].Stock != "left" {
		t.Errorf("the remnant is not used first: %s", l.Sheets[0].Stock)
	}
}

func TestARollIsCutOffNoLongerThanNeeded(t *testing.T) {
	blanks := []nest.Blank{{ID: "guard", W: 100, H: 300, Count: 8}}
	stock := []nest.Stock{{ID: "roll", W: 420, H: 10000, Copies: 1, Roll: true, Price: 10, Margin: nest.Margin{Left: 5, Right: 5}}}
	l := checked(t, blanks, stock, nest.Options{Gap: 2, Effort: 20})
	// four side by side, two rows and one gap
	if len(l.Sheets) != 1 || l.Sheets[0].H != 602 || math.Abs(l.Price-6.02) > 1e-9 {
		t.Errorf("cut off %g mm for %g, want 602 mm for 6.02", l.Sheets[0].H, l.Price)
	}
}

func TestWhatDoesNotFitIsNamedWithAReason(t *testing.T) {
	blanks := []nest.Blank{
		{ID: "long", W: 20, H: 300, Count: 1},
		{ID: "huge", W: 700, H: 700, Count: 2},
		{ID: "odd", W: math.NaN(), H: 3, Count: 1},
		{ID: "gampi", W: 5, H: 5, Count: 4, Group: "gampi"},
	}
	stock := []nest.Stock{{ID: "sheet", W: 640, H: 200, Copies: 1}, {ID: "none", W: -1, H: 4, Copies: 1}}
	l := checked(t, blanks, stock, nest.Options{Effort: 1})
	if len(l.Unplaced) != 4 || len(l.Notes) != 1 {
		t.Fatalf("unplaced %+v, notes %v", l.Unplaced, l.Notes)
	}
	for _, u := range l.Unplaced {
		if u.Reason == "" || u.Remedy == "" {
			t.Errorf("%s: reason %q, remedy %q", u.Blank, u.Reason, u.Remedy)
		}
	}
}

func TestSheetsCutAlikeAreOneRun(t *testing.T) {
	blanks := []nest.Blank{{ID: "half", W: 100, H: 50, Count: 10}}
	stock := []nest.Stock{{ID: "sheet", W: 100, H: 100, Copies: -1}}
	l := checked(t, blanks, stock, nest.Options{Effort: 1})
	if r := l.Runs(); len(l.Sheets) != 5 || len(r) != 1 || len(r[0].All) != 5 {
		t.Errorf("%d sheets in runs %+v", len(l.Sheets), r)
	}
	if !l.Proven || l.Yield() != 1 {
		t.Errorf("full sheets: proven %v, yield %g", l.Proven, l.Yield())
	}
}

func TestEqualStripsMayBeCutInOneGo(t *testing.T) {
	blanks := []nest.Blank{{ID: "strip", W: 30, H: 100, Count: 20}}
	stock := []nest.Stock{{ID: "sheet", W: 120, H: 500, Copies: 1}}
	l := checked(t, blanks, stock, nest.Options{Effort: -1})
	alone := 0
	for _, c := range l.Sheets[0].Cuts {
		if c.With == 0 {
			alone++
			continue
		}
		o := l.Sheets[0].Cuts[c.With-1]
		if o.At != c.At || o.Upright != c.Upright || o.With != 0 {
			t.Errorf("step %d is said to equal step %d: %+v, %+v", c.Step, c.With, c, o)
		}
	}
	if alone != 3+4 { // three cuts into columns, four of the stack of columns
		t.Errorf("%d strokes for 20 strips, want 7", alone)
	}
}

func TestOffcutsGoBackToStock(t *testing.T) {
	blanks := []nest.Blank{{ID: "strip", W: 30, H: 900, Count: 4}}
	stock := []nest.Stock{{ID: "sheet", W: 640, H: 970, Copies: 2, Margin: nest.All(10), Price: 8}}
	opt := nest.Options{Gap: 3, KeepW: 80, KeepH: 80, KeepArea: 20000, Effort: 10}
	l := checked(t, blanks, stock, opt)
	off := l.Sheets[0].Offcuts()
	if len(off) == 0 || off[0].W*off[0].H != l.Kept || !off[0].Remnant {
		t.Fatalf("offcuts %+v, kept %g", off, l.Kept)
	}
	again := checked(t, blanks, append(off, stock...), opt)
	if len(again.Sheets) != 1 || again.Sheets[0].Stock != off[0].ID {
		t.Errorf("the offcut is not used: %s", again.Sheets[0].Stock)
	}
}

// FuzzSolve feeds the solver any numbers at all.
func FuzzSolve(f *testing.F) {
	f.Add([]byte("some strips and a sheet or two of thin paper"), 3.0, 10.0)
	f.Add([]byte{0, 1, 2, 3, 255, 254, 253, 9, 8, 7, 6, 5, 4}, 0.0, -1.0)
	f.Fuzz(func(t *testing.T, data []byte, gap, margin float64) {
		var blanks []nest.Blank
		var stock []nest.Stock
		num := func(i int) float64 {
			var b [8]byte
			copy(b[:], data[min(i, len(data)):])
			if v := binary.LittleEndian.Uint64(b[:]); v%5 == 0 {
				return math.Float64frombits(v)
			}
			return float64(b[0]) + float64(b[1])/4
		}
		for i := 0; i < len(data) && i < 60; i += 3 {
			id := fmt.Sprint(data[i] % 20)
			if data[i]%4 == 0 {
				stock = append(stock, nest.Stock{ID: id, W: 2 * num(i), H: 2 * num(i+1), Copies: int(data[i]) - 9, Roll: data[i]%3 == 0, Margin: nest.All(margin), Opened: int(data[i] % 3)})
				continue
			}
			b := nest.Blank{ID: id, W: num(i), H: num(i + 1), Count: int(data[i]%7) - 1, Turn: nest.Turn(data[i] % 2)}
			if data[i]%9 == 0 {
				b.Pins = []nest.Pin{{Index: int(data[i] % 3), Stock: fmt.Sprint(data[i] % 5 * 4), Copy: int(data[i]%4) - 1, X: num(i + 2), Y: num(i + 3)}}
			}
			blanks = append(blanks, b)
		}
		l := nest.Solve(context.Background(), blanks, stock, nest.Options{Gap: gap, Effort: 1, KeepW: 10})
		n := 0
		for _, b := range blanks {
			n += max(0, b.Count)
		}
		for _, s := range l.Sheets {
			n -= len(s.Places)
		}
		for _, u := range l.Unplaced {
			n -= u.Count
		}
		if n != 0 {
			t.Fatalf("%d blanks are lost", n)
		}
		if len(l.Notes) > 0 || len(l.Unplaced) > 0 {
			return // bad input may state what no layout can hold
		}
		if err := check.Layout(blanks, stock, nest.Options{Gap: gap}, l); err != nil {
			t.Fatal(err)
		}
	})
}
