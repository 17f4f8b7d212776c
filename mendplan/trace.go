package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// site is one damage on its leaf with all that its mends depend on. It is
// made afresh for each computation and read only.
type site struct {
	leaf   Leaf
	damage Damage
	frame  Frame
	sheet  Sheet
	paper  paperOf
	rules  Rules // the job's
}

// paperOf is what is known of a leaf's paper.
type paperOf struct {
	grammage float64 // g/m², 0 unknown
	grain    Grain
	coated   bool
	edge     geom.Ring // the leaf's edge as it is, leaf frame, may be nil
}

// in returns the rules that hold for a mend on this site.
func (s *site) in(m Mend) InForce { return InForce{Mend: m.Rules, Job: s.rules} }

// problem starts a problem that points at this damage.
func (s *site) problem(kind ProblemKind, weight Weight, words, hint phrase.Phrase) Problem {
	p := Problem{Kind: kind, Weight: weight, Leaf: s.leaf.ID, Side: s.damage.Side,
		Damage: s.damage.Number, Words: words, Hint: hint}
	for _, q := range s.damage.Points {
		if q.Finite() {
			at := q
			p.At = &at
			break
		}
	}
	return p
}

// at is problem with a place in the leaf frame.
func (s *site) at(q geom.Pt, kind ProblemKind, weight Weight, words, hint phrase.Phrase) Problem {
	p := s.problem(kind, weight, words, hint)
	if px := s.frame.ToScan(q); px.Finite() {
		p.At = &px
	}
	return p
}

// name is how messages call the damage: "tear 7 on leaf 3".
func (s *site) name() phrase.Phrase {
	return phrase.Of("%s %d on leaf %s", phrase.Of(string(s.damage.Kind)), s.damage.Number, markOf(s.leaf))
}

// clean maps points to the leaf frame and leaves out what is no place at all
// or repeats the one before.
func (s *site) clean(px []geom.Pt) geom.Path {
	out := make(geom.Path, 0, len(px))
	for _, p := range px {
		q := s.frame.ToLeaf(p)
		if !q.Finite() || math.Abs(q.X) > farthest || math.Abs(q.Y) > farthest {
			continue
		}
		if n := len(out); n == 0 || out[n-1].Dist(q) > geom.Grid/10 {
			out = append(out, q)
		}
	}
	return out
}

// farthest is how far from the leaf's corner, in mm, a point can be taken
// seriously: no leaf on a scanner is as wide.
const farthest = 10_000

// path maps a traced path and cuts off what lies beyond the true edge at
// either end, telling where it did. A path with fewer than two points left is
// nil.
func (s *site) path(px []geom.Pt) (p geom.Path, cutStart, cutEnd bool) {
	p = s.clean(px)
	p, cutStart = s.cutBefore(p)
	p, cutEnd = s.cutBefore(p.Reverse())
	if p = p.Reverse(); len(p) < 2 {
		return nil, cutStart, cutEnd
	}
	return p, cutStart, cutEnd
}

// cutBefore drops the leading points that lie off the leaf and starts the
// path where it comes in.
func (s *site) cutBefore(p geom.Path) (geom.Path, bool) {
	for i, q := range p {
		if !s.sheet.Contains(q) {
			continue
		}
		if i == 0 {
			return p, false
		}
		entry := s.entry(p[i-1], q)
		if entry.Dist(q) <= geom.Grid {
			return p[i:], true
		}
		return append(geom.Path{entry}, p[i:]...), true
	}
	return nil, len(p) > 0
}

// entry returns where the way from a point off the leaf to one on it comes in.
func (s *site) entry(off, on geom.Pt) geom.Pt {
	t := 0.0
	for i := range 4 {
		a, b := s.sheet.depth(i, off), s.sheet.depth(i, on)
		if a < 0 && b > a {
			t = max(t, -a/(b-a))
		}
	}
	return off.Lerp(on, min(t, 1))
}

// ring maps a traced ring; nil if it encloses nothing on the leaf.
func (s *site) ring(px []geom.Pt) geom.Area {
	r := s.clean(px)
	if len(r) < 3 {
		return nil
	}
	return geom.FromRing(geom.Ring(r))
}

// simplified returns the path within tol of p and how far p strays from it;
// zero for a path that was straight already.
func simplified(p geom.Path, tol float64) (geom.Path, float64) {
	q := geom.Simplify(p, tol)
	stray := 0.0
	for _, v := range p {
		stray = max(stray, geom.DistToPath(v, q))
	}
	if stray < geom.Grid/10 {
		stray = 0
	}
	return q, stray
}
