package leafview

import (
	"leafmend/mendplan/geom"
)

// snapKind says what a point holds on to, strongest last.
type snapKind int

const (
	snapNone    snapKind = iota
	snapOutline          // the leaf's edge as it is
	snapEdge             // somewhere on a damage's line
	snapFold
	snapTrueEdge
	snapVertex // a point of a damage, or a corner
	snapEnd    // an end of an open path
	snapFirst  // the first point of the shape being traced
)

// words names what is held on to, for the hint.
func (k snapKind) words() string {
	return [...]string{"", "edge of the leaf", "line", "fold", "true edge", "point", "end of the line", "first point"}[k]
}

// snap is where a new point would go and what it holds on to.
type snap struct {
	at   geom.Pt // scan pixels
	kind snapKind
	ref  int  // the damage it holds on to, 0 for none
	spot spot // where on it
}

// snapAt finds what a new point near the scan position p holds on to within
// the radius the habits set. Points win over lines within the radius, because
// a line is always near its own points; among equals the nearest wins.
func (s *Surface) snapAt(p geom.Pt) snap {
	reach := s.habits.SnapRadius * s.px / s.view.Scale
	best := snap{at: p}
	dist := reach
	offer := func(c snap, d float64) {
		if d <= reach && (rank(c.kind) > rank(best.kind) || rank(c.kind) == rank(best.kind) && d < dist) {
			best, dist = c, d
		}
	}
	s.snapShapes(p, reach, offer)
	s.snapEdges(p, offer)
	if first, ok := s.tool.(interface{ first() (geom.Pt, bool) }); ok {
		if at, ok := first.first(); ok {
			offer(snap{at: at, kind: snapFirst}, at.Dist(p))
		}
	}
	return best
}

// rank groups kinds: points before lines before nothing.
func rank(k snapKind) int {
	switch {
	case k == snapNone:
		return 0
	case k < snapVertex:
		return 1
	case k == snapFirst:
		return 3
	}
	return 2
}

// snapShapes offers points and lines of the damages of this side.
func (s *Surface) snapShapes(p geom.Pt, reach float64, offer func(snap, float64)) {
	near := Rect{p, p}.Grow(reach)
	for i, sh := range s.scene.Shapes {
		if sh.OtherSide || sh.Faint || !s.index.boxes[i].Meets(near) || s.tool.hides(sh.Ref) {
			continue
		}
		if v, ok := nearestVertex(sh, p); ok {
			kind := snapVertex
			if line := sh.paths()[v.path]; !sh.Closed && (v.seg == 0 || v.seg == len(line)-1) {
				kind = snapEnd
			}
			offer(snap{v.at, kind, sh.Ref, v}, v.dist)
		}
		if e, ok := nearestSpot(sh, p); ok {
			offer(snap{e.at, snapEdge, sh.Ref, e}, e.dist)
		}
	}
}

// snapEdges offers the leaf's own lines.
func (s *Surface) snapEdges(p geom.Pt, offer func(snap, float64)) {
	for _, c := range s.scene.TrueEdge {
		offer(snap{at: c, kind: snapVertex}, c.Dist(p))
	}
	lines := []struct {
		pts    []geom.Pt
		closed bool
		kind   snapKind
	}{{s.scene.TrueEdge, true, snapTrueEdge}, {s.scene.Fold, false, snapFold}, {s.scene.Outline, true, snapOutline}}
	for _, l := range lines {
		if e, ok := nearestOn(l.pts, l.closed, p); ok {
			offer(snap{at: e.at, kind: l.kind}, e.dist)
		}
	}
}
