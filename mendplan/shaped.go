package mendplan

import (
	"leafmend/mendplan/geom"
)

// shaped returns one outline that follows the tear, forks and all: everything
// within the margin of it, past blind ends by the end margin, past the leaf's
// edge by the overhang. It is then made simple enough for a hand to tear or
// cut, only ever outwards, and cut into several overlapping pieces where it
// is longer than a piece may be.
func (s *site) shaped(t tear, r InForce, second bool) []draft {
	m := marginsOf(r, second)
	stray := 0.0
	lines := make([]geom.Path, len(t.paths))
	for i, p := range t.paths {
		line, off := simplified(m.lengthened(p), m.side/20)
		lines[i], stray = line, max(stray, off)
	}
	area := handyBuffer(m.side+stray, lines, s.flap(m.lengthened(t.paths[0])), r)
	area = s.trimmed(area, m.overhang)
	longest, overlap := r.Number(LongestStrip), r.Number(PieceOverlap)
	var out []draft
	for _, part := range bands(area, longest, overlap) {
		out = append(out, draft{
			outline: part, role: RoleMend, style: Shaped,
			along: ownAngle(part), toEdge: t.edgeDistance(part),
		})
	}
	return out
}

// lengthened returns the path with what goes past its ends: nothing where it
// joins another, to the overhang at an edge, and at a blind end what the
// round cap of the side margin leaves to the end margin.
func (m margins) lengthened(p tearPath) geom.Path {
	out := p.line
	if q, ok := m.beyond(p.start); ok {
		out = append(geom.Path{q}, out...)
	}
	if q, ok := m.beyond(p.end); ok {
		out = append(out[:len(out):len(out)], q)
	}
	return out
}

func (m margins) beyond(e pathEnd) (geom.Pt, bool) {
	far := 0.0
	switch e.at {
	case edgeEnd:
		far = e.gap + m.overhang
	case holeEnd:
		far = m.overhang - m.side
	case blindEnd:
		far = m.end - m.side
	}
	return e.place.Add(e.out.Mul(far)), far > geom.Grid
}

// handyBuffer returns the buffer of lines, and of the area in which torn faces
// overlap, made simple enough to tear or cut:
// notches too narrow for the hand's radius are filled and its points thinned,
// which gives away a little tissue but never margin. Where the margin is as
// wide as that radius nothing can stand out too thin, so going further out and
// coming back is enough.
func handyBuffer(margin float64, lines []geom.Path, flap geom.Area, r InForce) geom.Area {
	radius, tol := r.Number(ShapeRadius), r.Number(ShapeTolerance)
	buffer := func(d float64) geom.Area {
		if flap.Empty() {
			return geom.Buffer(d, lines...)
		}
		return geom.Union(geom.Buffer(d, lines...), geom.Offset(flap, d))
	}
	var a geom.Area
	switch {
	case radius == 0 || straight(lines) && flap.Empty():
		a = buffer(margin)
	case margin >= radius:
		a = geom.Offset(buffer(margin+radius+geom.BufferTol), -radius)
	default:
		a = geom.SmoothOut(buffer(margin), radius)
	}
	return geom.SimplifyOut(a, tol)
}

// straight reports whether there is one line without a bend.
func straight(lines []geom.Path) bool { return len(lines) == 1 && len(lines[0]) == 2 }

// trimmed cuts off what hangs over the true edge by more than the overhang.
func (s *site) trimmed(a geom.Area, overhang float64) geom.Area {
	limit := s.sheet.Grown(overhang)
	for _, p := range a.Points() {
		for i := range 4 {
			if s.sheet.depth(i, p) < -overhang {
				return geom.Intersect(a, geom.Area{limit})
			}
		}
	}
	return a
}

// edgeDistance tells how far along the tear the middle of a piece is from
// the leaf's edge.
func (t tear) edgeDistance(piece geom.Area) float64 {
	c := piece.Bounds().Centre()
	best, at, far := 0, 0.0, -1.0
	for i, p := range t.paths {
		if d, s := p.line.Nearest(c); far < 0 || d < far {
			best, at, far = i, s, d
		}
	}
	return t.toEdge(best, at)
}
