package geom

import "slices"

// SignedArea returns the shoelace area of r in square units of its frame:
// positive when x turns towards y along it, which on a page with y down is
// clockwise as seen. Outer rings of an Area are positive, holes negative.
func (r Ring) SignedArea() float64 {
	if len(r) < 3 {
		return 0
	}
	sum := 0.0
	o := r[0] // measured from a point of the ring, so that little is lost far from the origin
	for i := 1; i+1 < len(r); i++ {
		sum += r[i].Sub(o).Cross(r[i+1].Sub(o))
	}
	return sum / 2
}

// Perimeter returns the length of r, closing edge included.
func (r Ring) Perimeter() float64 {
	if len(r) == 0 {
		return 0
	}
	return Path(r).Length() + r[len(r)-1].Dist(r[0])
}

// Reverse returns r run the other way round, from the same first point.
func (r Ring) Reverse() Ring {
	if len(r) == 0 {
		return nil
	}
	out := Ring(reversed(r))
	return append(out[len(out)-1:], out[:len(out)-1]...)
}

// Bounds returns the smallest box that holds r.
func (r Ring) Bounds() Box { return BoundsOf(r) }

// Contains reports whether r winds around p, in either sense (the non-zero
// rule). A point on the line itself may be told either way.
func (r Ring) Contains(p Pt) bool { return r.winding(p) != 0 }

// winding counts how often r runs around p, positive as its area is.
func (r Ring) winding(p Pt) int {
	n := 0
	if len(r) == 0 {
		return 0
	}
	a := r[len(r)-1]
	for _, b := range r {
		if (a.Y <= p.Y) != (b.Y <= p.Y) {
			side := b.Sub(a).Cross(p.Sub(a))
			switch {
			case a.Y <= p.Y && side > 0:
				n++
			case a.Y > p.Y && side < 0:
				n--
			}
		}
		a = b
	}
	return n
}

// Closed returns r as a path that ends where it begins.
func (r Ring) Closed() Path {
	if len(r) == 0 {
		return nil
	}
	return append(append(make(Path, 0, len(r)+1), r...), r[0])
}

func reversed(pts []Pt) []Pt {
	out := slices.Clone(pts)
	slices.Reverse(out)
	return out
}
