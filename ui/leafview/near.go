package leafview

import (
	"math"

	"leafmend/mendplan/geom"
)

// spot is a place on one of a shape's lines. Path 0 is Shape.Points, path i
// the fork i−1. Seg is the stretch it lies on, from point Seg to the next; T
// is how far along, 0…1.
type spot struct {
	path, seg int
	t         float64
	at        geom.Pt
	dist      float64 // from what was asked about
}

// nearestOn returns the place on a line nearest to p. A line of one point is
// that point; of none, ok is false.
func nearestOn(pts []geom.Pt, closed bool, p geom.Pt) (spot, bool) {
	best := spot{dist: math.Inf(1)}
	for i := range segments(pts, closed) {
		a, b := pts[i], pts[(i+1)%len(pts)]
		q, t := nearestOnSegment(a, b, p)
		if d := q.Dist(p); d < best.dist {
			best = spot{seg: i, t: t, at: q, dist: d}
		}
	}
	if len(pts) == 1 {
		best = spot{at: pts[0], dist: pts[0].Dist(p)}
	}
	return best, len(pts) > 0
}

// segments returns how many stretches a line has.
func segments(pts []geom.Pt, closed bool) int {
	switch {
	case len(pts) < 2:
		return 0
	case closed:
		return len(pts)
	}
	return len(pts) - 1
}

// nearestOnSegment returns the point of the segment a–b nearest to p and its
// share of the way.
func nearestOnSegment(a, b, p geom.Pt) (geom.Pt, float64) {
	d := b.Sub(a)
	n := d.Dot(d)
	if n == 0 {
		return a, 0
	}
	t := math.Min(math.Max(p.Sub(a).Dot(d)/n, 0), 1)
	return a.Lerp(b, t), t
}

// nearestSpot returns the place on any line of the shape nearest to p.
func nearestSpot(sh Shape, p geom.Pt) (spot, bool) {
	best := spot{dist: math.Inf(1)}
	for i, line := range sh.paths() {
		if sp, ok := nearestOn(line, sh.Closed && i == 0, p); ok && sp.dist < best.dist {
			sp.path = i
			best = sp
		}
	}
	return best, !math.IsInf(best.dist, 1)
}

// nearestVertex returns the place of the shape's own point nearest to p; t is
// 0 and seg its place in the path.
func nearestVertex(sh Shape, p geom.Pt) (spot, bool) {
	best := spot{dist: math.Inf(1)}
	for i, line := range sh.paths() {
		for k, q := range line {
			if d := q.Dist(p); d < best.dist {
				best = spot{path: i, seg: k, at: q, dist: d}
			}
		}
	}
	return best, !math.IsInf(best.dist, 1)
}

// inRing reports whether p lies inside the ring, by the even-odd rule.
func inRing(ring []geom.Pt, p geom.Pt) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// length returns the length of a line, of a ring round to its start.
func length(pts []geom.Pt, closed bool) float64 {
	sum := 0.0
	for i := range segments(pts, closed) {
		sum += pts[i].Dist(pts[(i+1)%len(pts)])
	}
	return sum
}

// ringArea returns the area a ring encloses, positive whichever way it runs.
func ringArea(ring []geom.Pt) float64 {
	sum := 0.0
	for i, a := range ring {
		sum += a.Cross(ring[(i+1)%len(ring)])
	}
	return math.Abs(sum) / 2
}

// crossing returns where the segments a–b and c–d cross, as shares of each;
// ok is false when they do not or run alongside.
func crossing(a, b, c, d geom.Pt) (t, u float64, ok bool) {
	r, s := b.Sub(a), d.Sub(c)
	den := r.Cross(s)
	if den == 0 {
		return 0, 0, false
	}
	t, u = c.Sub(a).Cross(s)/den, c.Sub(a).Cross(r)/den
	return t, u, t >= 0 && t <= 1 && u >= 0 && u <= 1
}
