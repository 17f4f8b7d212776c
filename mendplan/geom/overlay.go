package geom

import "slices"

// Union returns what lies in any of areas. Areas that overlap, touch, repeat
// or contain one another are all welcome; one whose bounds are clear of all
// others is passed on as it is.
func Union(areas ...Area) Area {
	var out Area
	for _, bunch := range bunches(areas) {
		if len(bunch) == 1 {
			out = append(out, bunch[0]...)
			continue
		}
		g := gridFor(reachOf(bunch...))
		groups := make([][]gridRing, len(bunch))
		for i, a := range bunch {
			groups[i] = g.rings(a)
		}
		out = append(out, g.area(unite(groups))...)
	}
	return out
}

// Intersect returns what lies in both a and b.
func Intersect(a, b Area) Area {
	if !a.Bounds().Overlaps(b.Bounds()) {
		return nil
	}
	return overlay(a, b, func(w [2]int32) bool { return w[0] != 0 && w[1] != 0 })
}

// Subtract returns what lies in a and not in b.
func Subtract(a, b Area) Area {
	if !a.Bounds().Overlaps(b.Bounds()) {
		return slices.Clone(a)
	}
	return overlay(a, b, func(w [2]int32) bool { return w[0] != 0 && w[1] == 0 })
}

// FromRing returns the area that r winds around, in either sense, by the
// non-zero rule. The ring may cross and retrace itself: it is what a hand
// drew. Points that are not finite are left out.
func FromRing(r Ring) Area { return FromRings([]Ring{r}, false) }

// FromRings returns the area of all rings together: by the non-zero rule, or,
// with evenOdd, whatever an odd number of them surrounds (so the sense in
// which they run does not matter and a ring within a ring is a hole).
func FromRings(rings []Ring, evenOdd bool) Area {
	keep := nonZero
	if evenOdd {
		keep = func(w [2]int32) bool { return w[0]&1 != 0 }
	}
	g := gridFor(reachOf(rings))
	l := newLoom()
	defer l.free()
	l.add(0, 1, g.rings(rings)...)
	return g.area(l.resolve(keep))
}

func nonZero(w [2]int32) bool { return w[0] != 0 }

func positive(w [2]int32) bool { return w[0] > 0 }

// overlay resolves a and b together by keep.
func overlay(a, b Area, keep rule) Area {
	g := gridFor(reachOf(a, b))
	l := newLoom()
	defer l.free()
	l.add(0, 1, g.rings(a)...)
	l.add(1, 1, g.rings(b)...)
	return g.area(l.resolve(keep))
}

// rings snaps all rings of a.
func (g grid) rings(a Area) []gridRing {
	out := make([]gridRing, len(a))
	for i, r := range a {
		out[i] = g.ring(r)
	}
	return out
}
