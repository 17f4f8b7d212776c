package geom

import "math"

var inf = math.Inf(1)

// nearestOn returns the point of the segment a–b nearest to p and its share t
// of the way from a to b.
func nearestOn(a, b, p Pt) (Pt, float64) {
	d := b.Sub(a)
	n := d.Dot(d)
	if n == 0 {
		return a, 0
	}
	t := min(1, max(0, p.Sub(a).Dot(d)/n))
	return a.Lerp(b, t), t
}

// squareTo returns the square of the distance from p to the segment a–b.
func squareTo(p, a, b Pt) float64 {
	q, _ := nearestOn(a, b, p)
	d := p.Sub(q)
	return d.Dot(d)
}

// DistToSegment returns the distance from p to the segment a–b.
func DistToSegment(p, a, b Pt) float64 {
	q, _ := nearestOn(a, b, p)
	return p.Dist(q)
}

// DistToPath returns the distance from p to l; infinite for an empty path.
func DistToPath(p Pt, l Path) float64 {
	if len(l) == 0 {
		return inf
	}
	best := squareTo(p, l[0], l[0])
	for i := 1; i < len(l); i++ {
		best = min(best, squareTo(p, l[i-1], l[i]))
	}
	return math.Sqrt(best)
}

// DistToRing returns the distance from p to the line of r, whether p lies
// within or without; infinite for an empty ring.
func DistToRing(p Pt, r Ring) float64 {
	if len(r) == 0 {
		return inf
	}
	return min(DistToPath(p, Path(r)), DistToSegment(p, r[len(r)-1], r[0]))
}

// DistToEdge returns the distance from p to the nearest boundary of a, holes
// included, whether p lies within or without; infinite for an empty area.
func DistToEdge(p Pt, a Area) float64 {
	best := inf
	for _, r := range a {
		best = min(best, DistToRing(p, r))
	}
	return best
}

// DistToArea returns the distance from p to a: 0 inside, infinite for an
// empty area.
func DistToArea(p Pt, a Area) float64 {
	if a.Contains(p) {
		return 0
	}
	return DistToEdge(p, a)
}
