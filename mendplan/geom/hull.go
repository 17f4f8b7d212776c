package geom

import (
	"cmp"
	"slices"
)

// Hull returns the convex hull of pts, of positive area and without points
// inside its edges, beginning at the point of least x (then y). Points on one
// line give the two ends of it, a single point itself.
func Hull(pts []Pt) Ring {
	sorted := slices.Clone(pts)
	slices.SortFunc(sorted, func(p, q Pt) int {
		return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y))
	})
	sorted = slices.Compact(sorted)
	if len(sorted) < 3 {
		return Ring(sorted)
	}
	hull := make(Ring, 0, len(sorted)+1)
	for _, p := range sorted {
		hull = hullPush(hull, p, 1)
	}
	low := len(hull)
	for i := len(sorted) - 2; i >= 0; i-- {
		hull = hullPush(hull, sorted[i], low)
	}
	return hull[:len(hull)-1]
}

// hullPush adds p to the chain after taking off what p makes needless, down
// to the first keep points.
func hullPush(chain Ring, p Pt, keep int) Ring {
	for n := len(chain); n > keep; n = len(chain) {
		if chain[n-1].Sub(chain[n-2]).Cross(p.Sub(chain[n-2])) > 0 {
			break
		}
		chain = chain[:n-1]
	}
	return append(chain, p)
}
