package check

import (
	"fmt"
	"sort"

	"leafmend/mendplan/nest"
)

// guillotine checks, from the places alone, that straight cuts from edge to
// edge can take the sheet apart without hurting a piece or a remnant to keep.
func guillotine(s *nest.Sheet) error {
	var r []box
	for _, p := range s.Places {
		r = append(r, box{p.X, p.Y, p.X + p.W, p.Y + p.H})
	}
	for _, m := range s.Remnants {
		if m.Keep {
			r = append(r, box{m.X, m.Y, m.X + m.W, m.Y + m.H})
		}
	}
	if stuck := split(r); len(stuck) > 0 {
		return fmt.Errorf("no straight cut takes apart the %d pieces around %.3f, %.3f", len(stuck), stuck[0].x0, stuck[0].y0)
	}
	return nil
}

type box struct{ x0, y0, x1, y1 float64 }

// split parts boxes wherever a line passes between them, again and again,
// and returns those it cannot part. Any line that hurts no box may be cut:
// it never spoils another cut.
func split(r []box) []box {
	if len(r) < 2 {
		return nil
	}
	for range 2 {
		sort.Slice(r, func(i, j int) bool { return r[i].x0 < r[j].x0 })
		reach, from := r[0].x1, 0
		for i := 1; i < len(r); i++ {
			if r[i].x0 >= reach-slack {
				if stuck := split(append([]box(nil), r[from:i]...)); stuck != nil {
					return stuck
				}
				from = i
			}
			reach = max(reach, r[i].x1)
		}
		if from > 0 {
			return split(append([]box(nil), r[from:]...))
		}
		turn(r)
	}
	return r
}

// turn swaps x and y.
func turn(r []box) {
	for i, b := range r {
		r[i] = box{b.y0, b.x0, b.y1, b.x1}
	}
}
