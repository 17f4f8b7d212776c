package nest_test

import (
	"context"
	"fmt"
	"testing"

	"leafmend/mendplan/nest"
)

// Forty thousand blanks go the short way; none may be lost on it.
func TestVeryManyBlanksAreAllLaidOrNamed(t *testing.T) {
	var blanks []nest.Blank
	for i := range 400 {
		blanks = append(blanks, nest.Blank{ID: fmt.Sprint(i), W: float64(8 + i*37%61), H: float64(20 + i*53%283), Count: 100})
	}
	stock := []nest.Stock{{ID: "sheet", W: 640, H: 970, Copies: 300, Margin: nest.All(10)}, {ID: "left", W: 200, H: 300, Copies: 40, Remnant: true}}
	l := nest.Solve(context.Background(), blanks, stock, nest.Options{Gap: 4, Effort: -1})
	n := 0
	for _, s := range l.Sheets {
		n += len(s.Places)
	}
	for _, u := range l.Unplaced {
		n += u.Count
	}
	if n != 40000 || len(l.Sheets) < 300 {
		t.Errorf("%d of 40000 blanks are laid or named, on %d sheets", n, len(l.Sheets))
	}
}
