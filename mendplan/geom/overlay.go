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
	return g.area(resolve(ringStrands(nil, g.rings(rings), 0), keep))
}

func nonZero(w [2]int32) bool { return w[0] != 0 }

func positive(w [2]int32) bool { return w[0] > 0 }

// overlay resolves a and b together by keep.
func overlay(a, b Area, keep rule) Area {
	g := gridFor(reachOf(a, b))
	s := ringStrands(nil, g.rings(a), 0)
	return g.area(resolve(ringStrands(s, g.rings(b), 1), keep))
}

// rings snaps all rings of a.
func (g grid) rings(a Area) []gridRing {
	out := make([]gridRing, len(a))
	for i, r := range a {
		out[i] = g.ring(r)
	}
	return out
}

// ringStrands appends the edges of rings as the given input.
func ringStrands(s []strand, rings []gridRing, input int) []strand {
	n := 0
	for _, r := range rings {
		n += len(r)
	}
	s = slices.Grow(s, n)
	for _, r := range rings {
		s = addRing(s, r, input, 1)
	}
	return s
}

// resolve is the whole overlay: merge, node, wind, trace.
func resolve(s []strand, keep rule) []gridRing {
	turned := upright(s)
	s = mergeStrands(s)
	nodes, links := node(s)
	windings(nodes, links)
	rings := trace(nodes, links, keep)
	if turned {
		turnBack(rings)
	}
	return rings
}

// upright mirrors strands at the diagonal when they reach further in y than
// in x, for the sweep runs in x and is quick when little is abreast.
func upright(s []strand) bool {
	if len(s) == 0 {
		return false
	}
	lo, hi := s[0].a, s[0].a
	for i := range s {
		for _, p := range [2]gridPt{s[i].a, s[i].b} {
			lo.x, hi.x = min(lo.x, p.x), max(hi.x, p.x)
			lo.y, hi.y = min(lo.y, p.y), max(hi.y, p.y)
		}
	}
	if int64(hi.y)-int64(lo.y) <= int64(hi.x)-int64(lo.x) {
		return false
	}
	for i := range s {
		a, b := gridPt{s[i].a.y, s[i].a.x}, gridPt{s[i].b.y, s[i].b.x}
		// Mirroring turns every winding about; so does swapping the ends.
		if b.before(a) {
			s[i].a, s[i].b = b, a
		} else {
			s[i].a, s[i].b, s[i].d = a, b, [2]int32{-s[i].d[0], -s[i].d[1]}
		}
	}
	return true
}

// turnBack undoes upright in the rings of the answer.
func turnBack(rings []gridRing) {
	for _, r := range rings {
		slices.Reverse(r[1:])
		for i, p := range r {
			r[i] = gridPt{p.y, p.x}
		}
		low := 0
		for i := range r {
			if r[i].before(r[low]) {
				low = i
			}
		}
		turned := slices.Concat(r[low:], r[:low])
		copy(r, turned)
	}
	slices.SortFunc(rings, compareRings)
}
