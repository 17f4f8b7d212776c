package geom

import (
	"cmp"
	"slices"
)

// Parts returns the connected parts of a, each an outer ring followed by its
// own holes, in the order of a's outer rings. Parts that touch at a point
// only are separate.
func Parts(a Area) []Area {
	var parts []Area
	var outers []Ring
	for _, r := range a {
		if r.SignedArea() > 0 {
			parts = append(parts, Area{r})
			outers = append(outers, r)
		}
	}
	for _, h := range a {
		if h.SignedArea() < 0 {
			if k := outerOf(h, outers); k >= 0 {
				parts[k] = append(parts[k], h)
			}
		}
	}
	return parts
}

// outerOf returns which of outers is the smallest around the hole h, or −1.
func outerOf(h Ring, outers []Ring) int {
	best, size := -1, inf
	for k, o := range outers {
		if s := o.SignedArea(); s < size && around(o, h) {
			best, size = k, s
		}
	}
	return best
}

// around reports whether o surrounds h, given that they do not cross. They
// may share points, so all points and middles of h have a vote.
func around(o, h Ring) bool {
	if b, c := o.Bounds(), h.Bounds(); !b.Contains(c.Min) || !b.Contains(c.Max) {
		return false
	}
	votes := 0
	prev := h[len(h)-1]
	for _, p := range h {
		for _, q := range [2]Pt{p, prev.Lerp(p, 0.5)} {
			if o.Contains(q) {
				votes++
			} else {
				votes--
			}
		}
		prev = p
	}
	return votes > 0
}

// Outer returns a with its holes filled.
func Outer(a Area) Area {
	var outers Area
	for _, r := range a {
		if r.SignedArea() > 0 {
			outers = append(outers, r)
		}
	}
	if len(outers) == len(a) {
		return outers
	}
	return FromRings(outers, false) // an island in a hole is swallowed
}

// Holes returns the holes of a as an area of their own, islands left out.
func Holes(a Area) Area { return Subtract(Outer(a), a) }

// Largest returns the part of a with the greatest area; nil for an empty one.
func Largest(a Area) Area {
	parts := Parts(a)
	if len(parts) == 0 {
		return nil
	}
	return slices.MaxFunc(parts, func(p, q Area) int { return cmp.Compare(p.Area(), q.Area()) })
}
