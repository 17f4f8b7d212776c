package scan

import (
	"math"
	"sort"

	"leafmend/mendplan/geom"
)

// contour walks round the part of m that holds the pixel start, which must be
// its first pixel row by row, and returns the middles of the pixel edges
// passed, clockwise as seen. Pixels that touch at a corner only are apart.
func (m *bitmap) contour(start int) []geom.Pt {
	dirs := [4][2]int{{1, 0}, {0, 1}, {-1, 0}, {0, -1}}
	x, y, d := start%m.w, start/m.w, 0 // a corner of the grid, walking right
	x0, y0 := x, y
	var out []geom.Pt
	for steps := 0; steps < 4*len(m.on)+4; steps++ {
		dx, dy := dirs[d][0], dirs[d][1]
		out = append(out, geom.Pt{X: float64(x) + float64(dx)/2, Y: float64(y) + float64(dy)/2})
		x, y = x+dx, y+dy
		// ahead right and ahead left of the corner, seen along the walk
		r, l := m.ahead(x, y, d, true), m.ahead(x, y, d, false)
		switch {
		case !r:
			d = (d + 1) % 4
		case l:
			d = (d + 3) % 4
		}
		if x == x0 && y == y0 && d == 0 {
			break
		}
	}
	return out
}

// ahead reports the pixel in front of corner (x,y) in direction d, on the
// right hand or on the left.
func (m *bitmap) ahead(x, y, d int, right bool) bool {
	switch d {
	case 0:
		if right {
			return m.get(x, y)
		}
		return m.get(x, y-1)
	case 1:
		if right {
			return m.get(x-1, y)
		}
		return m.get(x, y)
	case 2:
		if right {
			return m.get(x-1, y-1)
		}
		return m.get(x-1, y)
	}
	if right {
		return m.get(x, y-1)
	}
	return m.get(x-1, y-1)
}

// simplifyPath drops points of an open path that lie within tol of the line
// left without them (Douglas and Peucker), ends kept.
func simplifyPath(p []geom.Pt, tol float64) []geom.Pt {
	if len(p) < 3 {
		return append([]geom.Pt(nil), p...)
	}
	keep := make([]bool, len(p))
	keep[0], keep[len(p)-1] = true, true
	stack := [][2]int{{0, len(p) - 1}}
	for len(stack) > 0 {
		a, b := stack[len(stack)-1][0], stack[len(stack)-1][1]
		stack = stack[:len(stack)-1]
		far, at := tol, -1
		for i := a + 1; i < b; i++ {
			if d := geom.DistToSegment(p[i], p[a], p[b]); d > far {
				far, at = d, i
			}
		}
		if at > 0 {
			keep[at] = true
			stack = append(stack, [2]int{a, at}, [2]int{at, b})
		}
	}
	var out []geom.Pt
	for i, k := range keep {
		if k {
			out = append(out, p[i])
		}
	}
	return out
}

// simplifyRing is simplifyPath for a closed line, split at its two points
// furthest apart along one axis so that the answer does not hang on the start.
func simplifyRing(p []geom.Pt, tol float64) []geom.Pt {
	if len(p) < 5 {
		return append([]geom.Pt(nil), p...)
	}
	a, b := 0, 0
	for i, q := range p {
		if q.X+q.Y < p[a].X+p[a].Y {
			a = i
		}
		if q.X+q.Y > p[b].X+p[b].Y {
			b = i
		}
	}
	if a == b {
		return append([]geom.Pt(nil), p...)
	}
	one := simplifyPath(cyclic(p, a, b), tol)
	two := simplifyPath(cyclic(p, b, a), tol)
	return append(one[:len(one)-1:len(one)-1], two[:len(two)-1]...)
}

// cyclic returns p[a] to p[b], both included, going forwards and round.
func cyclic(p []geom.Pt, a, b int) []geom.Pt {
	if a <= b {
		return p[a : b+1]
	}
	return append(append([]geom.Pt(nil), p[a:]...), p[:b+1]...)
}

// hull returns the convex hull, by monotone chains.
func hull(p []geom.Pt) []geom.Pt {
	s := append([]geom.Pt(nil), p...)
	sort.Slice(s, func(i, j int) bool {
		return s[i].X < s[j].X || s[i].X == s[j].X && s[i].Y < s[j].Y
	})
	half := func(s []geom.Pt) []geom.Pt {
		var h []geom.Pt
		for _, q := range s {
			for len(h) > 1 && h[len(h)-1].Sub(h[len(h)-2]).Cross(q.Sub(h[len(h)-1])) <= 0 {
				h = h[:len(h)-1]
			}
			h = append(h, q)
		}
		return h
	}
	up := half(s)
	for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
		s[i], s[j] = s[j], s[i]
	}
	down := half(s)
	if len(up) < 2 || len(down) < 2 {
		return up
	}
	return append(up[:len(up)-1], down[:len(down)-1]...)
}

// boxOf is the rectangle of least area about the hull h: its angle (of one
// side, radians in picture axes, within ±45°) and area.
func boxOf(h []geom.Pt) (angle, area float64) {
	area = math.Inf(1)
	for i := range h {
		e := h[(i+1)%len(h)].Sub(h[i]).Unit()
		if e == (geom.Pt{}) {
			continue
		}
		lo, hi := turnedBox(h, e)
		if a := (hi.X - lo.X) * (hi.Y - lo.Y); a < area {
			area, angle = a, math.Atan2(e.Y, e.X)
		}
	}
	angle = math.Mod(angle, math.Pi/2)
	if angle > math.Pi/4 {
		angle -= math.Pi / 2
	}
	if angle <= -math.Pi/4 {
		angle += math.Pi / 2
	}
	return angle, area
}

// turnedBox is the extent of p along e and across it.
func turnedBox(p []geom.Pt, e geom.Pt) (lo, hi geom.Pt) {
	n := geom.Pt{X: -e.Y, Y: e.X}
	lo = geom.Pt{X: math.Inf(1), Y: math.Inf(1)}
	hi = geom.Pt{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, q := range p {
		u, v := q.Dot(e), q.Dot(n)
		lo = geom.Pt{X: min(lo.X, u), Y: min(lo.Y, v)}
		hi = geom.Pt{X: max(hi.X, u), Y: max(hi.Y, v)}
	}
	return lo, hi
}

// rasterise fills a ring given in full scan pixels onto a plane of w×h pixels
// of the given step: a pixel belongs when its centre does (even-odd).
func rasterise(ring []geom.Pt, w, h int, step float64) *bitmap {
	m := newBitmap(w, h)
	var xs []float64
	for y := 0; y < h; y++ {
		cy := (float64(y) + 0.5) * step
		xs = xs[:0]
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			if (p.Y > cy) != (q.Y > cy) {
				xs = append(xs, p.X+(q.X-p.X)*(cy-p.Y)/(q.Y-p.Y))
			}
		}
		sort.Float64s(xs)
		for k := 0; k+1 < len(xs); k += 2 {
			a := int(math.Ceil(max(0, min(xs[k]/step-0.5, float64(w)))))
			b := min(float64(w-1), xs[k+1]/step-0.5)
			for x := a; float64(x) <= b; x++ {
				m.on[y*w+x] = true
			}
		}
	}
	return m
}
