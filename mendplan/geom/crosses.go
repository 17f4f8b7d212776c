package geom

// SegmentsCross reports whether the segments a–b and c–d cross properly: each
// has its ends on different sides of the other. Touching is not crossing.
func SegmentsCross(a, b, c, d Pt) bool {
	return apart(a, b, c, d) && apart(c, d, a, b)
}

// apart reports whether c and d lie strictly on different sides of a–b.
func apart(a, b, c, d Pt) bool {
	u := b.Sub(a)
	s, t := u.Cross(c.Sub(a)), u.Cross(d.Sub(a))
	return s < 0 && t > 0 || s > 0 && t < 0
}

// SelfCrosses reports whether r crosses itself, judged on the grid: two edges
// cross properly, or two stretches go through one another at a shared point.
// A ring that only touches or retraces itself does not cross.
func SelfCrosses(r Ring) bool {
	g := gridFor(reach(r))
	p := tidy(g.ring(r))
	n := len(p)
	for i := range n {
		a, b := p[i], p[(i+1)%n]
		lo, hi := min(a.y, b.y), max(a.y, b.y)
		for j := i + 1; j < n; j++ {
			c, d := p[j], p[(j+1)%n]
			if max(c.y, d.y) < lo || min(c.y, d.y) > hi || max(c.x, d.x) < min(a.x, b.x) || min(c.x, d.x) > max(a.x, b.x) {
				continue
			}
			if splits(a, b, c, d) && splits(c, d, a, b) {
				return true
			}
			if crossesAt(p, i, j) {
				return true
			}
		}
	}
	return false
}

// tidy drops points equal to the one before, and the last if it closes.
func tidy(r gridRing) gridRing {
	var out gridRing
	for _, p := range r {
		if len(out) == 0 || p != out[len(out)-1] {
			out = append(out, p)
		}
	}
	for len(out) > 1 && out[0] == out[len(out)-1] {
		out = out[:len(out)-1]
	}
	return out
}

// splits reports whether c and d lie strictly on different sides of a–b.
func splits(a, b, c, d gridPt) bool {
	s, t := side(a, b, c), side(a, b, d)
	return s < 0 && t > 0 || s > 0 && t < 0
}

// crossesAt reports whether the ring goes through itself at point i lying on
// the stretch that begins at j, or at point j on the one that begins at i.
func crossesAt(p gridRing, i, j int) bool {
	n := len(p)
	before, after := func(k int) gridPt { return p[(k+n-1)%n] }, func(k int) gridPt { return p[(k+1)%n] }
	if p[i] == p[j] {
		return interleave(p[i], before(i), after(i), before(j), after(j))
	}
	inside := func(q, a, b gridPt) bool {
		return q != a && q != b && side(a, b, q) == 0 &&
			min(a.x, b.x) <= q.x && q.x <= max(a.x, b.x) && min(a.y, b.y) <= q.y && q.y <= max(a.y, b.y)
	}
	return inside(p[i], p[j], after(j)) && interleave(p[i], before(i), after(i), p[j], after(j)) ||
		inside(p[j], p[i], after(i)) && interleave(p[j], before(j), after(j), p[i], after(i))
}

// interleave reports whether, seen from v, the directions of c and d lie
// strictly on different sides of the bend from a over v to b.
func interleave(v, a, b, c, d gridPt) bool {
	in := func(q gridPt) int { // 1 within the turn from a to b, −1 without, 0 on a side
		if parallel(v, a, q) || parallel(v, b, q) {
			return 0
		}
		if sooner(v, a, q, b) {
			return 1
		}
		return -1
	}
	return in(c)*in(d) < 0
}

// parallel reports whether p and q lie in the same direction from v.
func parallel(v, p, q gridPt) bool {
	if side(v, p, q) != 0 {
		return false
	}
	dot := (int64(p.x)-int64(v.x))*(int64(q.x)-int64(v.x)) + (int64(p.y)-int64(v.y))*(int64(q.y)-int64(v.y))
	return dot > 0
}
