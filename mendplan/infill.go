package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// missing returns what a loss has taken: the traced ring, and where it comes
// to the leaf's edge also what lies between it and the edge, and beyond the
// edge far enough for any overhang.
func (s *site) missing(r InForce, far float64) geom.Area {
	ring := s.ring(s.damage.Points)
	if !s.onLeaf(ring) {
		return nil
	}
	reach := r.Number(EdgeReach)
	out := ring
	for i := range 4 {
		if near := s.nearEdge(out, i, reach); !near.Empty() {
			out = geom.Union(out, sweep(near, s.sheet.outward(i).Mul(reach+far)))
		}
	}
	return out
}

// onLeaf reports whether any of the area lies on the leaf.
func (s *site) onLeaf(a geom.Area) bool {
	if a.Empty() {
		return false
	}
	inside := true
	for _, p := range a.Points() {
		inside = inside && s.sheet.Contains(p)
	}
	return inside || !geom.Intersect(a, geom.Area{s.sheet.Ring()}).Empty()
}

// nearEdge returns the part of the area within reach of edge i or beyond it.
func (s *site) nearEdge(a geom.Area, i int, reach float64) geom.Area {
	near := false
	for _, p := range a.Points() {
		near = near || s.sheet.depth(i, p) <= reach
	}
	if !near {
		return nil
	}
	p, u, out := s.sheet.point(i, -reach), s.sheet.along(i), s.sheet.outward(i)
	b := a.Bounds()
	size := b.Width() + b.Height() + p.Dist(b.Centre()) + 2*reach
	return geom.Intersect(a, geom.FromRing(geom.Ring{
		p.Sub(u.Mul(size)), p.Add(u.Mul(size)),
		p.Add(u.Mul(size)).Add(out.Mul(size)), p.Sub(u.Mul(size)).Add(out.Mul(size)),
	}))
}

// sweep returns all places that the area passes when it is pushed along v.
func sweep(a geom.Area, v geom.Pt) geom.Area {
	parts := []geom.Area{a, geom.Translate(v).ApplyArea(a)}
	for _, ring := range a {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			parts = append(parts, geom.FromRing(geom.Ring{p, q, q.Add(v), p.Add(v)}))
		}
	}
	return geom.Union(parts...)
}

// infill returns the piece in the loss's own shape with its thinned overlap,
// to the true edge and past it by the overhang where the loss comes to the
// edge, and the overlays over it that the rules ask for.
func (s *site) infill(r InForce) ([]draft, []Problem) {
	overhang, overlap := r.Number(FillOverhang), r.Number(FillOverlap)
	gone := s.missing(r, overhang+max(overlap, r.Number(OverlayMargin)+r.Number(SecondMargin)))
	if gone.Empty() {
		return nil, []Problem{s.badRing()}
	}
	area := geom.Offset(gone, overlap)
	if wide := r.Number(FillEdgeOverlap); wide > overlap {
		for i := range 4 {
			if near := s.nearEdge(gone, i, wide); !near.Empty() {
				area = geom.Union(area, geom.Offset(near, wide))
			}
		}
	}
	area = geom.SimplifyOut(area, min(r.Number(ShapeTolerance), overlap/2))
	out := s.wholes(s.trimmed(area, overhang), draft{role: RoleFill, style: Infill, infill: true,
		why: []phrase.Phrase{phrase.Of("the loss's own shape with %.4g mm thinned overlap", overlap)}})
	over := r.Word(FillOverlay)
	if over == "same side" || over == "both sides" {
		out = append(out, s.cover(gone, r, 0, draft{rank: 1})...)
	}
	if over == "other side" || over == "both sides" {
		wider := 0.0
		if over == "both sides" {
			wider = r.Number(SecondMargin) // so that both don't end on one line (F26a)
		}
		out = append(out, s.cover(gone, r, wider, draft{rank: 2, other: true})...)
	}
	return out, nil
}

// overlay returns light tissue over a loss, with its margin.
func (s *site) overlay(r InForce) ([]draft, []Problem) {
	gone := s.missing(r, r.Number(FillOverhang)+r.Number(OverlayMargin))
	if gone.Empty() {
		return nil, []Problem{s.badRing()}
	}
	return s.cover(gone, r, 0, draft{}), nil
}

// cover returns light tissue over an area, with the overlay margin and more.
func (s *site) cover(a geom.Area, r InForce, wider float64, like draft) []draft {
	like.role, like.style = RoleCover, Overlay
	area := geom.SimplifyOut(geom.Offset(a, r.Number(OverlayMargin)+wider), r.Number(ShapeTolerance))
	return s.wholes(s.trimmed(area, r.Number(FillOverhang)), like)
}

// wholes makes one piece of each connected part.
func (s *site) wholes(a geom.Area, like draft) []draft {
	var out []draft
	for _, part := range geom.Parts(a) {
		d := like
		d.outline, d.along = part, ownAngle(part)
		out = append(out, d)
	}
	return out
}

func (s *site) badRing() Problem {
	if len(s.clean(s.damage.Points)) >= 3 {
		return s.problem(BadTrace, Wrong, phrase.Of("The outline of %s encloses nothing on the leaf.", s.name()), phrase.Of("Trace it again."))
	}
	return s.problem(BadTrace, Wrong, phrase.Of("The outline of %s has fewer than three places.", s.name()), phrase.Of("Add points or delete the damage."))
}
