package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// tear is a path or a forked one in the leaf frame, ready to be mended: the
// main path first. Its root is where work begins (F13).
type tear struct {
	paths []tearPath
}

// tearPath is one path of a tear with what happens at its ends.
type tearPath struct {
	line       geom.Path
	start, end pathEnd
	// root is true when work begins at the start, false when at the end.
	fromStart bool
}

// endAt says how a path ends.
type endAt int

const (
	blindEnd endAt = iota // inside the leaf
	edgeEnd               // at the true edge
	holeEnd               // at the edge as it is, such as the rim of a loss
	joinEnd               // on another path of the same tear
)

// pathEnd is one end of a path.
type pathEnd struct {
	at    endAt
	place geom.Pt
	// out is the unit direction in which tissue goes on past the end: off
	// the leaf at an edge, along the tear elsewhere.
	out geom.Pt
	// gap is the distance from place to the true edge, at an edge.
	gap  float64
	edge int // index of the edge, at an edge
}

// tearOf reads the paths of a tear from its trace.
func (s *site) tearOf(rules InForce) (tear, []Problem) {
	var t tear
	main, cs, ce := s.path(s.damage.Points)
	if main == nil {
		return t, []Problem{s.badPath()}
	}
	reach := rules.Number(EdgeReach)
	t.paths = append(t.paths, tearPath{
		line:  main,
		start: s.endOf(main.Reverse(), s.damage.Start, cs, reach),
		end:   s.endOf(main, s.damage.End, ce, reach),
	})
	for _, px := range s.damage.Forks {
		fork, _, ce := s.path(px)
		if fork == nil {
			continue
		}
		fork = joinTo(fork, t.paths, joinReach)
		p := tearPath{line: fork, end: s.endOf(fork, EndAuto, ce, reach)}
		p.start = pathEnd{at: joinEnd, place: fork[0], out: tangent(fork.Reverse())}
		t.paths = append(t.paths, p)
	}
	for i := range t.paths {
		p := &t.paths[i]
		p.fromStart = p.start.at != edgeEnd || p.end.at == edgeEnd
		if p.start.at == joinEnd {
			p.fromStart = p.end.at == edgeEnd
		}
	}
	return t, nil
}

func (s *site) badPath() Problem {
	if len(s.clean(s.damage.Points)) >= 2 {
		return s.problem(BadTrace, Wrong, phrase.Of("The trace of %s lies outside the leaf.", s.name()), phrase.Of("Trace it again, or set the leaf's corners again."))
	}
	return s.problem(BadTrace, Wrong, phrase.Of("The trace of %s has fewer than two places.", s.name()), phrase.Of("Add a point or delete the damage."))
}

// joinReach is how far, in mm, the beginning of a fork may lie from the path
// it leaves and still be led to it.
const joinReach = 5

// joinTo leads the beginning of a fork onto the nearest earlier path.
func joinTo(fork geom.Path, paths []tearPath, within float64) geom.Path {
	best, at := within, geom.Pt{}
	for _, p := range paths {
		if d, s := p.line.Nearest(fork[0]); d < best {
			best, at = d, p.line.At(s)
		}
	}
	if best == within || best < geom.Grid {
		return fork
	}
	return append(geom.Path{at}, fork...)
}

// endOf tells how the last point of p ends.
func (s *site) endOf(p geom.Path, said EndKind, cut bool, reach float64) pathEnd {
	e := pathEnd{place: p[len(p)-1], out: tangent(p)}
	edge, depth := s.sheet.nearestEdge(e.place)
	switch {
	case said == EndBlind:
		return e
	case cut, depth <= reach:
		edge, depth = s.edgeAhead(e, reach)
		e.at, e.edge, e.gap, e.out = edgeEnd, edge, max(0, depth), s.sheet.outward(edge)
	case said == EndEdge, s.onRim(e.place, reach):
		e.at = holeEnd
	}
	return e
}

// edgeAhead chooses, among the edges within reach of an end near a corner,
// the one the path runs to most squarely.
func (s *site) edgeAhead(e pathEnd, reach float64) (int, float64) {
	best, depth := s.sheet.nearestEdge(e.place)
	squarest := e.out.Dot(s.sheet.outward(best))
	for i := range 4 {
		if d := s.sheet.depth(i, e.place); d <= reach {
			if c := e.out.Dot(s.sheet.outward(i)); c > squarest+1e-9 {
				best, depth, squarest = i, d, c
			}
		}
	}
	return best, depth
}

// onRim reports whether p lies at the leaf's edge as it is.
func (s *site) onRim(p geom.Pt, reach float64) bool {
	return len(s.paper.edge) > 2 && geom.DistToRing(p, s.paper.edge) <= reach
}

// tangent returns the direction in which p ends, taken over its last stretch
// so that a shaky last point does not turn it.
func tangent(p geom.Path) geom.Pt {
	n := p.Length()
	last := p[len(p)-1]
	d := last.Sub(p.At(n - min(n, tangentOver))).Unit()
	if d == (geom.Pt{}) {
		for i := len(p) - 2; i >= 0 && d == (geom.Pt{}); i-- {
			d = last.Sub(p[i]).Unit()
		}
	}
	return d
}

// tangentOver is the length, in mm, over which directions of ends are taken.
const tangentOver = 3

// margins are the sizes of a tear's mend in mm.
type margins struct {
	side, end, overhang float64
}

// marginsOf reads the sizes for the k-th mend of a damage: the second, on
// the other side, is wider so that both don't end on one line (F26a).
func marginsOf(r InForce, second bool) margins {
	m := margins{side: r.Number(SideMargin), end: r.Number(EndMargin), overhang: r.Number(EdgeOverhang)}
	if second {
		m.side += r.Number(SecondMargin)
		m.end += r.Number(SecondMargin)
	}
	return m
}

// toEdge returns, for each path, how far along the tear it is from place to
// the leaf's edge: what orders pieces from the root outwards.
func (t tear) toEdge(path int, s float64) float64 {
	p := t.paths[path]
	n := p.line.Length()
	best := math.Inf(1)
	if p.start.at == edgeEnd {
		best = s
	}
	if p.end.at == edgeEnd {
		best = min(best, n-s)
	}
	if p.start.at == joinEnd {
		// Forks hang on a path read before them, so this ends.
		for i := range path {
			if d, at := t.paths[i].line.Nearest(p.line[0]); d < geom.Grid {
				best = min(best, s+t.toEdge(i, at))
				break
			}
		}
	}
	if math.IsInf(best, 1) && p.start.at != joinEnd {
		return n - s // blind at both ends: from start to end
	}
	return best
}
