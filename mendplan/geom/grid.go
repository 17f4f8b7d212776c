package geom

import (
	"math"
	"slices"
)

// Limit is the largest coordinate, in millimetres either way, that booleans
// and buffers take on the full grid: some 33 metres, more than any roll.
// Beyond it nothing overflows: the step of the grid is doubled until the
// shapes fit, and the answer is right to a few of those coarser steps.
const Limit = float64(maxGrid) * Grid

// maxGrid keeps every predicate in 64 bits: differences stay below 2²⁶ and
// their cross products below 2⁵⁴. Intersections need 80 bits, see mulDiv.
const maxGrid = 1<<25 - 1

// gridPt is a point counted in steps of the grid.
type gridPt struct{ x, y int32 }

// key packs p so that keys sort by x, then y.
func (p gridPt) key() uint64 {
	return uint64(uint32(p.x)^1<<31)<<32 | uint64(uint32(p.y)^1<<31)
}

// pointOf unpacks a key.
func pointOf(k uint64) gridPt {
	return gridPt{int32(uint32(k>>32) ^ 1<<31), int32(uint32(k) ^ 1<<31)}
}

// before reports whether p comes first by x, then y.
func (p gridPt) before(q gridPt) bool { return p.x < q.x || p.x == q.x && p.y < q.y }

// side returns twice the area of the triangle a, b, p, exactly: positive when
// p lies on the side of a–b that y turns to from x.
func side(a, b, p gridPt) int64 {
	return (int64(b.x)-int64(a.x))*(int64(p.y)-int64(a.y)) -
		(int64(b.y)-int64(a.y))*(int64(p.x)-int64(a.x))
}

// gridRing is a closed ring on the grid.
type gridRing []gridPt

// doubled returns twice the signed area of r in square steps, exactly.
func (r gridRing) doubled() int64 {
	sum := int64(0)
	for i := 1; i+1 < len(r); i++ {
		sum += side(r[0], r[i], r[i+1])
	}
	return sum
}

// tidied returns a copy of r that begins at its lowest point and leaves out
// points on straight edges.
func (r gridRing) tidied() gridRing {
	out := slices.Clone(r)
	out.rotateToLowest()
	kept := out[:1]
	for i := 1; i < len(out); i++ {
		if next := out[(i+1)%len(out)]; side(kept[len(kept)-1], out[i], next) != 0 {
			kept = append(kept, out[i])
		}
	}
	return kept
}

// rotateToLowest makes r begin at its first point by x, then y.
func (r gridRing) rotateToLowest() {
	low := 0
	for i := range r {
		if r[i].before(r[low]) {
			low = i
		}
	}
	slices.Reverse(r[:low])
	slices.Reverse(r[low:])
	slices.Reverse(r)
}

// grid converts between millimetres and steps; perMM is steps to a millimetre.
type grid struct{ perMM float64 }

// gridFor returns the grid for shapes that reach from the origin as far as
// the given number of millimetres.
func gridFor(reach float64) grid {
	g := grid{1 / Grid}
	for reach*g.perMM > maxGrid {
		g.perMM /= 2
	}
	return g
}

// snap returns the grid point nearest to p; halves go up, always.
func (g grid) snap(p Pt) gridPt {
	return gridPt{int32(math.Floor(p.X*g.perMM + 0.5)), int32(math.Floor(p.Y*g.perMM + 0.5))}
}

// mm returns p in millimetres.
func (g grid) mm(p gridPt) Pt { return Pt{float64(p.x) / g.perMM, float64(p.y) / g.perMM} }

// ring snaps r, leaving out points that are not finite.
func (g grid) ring(r []Pt) gridRing {
	out := make(gridRing, 0, len(r))
	for _, p := range r {
		if p.Finite() {
			out = append(out, g.snap(p))
		}
	}
	return out
}

// area converts rings back to millimetres.
func (g grid) area(rings []gridRing) Area {
	n := 0
	for _, r := range rings {
		n += len(r)
	}
	if n == 0 {
		return nil
	}
	out, all := make(Area, len(rings)), make([]Pt, 0, n)
	for i, r := range rings {
		from := len(all)
		for _, p := range r {
			all = append(all, g.mm(p))
		}
		out[i] = Ring(all[from:len(all):len(all)])
	}
	return out
}

// reach returns how far pts reach from the origin in x or y, those that are
// not finite left out.
func reach(pts []Pt) float64 {
	far := 0.0
	for _, p := range pts {
		if p.Finite() {
			far = max(far, math.Abs(p.X), math.Abs(p.Y))
		}
	}
	return far
}

// reachOf returns how far the rings of all areas reach from the origin.
func reachOf(areas ...Area) float64 {
	far := 0.0
	for _, a := range areas {
		for _, r := range a {
			far = max(far, reach(r))
		}
	}
	return far
}
