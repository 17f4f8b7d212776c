package geom

import (
	"math"
	"slices"
)

// Offset returns a grown by d all round with round corners, holes shrinking,
// or, for a negative d, a without what is nearer than −d to its edge. Growing
// never falls short of d, shrinking never leaves anything nearer the edge
// than −d; either may overdo it by BufferTol.
func Offset(a Area, d float64) Area { return offset(a, d, false) }

// offset is Offset; with inner it errs the other way: growing never reaches
// further than d, shrinking never takes more than −d.
func offset(a Area, d float64, inner bool) Area {
	if a.Empty() || math.IsNaN(d) || math.IsInf(d, 0) {
		return nil
	}
	if d == 0 {
		return slices.Clone(a)
	}
	g := gridFor(reachOf(a) + 2*math.Abs(d) + 1)
	o := newOffsetter(g, math.Abs(d), sagitta)
	if inner {
		o = newInner(g, math.Abs(d))
	}
	return o.grid.area(o.offset(walksOf(a), d < 0))
}

// walksOf returns the rings of a without points that coincide.
func walksOf(a Area) [][]Pt {
	var out [][]Pt
	for _, r := range a {
		if w := distinctRing(r); len(w) > 2 {
			out = append(out, w)
		}
	}
	return out
}

// offset resolves the raw curves of walks, outwards or inwards. Inwards is
// the same curve along the ring run backwards, counted negative: there the
// rings wind once inside and the parts to be taken away subtract.
func (o offsetter) offset(walks [][]Pt, inwards bool) []gridRing {
	l := newLoom()
	defer l.free()
	for _, w := range walks {
		if inwards {
			l.add(0, -1, o.curve(reversed(w)))
		} else {
			l.add(0, 1, o.curve(w))
		}
	}
	return l.resolve(positive)
}
