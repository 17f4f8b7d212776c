package geom

// Area returns the size of a in square units of its frame: outer rings count
// positive, holes negative.
func (a Area) Area() float64 {
	sum := 0.0
	for _, r := range a {
		sum += r.SignedArea()
	}
	return sum
}

// Perimeter returns the length of all rings of a, holes included.
func (a Area) Perimeter() float64 {
	sum := 0.0
	for _, r := range a {
		sum += r.Perimeter()
	}
	return sum
}

// Bounds returns the smallest box that holds a.
func (a Area) Bounds() Box {
	b := EmptyBox()
	for _, r := range a {
		b = b.Union(r.Bounds())
	}
	return b
}

// Contains reports whether p lies in a by the non-zero rule. A point exactly
// on the boundary may be told either way.
func (a Area) Contains(p Pt) bool {
	n := 0
	for _, r := range a {
		n += r.winding(p)
	}
	return n != 0
}

// Empty reports whether a holds nothing.
func (a Area) Empty() bool { return len(a) == 0 }

// Rings returns the rings of a: outers positive, holes negative. The slice is
// a's own and is not to be changed.
func (a Area) Rings() []Ring { return a }

// Points returns all vertices of a, ring after ring.
func (a Area) Points() []Pt {
	n := 0
	for _, r := range a {
		n += len(r)
	}
	out := make([]Pt, 0, n)
	for _, r := range a {
		out = append(out, r...)
	}
	return out
}
