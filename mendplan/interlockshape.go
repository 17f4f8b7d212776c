package mendplan

import (
	"cmp"
	"math"
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// shapesOf are the pieces that leave much of their blanks empty, emptiest
// first, in the frames of their blanks; and the widest fringe about them.
// Shapes pair only within a group: both with their grain free, or neither.
func shapesOf(pieces []Piece, blanks []nest.Blank) ([]nest.Shape, float64) {
	of := map[string]Piece{}
	for _, p := range pieces {
		of[p.Label] = p
	}
	type found struct {
		nest.Shape
		empty float64
	}
	var all []found
	fringe := 0.0
	for _, b := range blanks {
		p, ok := of[b.ID]
		if !ok || len(b.Pins) > 0 {
			continue
		}
		hull, rim, empty := shapeOf(p)
		if empty < (1-shapedShare)*b.W*b.H {
			continue
		}
		group := "fixed"
		if b.Turn == nest.Free {
			group = "free"
		}
		fringe = max(fringe, rim)
		all = append(all, found{nest.Shape{ID: b.ID, Group: group, Outline: hull}, empty})
	}
	slices.SortStableFunc(all, func(a, b found) int { return cmp.Compare(b.empty, a.empty) })
	var out []nest.Shape
	for _, f := range all[:min(len(all), mostShapes)] {
		out = append(out, f.Shape)
	}
	return out, fringe
}

// shapeOf is the hull of a piece in the frame of its blank, y along the
// grain, as seen from the side it is pasted on; the fringe about it; and how
// much of the blank its hull leaves empty, mm².
func shapeOf(p Piece) (hull []nest.XY, fringe, empty float64) {
	along := geom.Direction(p.BlankDeg)
	across := geom.Pt{X: along.Y, Y: -along.X}
	if p.Side == Back {
		across = across.Mul(-1)
	}
	var pts []geom.Pt
	for _, q := range p.Outline.Points() {
		q = q.Sub(p.BlankCentre)
		pts = append(pts, geom.Pt{X: q.Dot(across), Y: q.Dot(along)})
	}
	ring := outerHull(geom.Hull(pts), mostCorners)
	if len(ring) < 3 {
		return nil, 0, 0
	}
	lo, hi := pts[0], pts[0]
	for _, q := range ring {
		hull = append(hull, nest.XY{X: q.X, Y: q.Y})
	}
	for _, q := range pts {
		lo, hi = geom.Pt{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}, geom.Pt{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	fringe = max(0, (p.BlankWidthMM-(hi.X-lo.X))/2, (p.BlankLengthMM-(hi.Y-lo.Y))/2)
	return hull, fringe, p.BlankLengthMM*p.BlankWidthMM - math.Abs(ring.SignedArea())
}

// mostCorners is how many corners of a hull are looked at.
const mostCorners = 12

// outerHull is a convex ring around a convex ring, with no more than most
// corners: again and again the edge whose neighbours meet soonest beyond it
// goes.
func outerHull(ring geom.Ring, most int) geom.Ring {
	ring = slices.Clone(ring)
	for len(ring) > max(most, 4) {
		best, least := -1, 0.0
		var at geom.Pt
		for i := range ring {
			n := len(ring)
			a, b, c, d := ring[(i+n-1)%n], ring[i], ring[(i+1)%n], ring[(i+2)%n]
			u, v := b.Sub(a), c.Sub(d)
			den := u.Cross(v)
			if math.Abs(den) < 1e-9 {
				continue
			}
			t := c.Sub(b).Cross(v) / den
			p := b.Add(u.Mul(t))
			if grows := math.Abs(p.Sub(b).Cross(c.Sub(b))); t >= 0 && (best < 0 || grows < least) {
				best, least, at = i, grows, p
			}
		}
		if best < 0 {
			return ring
		}
		next := (best + 1) % len(ring)
		ring[best] = at
		ring = slices.Delete(ring, next, next+1)
	}
	return ring
}

// middlesOf are the middles of the two shapes of a pair in their blank.
func middlesOf(shapes []nest.Shape, p nest.Pair, fringe float64) (own, other nest.XY) {
	for _, s := range shapes {
		var m nest.XY
		for _, q := range s.Outline {
			m.X += q.X / float64(len(s.Outline))
			m.Y += q.Y / float64(len(s.Outline))
		}
		switch {
		case s.ID == p.A:
			own = nest.XY{X: m.X + p.AX + fringe, Y: m.Y + p.AY + fringe}
		case s.ID == p.B && p.Turned:
			other = nest.XY{X: p.BX - m.X + fringe, Y: p.BY - m.Y + fringe}
		case s.ID == p.B:
			other = nest.XY{X: p.BX + m.X + fringe, Y: p.BY + m.Y + fringe}
		}
	}
	return own, other
}

// reachEdges lengthens a pair's parting line through the fringe to the edges
// of the blank of w × h.
func reachEdges(p nest.Pair, w, h, fringe float64) (x1, y1, x2, y2 float64) {
	from := geom.Pt{X: p.X1 + fringe, Y: p.Y1 + fringe}
	dir := geom.Pt{X: p.X2 - p.X1, Y: p.Y2 - p.Y1}.Unit()
	edge := func(d geom.Pt) geom.Pt {
		t := w + h
		for _, side := range [][2]float64{{d.X, w - from.X}, {-d.X, from.X}, {d.Y, h - from.Y}, {-d.Y, from.Y}} {
			if side[0] > 1e-12 {
				t = min(t, side[1]/side[0])
			}
		}
		return from.Add(d.Mul(max(t, 0)))
	}
	a, b := edge(dir.Mul(-1)), edge(dir)
	return a.X, a.Y, b.X, b.Y
}
