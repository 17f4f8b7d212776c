package nest

import (
	"cmp"
	"math"
	"slices"
)

// Shape is a piece that is no rectangle, to be cut by hand from its blank.
type Shape struct {
	ID      string
	Group   string
	Outline []XY // closed polygon, mm, as it lies in its blank: y along the grain
}

// XY is a point, mm.
type XY struct{ X, Y float64 }

// Pair is two shapes that share one blank: each fills what the other leaves
// free, and one straight line parts them, so they are easy to separate by
// hand after the blank is cut out.
type Pair struct {
	A, B   string  // IDs
	Turned bool    // B lies turned by 180 degrees
	AX, AY float64 // where the origin of A's outline comes to lie in the blank
	BX, BY float64 // of B's, which Turned maps to its negative first
	W, H   float64 // of the blank they share
	Gain   float64 // mm² saved against two blanks of their own, gap included
	X1, Y1 float64 // the parting line runs from here
	X2, Y2 float64 // to there, within the blank
}

// Interlock pairs shapes so that the most tissue is saved, the best pair
// first. Only pairs that save at least least mm² are made; what stays alone
// is not listed. Gap is the least distance between two shapes, mm.
func Interlock(shapes []Shape, gap, least float64) []Pair {
	if !good(gap) {
		gap = 0
	}
	hulls := make([][]XY, len(shapes))
	for i, s := range shapes {
		hulls[i] = hull(s.Outline)
	}
	type match struct {
		i, j int
		p    Pair
	}
	var all []match
	for i := range shapes {
		for j := range i {
			if shapes[i].Group != shapes[j].Group || len(hulls[i]) < 3 || len(hulls[j]) < 3 {
				continue
			}
			if p := join(hulls[j], hulls[i], gap); p.Gain > 0 && p.Gain >= least {
				p.A, p.B = shapes[j].ID, shapes[i].ID
				all = append(all, match{j, i, p})
			}
		}
	}
	slices.SortStableFunc(all, func(a, b match) int { return cmp.Compare(b.p.Gain, a.p.Gain) })
	used := make([]bool, len(shapes))
	var out []Pair
	for _, m := range all {
		if !used[m.i] && !used[m.j] {
			used[m.i], used[m.j] = true, true
			out = append(out, m.p)
		}
	}
	return out
}

// join finds the least blank in which two convex outlines lie apart.
func join(a, b []XY, gap float64) Pair {
	aw, ah := size(a)
	best := Pair{}
	for _, turned := range []bool{false, true} {
		bb := b
		if turned {
			bb = negated(b)
		}
		bw, bh := size(bb)
		alone := (aw+gap)*(ah+gap) + (bw+gap)*(bh+gap)
		for _, n := range normals(a, bb) {
			lo, hi := reach(a, n), -reach(bb, XY{-n.X, -n.Y})
			// b is moved by t with n·t = lo + gap − hi: slide along the line
			for _, t := range slides(a, bb, n, lo+gap-hi) {
				p := around(a, bb, t)
				p.Turned = turned
				p.Gain = alone - (p.W+gap)*(p.H+gap)
				if p.Gain > best.Gain+1e-9 {
					c := lo + gap/2 + n.X*p.AX + n.Y*p.AY
					p.X1, p.Y1, p.X2, p.Y2 = chord(n, c, p.W, p.H)
					best = p
				}
			}
		}
	}
	return best
}

// normals are the directions in which two convex outlines may be parted:
// across an edge of either, outward of a.
func normals(a, b []XY) []XY {
	var out []XY
	for k, poly := range [][]XY{a, b} {
		for i, p := range poly {
			q := poly[(i+1)%len(poly)]
			l := math.Hypot(q.X-p.X, q.Y-p.Y)
			if l == 0 {
				continue
			}
			n := XY{(q.Y - p.Y) / l, (p.X - q.X) / l}
			if k == 1 {
				n = XY{-n.X, -n.Y}
			}
			out = append(out, n)
		}
	}
	return out
}

