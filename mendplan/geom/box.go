package geom

import "math"

// Box is an upright rectangle from Min to Max, both included. A box that
// holds nothing has Min beyond Max; EmptyBox is the usual one. The zero Box
// is the single point (0,0).
type Box struct{ Min, Max Pt }

// EmptyBox returns the box that holds nothing and adds nothing to a union.
func EmptyBox() Box {
	inf := math.Inf(1)
	return Box{Pt{inf, inf}, Pt{-inf, -inf}}
}

// BoundsOf returns the smallest box that holds all of pts; empty for none.
func BoundsOf(pts []Pt) Box {
	b := EmptyBox()
	for _, p := range pts {
		b.Min.X, b.Max.X = min(b.Min.X, p.X), max(b.Max.X, p.X)
		b.Min.Y, b.Max.Y = min(b.Min.Y, p.Y), max(b.Max.Y, p.Y)
	}
	return b
}

// Empty reports whether b holds no point at all.
func (b Box) Empty() bool { return !(b.Min.X <= b.Max.X && b.Min.Y <= b.Max.Y) }

// Width returns the extent in x, 0 for an empty box.
func (b Box) Width() float64 { return max(0, b.Max.X-b.Min.X) }

// Height returns the extent in y, 0 for an empty box.
func (b Box) Height() float64 { return max(0, b.Max.Y-b.Min.Y) }

// Centre returns the middle of b; not finite for an empty box.
func (b Box) Centre() Pt { return b.Min.Lerp(b.Max, 0.5) }

// Expand returns b grown by d on all four sides; a negative d shrinks it,
// possibly to nothing. An empty box stays empty.
func (b Box) Expand(d float64) Box {
	if b.Empty() {
		return b
	}
	return Box{Pt{b.Min.X - d, b.Min.Y - d}, Pt{b.Max.X + d, b.Max.Y + d}}
}

// Union returns the smallest box that holds both.
func (b Box) Union(c Box) Box {
	if b.Empty() {
		return c
	}
	if c.Empty() {
		return b
	}
	return Box{
		Pt{min(b.Min.X, c.Min.X), min(b.Min.Y, c.Min.Y)},
		Pt{max(b.Max.X, c.Max.X), max(b.Max.Y, c.Max.Y)},
	}
}

// Overlaps reports whether b and c have a point in common, be it on an edge.
func (b Box) Overlaps(c Box) bool {
	return b.Min.X <= c.Max.X && c.Min.X <= b.Max.X &&
		b.Min.Y <= c.Max.Y && c.Min.Y <= b.Max.Y && !b.Empty() && !c.Empty()
}

// Contains reports whether p lies in b or on its edge.
func (b Box) Contains(p Pt) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}

// Ring returns the four corners of b, of positive area.
func (b Box) Ring() Ring {
	return Ring{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}
}
