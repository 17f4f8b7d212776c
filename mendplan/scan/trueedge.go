package scan

import (
	"math"

	"leafmend/mendplan/geom"
)

// trueEdge is the quadrilateral a leaf had before anything was lost from it,
// as fitted to the outline that is left. Places are in pixels of the ring.
type trueEdge struct {
	corner  [4]geom.Pt // head-left, head-right, tail-right, tail-left as displayed
	side    [4]sideFit // head, right, tail, left
	support float64    // share of the sides that lies on the lines, 0 to 1
}

// sideFit is one side's line: v = off + slope·u in the side's own frame, u
// along the side (clockwise as seen), v outwards.
type sideFit struct {
	e, n       geom.Pt // directions of u and v
	off, slope float64
	lo, hi     float64 // extent of the leaf in u
	support    float64
	noise      float64 // how far the edge wanders about the line, pixels
}

// fitTrueEdge fits four lines to a ring in pixels of a picture of w×h.
func fitTrueEdge(ring []geom.Pt, w, h float64) trueEdge {
	angle, _ := boxOf(hull(ring))
	var t trueEdge
	e := geom.Pt{X: math.Cos(angle), Y: math.Sin(angle)}
	for s := range t.side {
		t.side[s] = fitSide(ring, e)
		e = geom.Pt{X: -e.Y, Y: e.X} // clockwise as seen
	}
	for s := range t.side {
		t.side[s].borrow(t.side[(s+2)%4], t.side[(s+1)%4], t.side[(s+3)%4], ring)
		t.support += t.side[s].support / 4
	}
	for s := range t.corner {
		t.corner[s] = meet(t.side[(s+3)%4], t.side[s])
	}
	return t
}

// rotation is the mean turn of head and tail, degrees counter-clockwise as
// seen.
func (t trueEdge) rotation() float64 {
	d := t.corner[1].Sub(t.corner[0]).Add(t.corner[2].Sub(t.corner[3]))
	if d == (geom.Pt{}) {
		return 0
	}
	r := -math.Atan2(d.Y, d.X) * 180 / math.Pi
	return math.Round(r*1000) / 1000
}

// at is the place on the line at u.
func (s sideFit) at(u float64) geom.Pt {
	return s.e.Mul(u).Add(s.n.Mul(s.off + s.slope*u))
}

// frame returns q in the side's own frame.
func (s sideFit) frame(q geom.Pt) (u, v float64) { return q.Dot(s.e), q.Dot(s.n) }

// meet is where two sides cross; sides that do not (a degenerate ring) meet
// at the nearer end.
func meet(a, b sideFit) geom.Pt {
	p, q := a.at(a.lo), b.at(b.lo)
	d, f := a.at(a.lo+1).Sub(p), b.at(b.lo+1).Sub(q)
	den := d.Cross(f)
	if math.Abs(den) < 1e-6 {
		return q
	}
	return p.Add(d.Mul(q.Sub(p).Cross(f) / den))
}

const sideBins = 240

// profile is the outermost v of the ring in each of sideBins stretches of u;
// NaN where a stretch holds none.
func (s sideFit) profile(ring []geom.Pt) []float64 {
	v := make([]float64, sideBins)
	for i := range v {
		v[i] = math.NaN()
	}
	for _, q := range ring {
		u, x := s.frame(q)
		i := int((u - s.lo) / (s.hi - s.lo) * sideBins)
		if i >= 0 && i < sideBins && !(v[i] >= x) {
			v[i] = x
		}
	}
	return v
}

func (s sideFit) binAt(i int) float64 {
	return s.lo + (s.hi-s.lo)*(float64(i)+0.5)/sideBins
}

// fitSide finds the line that most of the outermost points along direction e
// lie on, none of the leaf reaching far beyond it. e runs clockwise as seen,
// so outwards is to its left: up on the page for e to the right.
func fitSide(ring []geom.Pt, e geom.Pt) sideFit {
	s := sideFit{e: e, n: geom.Pt{X: e.Y, Y: -e.X}}
	lo, hi := turnedBox(ring, s.e)
	s.lo, s.hi = lo.X, hi.X
	if s.hi-s.lo < 1 {
		s.hi = s.lo + 1
	}
	prof := s.profile(ring)
	tol := max(1.5, 0.004*(s.hi-s.lo))
	best := -math.MaxFloat64
	span := (s.hi - s.lo) / sideBins
	for i := 2; i < sideBins-2; i += 2 {
		for j := i + sideBins/5; j < sideBins-2; j += 2 {
			slope := (prof[j] - prof[i]) / (span * float64(j-i))
			if !(math.Abs(slope) < 0.12) {
				continue
			}
			off := prof[i] - slope*s.binAt(i)
			if v := s.vote(prof, off, slope, tol); v > best {
				best, s.off, s.slope = v, off, slope
			}
		}
	}
	if best == -math.MaxFloat64 {
		s.off, s.slope = s.n.Dot(ring[0]), 0
		for _, q := range ring {
			s.off = max(s.off, q.Dot(s.n))
		}
	}
	for range 3 {
		s.settle(prof, tol)
	}
	return s
}

// vote counts what lies on a line: full for a point on it, less further in,
// and against it for a point beyond it.
func (s sideFit) vote(prof []float64, off, slope, tol float64) float64 {
	sum := 0.0
	for i, v := range prof {
		d := off + slope*s.binAt(i) - v
		switch {
		case d != d || d > tol:
		case d >= -tol:
			sum += 1 - (d/tol)*(d/tol)
		default:
			sum -= 0.6
		}
	}
	return sum
}

// settle fits the line to the points on it by least squares.
func (s *sideFit) settle(prof []float64, tol float64) {
	var n, su, sv, suu, suv float64
	var dev []float32
	for i, v := range prof {
		u := s.binAt(i)
		d := s.off + s.slope*u - v
		if math.Abs(d) < tol {
			n, su, sv, suu, suv = n+1, su+u, sv+v, suu+u*u, suv+u*v
			dev = append(dev, float32(math.Abs(d)))
		}
	}
	s.support = n / sideBins
	s.noise = 1.48 * float64(median(dev))
	if det := n*suu - su*su; n > 8 && det > 1e-9 {
		s.slope = (n*suv - su*sv) / det
		s.off = (sv - s.slope*su) / n
	}
}

// borrow gives a side too ragged to have a line of its own the direction of
// the opposite one, or square to a neighbour, laid to the outermost points.
func (s *sideFit) borrow(opp, next, prev sideFit, ring []geom.Pt) {
	if s.support >= 0.3 {
		return
	}
	from := opp // all four slopes are equal on a rectangle
	if opp.support < 0.3 {
		from = next
		if prev.support > next.support {
			from = prev
		}
	}
	if from.support < 0.3 {
		return
	}
	var v []float32
	for i, x := range s.profile(ring) {
		if x == x {
			v = append(v, float32(x-from.slope*s.binAt(i)))
		}
	}
	s.slope, s.off = from.slope, float64(quantile(v, 0.95))
}