// reach is how far an outline extends along n.
func reach(a []XY, n XY) float64 {
	m := math.Inf(-1)
	for _, p := range a {
		m = max(m, p.X*n.X+p.Y*n.Y)
	}
	return m
}

// slides are places for b along the parting line, where edges of the two
// boxes line up.
func slides(a, b []XY, n XY, d float64) []XY {
	ax0, ay0, ax1, ay1 := box(a)
	bx0, by0, bx1, by1 := box(b)
	var out []XY
	if math.Abs(n.X) > 1e-9 {
		for _, y := range []float64{ay0 - by0, ay1 - by1} {
			out = append(out, XY{(d - n.Y*y) / n.X, y})
		}
	}
	if math.Abs(n.Y) > 1e-9 {
		for _, x := range []float64{ax0 - bx0, ax1 - bx1} {
			out = append(out, XY{x, (d - n.X*x) / n.Y})
		}
	}
	return out
}

// around is the blank around a and b moved by t.
func around(a, b []XY, t XY) Pair {
	ax0, ay0, ax1, ay1 := box(a)
	bx0, by0, bx1, by1 := box(b)
	x0, y0 := min(ax0, bx0+t.X), min(ay0, by0+t.Y)
	x1, y1 := max(ax1, bx1+t.X), max(ay1, by1+t.Y)
	return Pair{AX: -x0, AY: -y0, BX: t.X - x0, BY: t.Y - y0, W: x1 - x0, H: y1 - y0}
}

// chord is the part of the line n·p = c that lies in a box of w × h.
func chord(n XY, c, w, h float64) (x1, y1, x2, y2 float64) {
	var on []XY
	add := func(x, y float64) {
		if x < -1e-9 || x > w+1e-9 || y < -1e-9 || y > h+1e-9 {
			return
		}
		for _, p := range on {
			if math.Hypot(p.X-x, p.Y-y) < 1e-9 {
				return
			}
		}
		on = append(on, XY{x, y})
	}
	if math.Abs(n.Y) > 1e-12 {
		add(0, c/n.Y)
		add(w, (c-n.X*w)/n.Y)
	}
	if math.Abs(n.X) > 1e-12 {
		add(c/n.X, 0)
		add((c-n.Y*h)/n.X, h)
	}
	if len(on) < 2 {
		return 0, 0, 0, 0
	}
	return on[0].X, on[0].Y, on[1].X, on[1].Y
}

func box(a []XY) (x0, y0, x1, y1 float64) {
	x0, y0, x1, y1 = math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range a {
		x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X), max(y1, p.Y)
	}
	return
}

func size(a []XY) (w, h float64) {
	x0, y0, x1, y1 := box(a)
	return x1 - x0, y1 - y0
}

func negated(a []XY) []XY {
	out := make([]XY, len(a))
	for i, p := range a {
		out[i] = XY{-p.X, -p.Y}
	}
	return out
}

// hull is the convex hull, counter-clockwise as computed with y up (Andrew's
// monotone chain); fewer than three points if the outline has no area.
func hull(p []XY) []XY {
	p = slices.Clone(p)
	for _, q := range p {
		if math.IsNaN(q.X+q.Y) || math.IsInf(q.X+q.Y, 0) {
			return nil
		}
	}
	slices.SortFunc(p, func(a, b XY) int { return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y)) })
	p = slices.Compact(p)
	if len(p) < 3 {
		return nil
	}
	half := func(next func(int) XY, n int) []XY {
		var h []XY
		for i := range n {
			q := next(i)
			for len(h) >= 2 && cross(h[len(h)-2], h[len(h)-1], q) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		return h[:len(h)-1]
	}
	n := len(p)
	return append(half(func(i int) XY { return p[i] }, n), half(func(i int) XY { return p[n-1-i] }, n)...)
}

func cross(a, b, c XY) float64 { return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X) }
