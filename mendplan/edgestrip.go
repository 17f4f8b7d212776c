package mendplan

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// edgeStrips returns one strip along each edge that a run of nicks lies on
// (F26c): from the overhang outside the true edge to the side margin past the
// deepest nick, and past the first and the last nick by the end margin.
func (s *site) edgeStrips(r InForce) ([]draft, []Problem) {
	path := slices.DeleteFunc(s.clean(s.damage.Points), func(p geom.Pt) bool {
		_, depth := s.sheet.nearestEdge(p)
		return depth < -r.Number(EdgeOverhang)
	})
	if len(path) < 2 {
		return nil, []Problem{s.badPath()}
	}
	var out []draft
	var problems []Problem
	deepest := 0.0
	for i := range 4 {
		lo, hi, deep := s.alongEdge(path, i)
		if lo > hi {
			continue
		}
		deepest = max(deepest, deep)
		out = append(out, s.edgeStrip(i, lo, hi, max(deep, r.Number(NickDepth)), r))
	}
	if limit := r.Number(NickDepth); deepest > limit+geom.Grid {
		problems = append(problems, s.problem(BadTrace, Doubt,
			phrase.Of("The trace of %s goes %.1f mm into the leaf; an edge strip is for nicks up to %.4g mm deep.", s.name(), deepest, limit),
			phrase.Of("Trace deep ones as tears of their own.")))
	}
	return out, problems
}

// alongEdge returns the stretch of edge i, in mm from its first corner, along
// which the path lies, and how deep it goes there; lo > hi if it is nearer
// another edge throughout.
func (s *site) alongEdge(path geom.Path, i int) (lo, hi, deep float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	a, _ := s.sheet.edge(i)
	for _, p := range path {
		if edge, _ := s.sheet.nearestEdge(p); edge != i {
			continue
		}
		u := p.Sub(a).Dot(s.sheet.along(i))
		lo, hi = min(lo, u), max(hi, u)
		deep = max(deep, s.sheet.depth(i, p))
	}
	return lo, hi, deep
}

func (s *site) edgeStrip(i int, lo, hi, deep float64, r InForce) draft {
	a, b := s.sheet.edge(i)
	u, out := s.sheet.along(i), s.sheet.outward(i)
	over, end := r.Number(EdgeOverhang), r.Number(EndMargin)
	lo, hi = max(lo-end, -over), min(hi+end, a.Dist(b)+over)
	in := deep + r.Number(SideMargin)
	at := func(along, outwards float64) geom.Pt { return a.Add(u.Mul(along)).Add(out.Mul(outwards)) }
	ring := geom.Ring{at(lo, over), at(hi, over), at(hi, -in), at(lo, -in)}
	return draft{outline: geom.Area{ring}, role: RoleMend, style: EdgeStrip, along: geom.AngleOf(u),
		why: []phrase.Phrase{phrase.Of("one strip for all nicks along the %s (National Archives of Australia, 2012)", phrase.Of(string(s.sheet.EdgeName(i))))}}
}

// edgePieces returns the second small pieces where the tear meets the edge,
// its weak spot (F17): so much of the edge and so deep, and the overhang.
func (s *site) edgePieces(t tear, r InForce) []draft {
	if r.Word(EdgePieceOn) != "yes" {
		return nil
	}
	size, over := r.Number(EdgePiece), r.Number(EdgeOverhang)
	var out []draft
	for _, p := range t.paths {
		for _, e := range []pathEnd{p.start, p.end} {
			if e.at != edgeEnd {
				continue
			}
			mid := e.place.Add(e.out.Mul(e.gap + (over-size)/2))
			rect := geom.Rect{Center: mid, Angle: geom.AngleOf(e.out), Length: size + over, Width: size}
			out = append(out, draft{outline: geom.Area{rect.Corners()}, role: RoleEdge, style: Strips,
				along: rect.Angle, rank: 1,
				why: []phrase.Phrase{phrase.Of("the end at the edge is the weak spot of a mend (Cockerell, Bookbinding, and the Care of Books)")}})
		}
	}
	return out
}
