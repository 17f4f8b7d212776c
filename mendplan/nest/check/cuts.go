package check

import (
	"fmt"
	"math"

	"leafmend/mendplan/nest"
)

// bench is the table where the sheet is cut, step by step.
type bench struct {
	s      *nest.Sheet
	parts  map[int]box
	places map[int]bool
	left   map[int]bool
	area   float64 // of pieces, remnants and waste so far
}

// cuts carries out the listed cuts on a sheet of paper and checks that each
// piece and remnant comes free with its own edges, and nothing is lost.
func cuts(s *nest.Sheet) error {
	b := &bench{s: s, parts: map[int]box{0: {0, 0, s.W, s.H}}, places: map[int]bool{}, left: map[int]bool{}}
	for i, c := range s.Cuts {
		if c.Step != i+1 {
			return fmt.Errorf("step %d is numbered %d", i+1, c.Step)
		}
		if err := b.cut(c); err != nil {
			return fmt.Errorf("step %d: %w", c.Step, err)
		}
	}
	if len(s.Cuts) == 0 { // the sheet is all of one piece
		if err := b.name(wholeSheet(s), b.parts[0]); err != nil {
			return err
		}
		delete(b.parts, 0)
	}
	if len(b.parts) > 0 {
		return fmt.Errorf("%d parts are never cut to the end", len(b.parts))
	}
	if len(b.places) != len(s.Places) || len(b.left) != len(s.Remnants) {
		return fmt.Errorf("%d of %d pieces and %d of %d remnants come free", len(b.places), len(s.Places), len(b.left), len(s.Remnants))
	}
	if d := b.area - s.W*s.H; math.Abs(d) > slack*(s.W+s.H)*float64(1+len(s.Cuts)) {
		return fmt.Errorf("pieces, remnants and waste make %.3f mm² more than the sheet", d)
	}
	return nil
}

// wholeSheet names what a sheet without cuts is.
func wholeSheet(s *nest.Sheet) nest.Part {
	if len(s.Places) == 1 {
		return nest.Part{Place: 0, Left: -1}
	}
	return nest.Part{Place: -1, Left: 0}
}

// cut makes one cut.
func (b *bench) cut(c nest.Cut) error {
	p, ok := b.parts[c.Part]
	if !ok {
		return fmt.Errorf("part %d is not on the table", c.Part)
	}
	delete(b.parts, c.Part)
	if c.Upright {
		p = box{p.y0, p.x0, p.y1, p.x1}
	}
	line := p.y0 + c.At
	if c.At <= 0 || c.Band < 0 || line > p.y1+slack || line+c.Band > p.y1+slack {
		return fmt.Errorf("the ruler at %g, band %g, misses the part of %g", c.At, c.Band, p.y1-p.y0)
	}
	nearBox, farBox := box{p.x0, p.y0, p.x1, line}, box{p.x0, line + c.Band, p.x1, p.y1}
	drawn := box{c.X1, c.Y1, c.X2, c.Y2}
	want := box{p.x0, line, p.x1, line}
	if c.Upright {
		nearBox, farBox, want = flip(nearBox), flip(farBox), flip(want)
	}
	if !same(drawn, want) {
		return fmt.Errorf("the line drawn at %v is not where the ruler lies, %v", drawn, want)
	}
	b.area += c.Band * (p.x1 - p.x0)
	if err := b.name(c.Near, nearBox); err != nil {
		return err
	}
	return b.name(c.Far, farBox)
}

func flip(b box) box { return box{b.y0, b.x0, b.y1, b.x1} }

func same(a, b box) bool {
	return near(a.x0, b.x0) && near(a.y0, b.y0) && near(a.x1, b.x1) && near(a.y1, b.y1)
}

// name takes a part off the cut, as what the list says it is.
func (b *bench) name(p nest.Part, at box) error {
	area := (at.x1 - at.x0) * (at.y1 - at.y0)
	switch {
	case p.Number > 0:
		if _, there := b.parts[p.Number]; there {
			return fmt.Errorf("part %d is there already", p.Number)
		}
		b.parts[p.Number] = at
		return nil
	case p.Place >= 0:
		if p.Place >= len(b.s.Places) || b.places[p.Place] {
			return fmt.Errorf("piece %d comes free twice or is none", p.Place)
		}
		q := b.s.Places[p.Place]
		if !same(at, box{q.X, q.Y, q.X + q.W, q.Y + q.H}) {
			return fmt.Errorf("%s comes out as %v, not at its place", q.Blank, at)
		}
		b.places[p.Place] = true
	case p.Left >= 0:
		if p.Left >= len(b.s.Remnants) || b.left[p.Left] {
			return fmt.Errorf("remnant %d comes free twice or is none", p.Left)
		}
		q := b.s.Remnants[p.Left]
		if !same(at, box{q.X, q.Y, q.X + q.W, q.Y + q.H}) {
			return fmt.Errorf("remnant %d comes out as %v, not at its place", p.Left, at)
		}
		b.left[p.Left] = true
	}
	b.area += area
	return nil
}
