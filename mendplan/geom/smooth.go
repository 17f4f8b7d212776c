package geom

// SimplifyOut returns an area with fewer points that contains a and reaches
// no further than tol beyond it: a is grown a little, and its outline thinned
// by less than it was grown. Where that saves nothing a itself is returned.
func SimplifyOut(a Area, tol float64) Area {
	if a.Empty() || !(tol > 4*BufferTol) {
		return a
	}
	grow := 0.45 * tol
	thinTol := 0.44 * tol // under grow: see above; together with BufferTol under tol
	grown := offset(a, grow-slack, false)
	rings := make([]Ring, 0, len(grown))
	for _, r := range grown {
		rings = append(rings, SimplifyRing(r, thinTol))
	}
	g := gridFor(reachOf(rings))
	out := g.area(resolveAll([][]gridRing{g.rings(rings)}))
	if points(out) >= points(a) {
		return a
	}
	return out
}

func points(a Area) int {
	n := 0
	for _, r := range a {
		n += len(r)
	}
	return n
}

// SmoothOut returns a made fit for a hand to tear or cut with tools no finer
// than radius: notches, slits and holes into which a disc of that radius
// does not go are filled, and spikes that stand out further than radius from
// where such a disc fits are thickened to its width. Nothing of a is lost,
// and nothing is added further than 2·radius from a.
func SmoothOut(a Area, radius float64) Area {
	if a.Empty() || !(radius > BufferTol) {
		return a
	}
	filled := closing(a, radius)
	// What a disc can reach from inside, and all within radius of that, may
	// stay as it is: such is every corner down to 60°.
	open := offset(offset(filled, -radius, true), 2*radius, false)
	spikes := Subtract(filled, open)
	if spikes.Empty() {
		return filled
	}
	return closing(Union(filled, offset(spikes, radius, true)), radius)
}

// closing fills what a disc of the given radius cannot reach from outside.
// Growing errs to more and shrinking to less, so that a is never bitten.
func closing(a Area, radius float64) Area {
	return offset(offset(a, radius, false), -radius, true)
}
