package geom

import "math"

// A path is buffered in stretches of this many segments and the parts united,
// which is quicker where it is dense; of the smaller number where segments are
// short against the distance, so that many parts lie over one another.
const (
	stretchLong  = 64
	stretchDense = 24
)

// Buffer returns all places nearer than r to any of paths, with round joins
// and caps. It never falls short of the true buffer and exceeds it by at most
// BufferTol, so it can be trusted as a margin. Paths may cross and retrace
// themselves; a path of one point gives a disc, an r of zero or less nothing.
// Discs and holes of less than 0.001 mm² are slivers to the grid: an r below
// 0.02 mm may give nothing, and a pinhole that small is filled.
func Buffer(r float64, paths ...Path) Area {
	if !(r > 0) || math.IsInf(r, 0) {
		return nil
	}
	far := 0.0
	for _, l := range paths {
		far = max(far, reach(l))
	}
	return buffer(newOffsetter(gridFor(far+2*r+1), r, sagitta), paths)
}

// BufferWithin is Buffer with far fewer points: it contains every place
// nearer than r to any of paths and none further than r+tol, where Buffer
// keeps to r+BufferTol. A tol of less than 4·BufferTol gives Buffer itself.
func BufferWithin(r, tol float64, paths ...Path) Area {
	if !(r > 0) || math.IsInf(r, 0) || !(tol >= 4*BufferTol) || math.IsInf(tol, 0) {
		return Buffer(r, paths...)
	}
	// The line may be thinned by as much as the distance grows; thinned and
	// true line lie that near each other both ways, so it counts twice.
	thin := tol / 4
	far := 0.0
	short := make([]Path, len(paths))
	for i, l := range paths {
		short[i] = Simplify(Path(distinct(l)), thin)
		far = max(far, reach(l))
	}
	o := newOffsetter(gridFor(far+2*(r+tol)+1), r+thin, tol-2*thin-(BufferTol-sagitta))
	return buffer(o, short)
}

// buffer unites the buffers of all paths.
func buffer(o offsetter, paths []Path) Area {
	var groups [][]gridRing
	for _, l := range paths {
		groups = append(groups, o.path(distinct(l))...)
	}
	return o.grid.area(unite(groups))
}

// path returns the buffers of the stretches of l.
func (o offsetter) path(l []Pt) [][]gridRing {
	switch len(l) {
	case 0:
		return nil
	case 1:
		disc := o.arc(nil, l[0], Pt{1, 0}, 2*math.Pi)
		return [][]gridRing{{disc}}
	}
	size := stretchLong
	if Path(l).Length() < o.r/8*float64(len(l)-1) {
		size = stretchDense
	}
	stretches := (len(l) - 1 + size - 1) / size
	var out [][]gridRing
	for i := range stretches {
		from, to := i*(len(l)-1)/stretches, (i+1)*(len(l)-1)/stretches
		raw := o.curve(there(l[from : to+1]))
		out = append(out, resolveAll([][]gridRing{{raw}}))
	}
	return out
}

// there returns the closed walk along l and back.
func there(l []Pt) []Pt {
	walk := make([]Pt, 0, 2*len(l))
	walk = append(walk, l...)
	for i := len(l) - 2; i > 0; i-- {
		walk = append(walk, l[i])
	}
	return walk
}
