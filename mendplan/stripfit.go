package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
)

// fit returns the straight strip over the stretch from place i to place j,
// without what joints add: of the rectangles along an edge of the stretch's
// convex hull (rotating calipers: the narrowest one is among them), the one
// that costs least tissue within the widest strip. The ends of the path get
// their end margin or overhang here, as they don't depend on neighbours.
func (c *chain) fit(i, j int) strip {
	pts := c.line[c.places[i] : c.places[j]+1]
	hull := geom.Hull(c.withHidden(pts, i, j))
	chord := pts[len(pts)-1].Sub(pts[0]).Unit()
	best := strip{}
	bestCost := math.Inf(1)
	for k := range hull {
		dir := hull[(k+1)%len(hull)].Sub(hull[k]).Unit()
		if dir == (geom.Pt{}) {
			continue
		}
		if dir.Dot(chord) < 0 {
			dir = dir.Mul(-1)
		}
		s := c.along(i, j, dir, hull)
		cost := s.length() * s.width
		if s.width > c.rules.widest+1e-9 {
			cost *= 1e3 // only when nothing fits
		}
		if cost < bestCost-1e-9 {
			best, bestCost = s, cost
		}
	}
	return best
}

// withHidden adds to the points of the stretch from place i to place j those
// of the edge that lies beneath it.
func (c *chain) withHidden(pts geom.Path, i, j int) geom.Path {
	if c.hidden == nil {
		return pts
	}
	out := pts[:len(pts):len(pts)]
	for _, r := range c.hidden[c.places[i]:c.places[j]] {
		out = append(out, r[2], r[3])
	}
	return out
}

// along returns the strip over the hull in a given direction.
func (c *chain) along(i, j int, dir geom.Pt, hull geom.Ring) strip {
	s := strip{from: i, to: j, dir: dir, lo: math.Inf(1), hi: math.Inf(-1)}
	n := s.across()
	left, right := math.Inf(1), math.Inf(-1)
	for _, p := range hull {
		u, v := p.Dot(dir), p.Dot(n)
		s.lo, s.hi = min(s.lo, u), max(s.hi, u)
		left, right = min(left, v), max(right, v)
	}
	s.mid = (left + right) / 2
	s.width = max(c.rules.width, right-left+2*c.rules.least)
	if i == 0 {
		s.head = c.past(c.start, c.line[0].Dot(dir)-s.lo, dir.Mul(-1))
	}
	if j == len(c.places)-1 {
		s.tail = c.past(c.end, s.hi-c.line[len(c.line)-1].Dot(dir), dir)
	}
	return s
}

// past returns how far a strip goes past the extent of its stretch at an end
// of the path. back is how far the end itself lies inside that extent, dir
// the direction of the strip outwards.
//
// At the leaf's edge the tear's line hangs over by the overhang, measured
// square to the edge; where the strip meets the edge at less than 30° it
// would grow without bound, and twice the overhang along the strip must do.
func (c *chain) past(e pathEnd, back float64, dir geom.Pt) float64 {
	k := c.rules
	switch e.at {
	case edgeEnd:
		square := max(dir.Dot(e.out), 0.5)
		return max(k.least, (e.gap+k.overhang)/square-back)
	case holeEnd:
		return max(k.least, k.overhang-back)
	case joinEnd:
		return max(k.least, k.overlap)
	}
	return max(k.end, geom.Grid)
}

// joint sets how far two neighbouring strips go past the place they share,
// beyond the extent of their own stretches, so that together they keep the
// margin round every point of the tear and overlap as the rules say. It
// returns what a adds at its tail and b at its head.
//
// On a straight tear half the overlap each is enough. Where the tear turns by
// θ, the disc of the margin about the bend is covered once each goes past it
// by margin·sin(θ/2). Where a wandering stretch makes even that too little,
// each strip takes in the whole margin of its own stretch.
func (c *chain) joint(a, b strip) float64 {
	m := c.rules.least
	cos := min(1, max(-1, a.dir.Dot(b.dir)))
	ext := max(c.rules.overlap/2, m*math.Sqrt((1-cos)/2))
	if ext >= m {
		return ext
	}
	if c.hidden != nil {
		return m // each takes in the whole margin of its stretch, the edge beneath too
	}
	a.tail, b.head = ext, ext
	if c.capsHeld(a, b, true) && c.capsHeld(b, a, false) {
		return ext
	}
	return m
}

// capsHeld reports whether what the margin of a's stretch has beyond a's end
// (its tail, or its head) lies in strip b.
func (c *chain) capsHeld(a, b strip, tail bool) bool {
	m := c.rules.least
	dir, limit := a.dir, a.hi+a.tail
	if !tail {
		dir, limit = dir.Mul(-1), a.head-a.lo
	}
	pts := c.line[c.places[a.from] : c.places[a.to]+1]
	for k := 1; k < len(pts); k++ {
		if max(pts[k-1].Dot(dir), pts[k].Dot(dir))+m <= limit {
			continue
		}
		if !capHeld(pts[k-1], pts[k], m, dir, limit, b) {
			return false
		}
	}
	return true
}

// capHeld reports whether strip b holds what the capsule of radius m about
// p–q has beyond the line u·dir = limit. That part is convex, so its extent in
// b's own directions decides; it is reached where the capsule bulges furthest
// that way or on the line itself.
func capHeld(p, q geom.Pt, m float64, dir geom.Pt, limit float64, b strip) bool {
	for _, out := range []geom.Pt{b.dir, b.dir.Mul(-1), b.across(), b.across().Mul(-1)} {
		for _, end := range []geom.Pt{p, q} {
			if far := end.Add(out.Mul(m)); far.Dot(dir) >= limit && !b.holds(far) {
				return false
			}
		}
	}
	for _, x := range capsuleOn(p, q, m, dir, limit) {
		if !b.holds(x) {
			return false
		}
	}
	return true
}

// capsuleOn returns where the outline of the capsule about p–q meets the line
// u·dir = limit, as a few points whose hull holds the whole meeting.
func capsuleOn(p, q geom.Pt, m float64, dir geom.Pt, limit float64) []geom.Pt {
	n := geom.Pt{X: -dir.Y, Y: dir.X}
	var out []geom.Pt
	for _, c := range []geom.Pt{p, q} {
		if d := limit - c.Dot(dir); math.Abs(d) <= m {
			half := math.Sqrt(m*m - d*d)
			foot := c.Add(dir.Mul(d))
			out = append(out, foot.Add(n.Mul(half)), foot.Sub(n.Mul(half)))
		}
	}
	side := q.Sub(p).Unit()
	side = geom.Pt{X: -side.Y, Y: side.X}.Mul(m)
	for _, o := range []geom.Pt{side, side.Mul(-1)} {
		a, b := p.Add(o), q.Add(o)
		ua, ub := a.Dot(dir)-limit, b.Dot(dir)-limit
		if ua*ub < 0 {
			out = append(out, a.Lerp(b, ua/(ua-ub)))
		}
	}
	return out
}
