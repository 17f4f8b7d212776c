package geom

// Simplify returns p with fewer points (Douglas–Peucker): it keeps both ends
// and only points of p, and no point left out lies further than tol from the
// result.
func Simplify(p Path, tol float64) Path {
	if len(p) < 3 || !(tol > 0) {
		return append(Path(nil), p...)
	}
	keep := make([]bool, len(p))
	keep[0], keep[len(p)-1] = true, true
	thin(p, keep, tol)
	return Path(kept(p, keep))
}

// SimplifyRing returns r with fewer points by the same rule. A ring that
// would shrink to less than a triangle keeps three points if it has them. The
// result may touch or cross itself where r comes nearer to itself than tol.
func SimplifyRing(r Ring, tol float64) Ring {
	if len(r) < 4 || !(tol > 0) {
		return append(Ring(nil), r...)
	}
	// Two far-apart anchors split the ring into two paths.
	a := 0
	for i, p := range r {
		if p.X < r[a].X || p.X == r[a].X && p.Y < r[a].Y {
			a = i
		}
	}
	turned := append(append(make(Path, 0, len(r)+1), r[a:]...), r[:a+1]...)
	b := farthest(turned, turned[0], turned[0])
	keep := make([]bool, len(turned))
	keep[0], keep[b], keep[len(r)] = true, true, true
	thin(turned[:b+1], keep[:b+1], tol)
	thin(turned[b:], keep[b:], tol)
	out := kept(turned[:len(r)], keep)
	if len(out) < 3 {
		keep[farthest(turned[:len(r)], turned[0], turned[b])] = true
		out = kept(turned[:len(r)], keep)
	}
	return Ring(out)
}

// thin marks in keep the points of p needed between its ends.
func thin(p Path, keep []bool, tol float64) {
	type span struct{ from, to int }
	left := []span{{0, len(p) - 1}}
	for len(left) > 0 {
		s := left[len(left)-1]
		left = left[:len(left)-1]
		if s.to-s.from < 2 {
			continue
		}
		m := farthest(p[s.from:s.to+1], p[s.from], p[s.to]) + s.from
		if squareTo(p[m], p[s.from], p[s.to]) <= tol*tol {
			continue
		}
		keep[m] = true
		left = append(left, span{s.from, m}, span{m, s.to})
	}
}

// farthest returns the number of the point of p furthest from the segment a–b.
func farthest(p Path, a, b Pt) int {
	best, at := -1.0, 0
	for i, q := range p {
		if d := squareTo(q, a, b); d > best {
			best, at = d, i
		}
	}
	return at
}

func kept(p []Pt, keep []bool) []Pt {
	var out []Pt
	for i, q := range p {
		if keep[i] {
			out = append(out, q)
		}
	}
	return out
}
