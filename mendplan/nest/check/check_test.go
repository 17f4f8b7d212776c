package check_test

import (
	"context"
	"strings"
	"testing"

	"leafmend/mendplan/nest"
	"leafmend/mendplan/nest/check"
)

// TestTheCheckerFindsFaults spoils a good layout in one way after another.
func TestTheCheckerFindsFaults(t *testing.T) {
	blanks := []nest.Blank{{ID: "a", W: 30, H: 80, Count: 6}, {ID: "b", W: 50, H: 20, Count: 3, Turn: nest.Free}}
	stock := []nest.Stock{{ID: "s", W: 200, H: 200, Copies: 2, Margin: nest.All(5)}}
	opt := nest.Options{Gap: 2, KeepW: 20, KeepH: 20, Effort: -1}
	good := func() nest.Layout { return nest.Solve(context.Background(), blanks, stock, opt) }
	if err := check.Layout(blanks, stock, opt, good()); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		say   string
		spoil func(l *nest.Layout)
		word  string
	}{
		{"a blank too near another", func(l *nest.Layout) { l.Sheets[0].Places[1].X = l.Sheets[0].Places[0].X }, "apart"},
		{"a blank in the margin", func(l *nest.Layout) { l.Sheets[0].Places[0].X = 1 }, "margin"},
		{"a lost blank", func(l *nest.Layout) { l.Sheets[0].Places = l.Sheets[0].Places[1:] }, "accounted"},
		{"a blank turned against the grain", func(l *nest.Layout) {
			for i := range l.Sheets[0].Places {
				if p := &l.Sheets[0].Places[i]; p.Blank == "a" {
					p.Turned = !p.Turned
				}
			}
		}, "grain"},
		{"a cut left out", func(l *nest.Layout) { l.Sheets[0].Cuts = l.Sheets[0].Cuts[:len(l.Sheets[0].Cuts)-1] }, "never cut"},
		{"a ruler laid wrong", func(l *nest.Layout) { l.Sheets[0].Cuts[0].At++ }, "line drawn"},
		{"an area misstated", func(l *nest.Layout) { l.Opened *= 2 }, "area opened"},
		{"a copy that is not there", func(l *nest.Layout) { l.Sheets[0].Copy = 7 }, "no copy"},
	} {
		l := good()
		c.spoil(&l)
		if err := check.Layout(blanks, stock, opt, l); err == nil || !strings.Contains(err.Error(), c.word) {
			t.Errorf("%s: the checker says %v", c.say, err)
		}
	}
}

// The pinwheel: five pieces that no straight cut from edge to edge parts.
func TestThePinwheelIsNoGuillotineLayout(t *testing.T) {
	places := []nest.Place{
		{Blank: "h", X: 0, Y: 0, W: 20, H: 10}, {Blank: "v", Index: 0, X: 20, Y: 0, W: 10, H: 20},
		{Blank: "h", Index: 1, X: 10, Y: 20, W: 20, H: 10}, {Blank: "v", Index: 1, X: 0, Y: 10, W: 10, H: 20},
		{Blank: "c", X: 10, Y: 10, W: 10, H: 10},
	}
	blanks := []nest.Blank{{ID: "h", W: 20, H: 10, Count: 2}, {ID: "v", W: 10, H: 20, Count: 2}, {ID: "c", W: 10, H: 10, Count: 1}}
	stock := []nest.Stock{{ID: "s", W: 30, H: 30, Copies: 1}}
	l := nest.Layout{Sheets: []nest.Sheet{{Stock: "s", W: 30, H: 30, Places: places}}, Opened: 900, Placed: 900}
	err := check.Layout(blanks, stock, nest.Options{}, l)
	if err == nil || !strings.Contains(err.Error(), "no straight cut takes apart the 5 pieces") {
		t.Errorf("the checker says %v", err)
	}
	if s := nest.Solve(context.Background(), blanks, stock, nest.Options{Effort: 5}); len(s.Unplaced) == 0 {
		t.Errorf("the solver claims to cut a pinwheel")
	}
}
