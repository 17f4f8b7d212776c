package scan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// What is seen of one tear may be several things: slits between which its
// edges touch, a gap at its mouth wide enough for a loss, a spot of backing
// within it. Here they come together.

const (
	tearJoin  = 2.2 // mm between the tip of one slit and the next
	tearMouth = 6.0 // mm a tear's mouth may be wider than a slit
	gapWidth  = 2.6 // mm; a loss narrower than this with a tear behind it is the tear's mouth
)

// toMouth leads the start of a slit on to the true edge, straight out, when
// all of the way shows backing.
func (s *lossScene) toMouth(path []geom.Pt) []geom.Pt {
	if len(path) == 0 {
		return path
	}
	at := path[0].Mul(1 / s.work.step)
	x, y := int(at.X), int(at.Y)
	w, n, shut := s.work.w, 0, 0
	for ; n < int(tearMouth*s.mm); n++ {
		best, bx, by := 0.0, x, y // the steepest step outwards
		here := math.Sqrt(float64(s.outer[y*w+x]))
		for k := range stepX {
			i, j := x+stepX[k], y+stepY[k]
			if !s.ideal.get(i, j) {
				continue
			}
			if d := (here - math.Sqrt(float64(s.outer[j*w+i]))) / float64(stepLong[k]); d > best {
				best, bx, by = d, i, j
			}
		}
		if best == 0 {
			break
		}
		if x, y = bx, by; !s.open.on[y*w+x] {
			shut++
		}
	}
	// fibres and light rims may lie in the way
	if 3*shut > n+3 || !s.ideal.get(x, y) || s.outer[y*w+x] > 4 {
		return path
	}
	mouth := geom.Pt{X: float64(x) + 0.5, Y: float64(y) + 0.5}.Mul(s.work.step)
	if n < 2 || mouth.Dist(path[0]) < 1.5*s.work.step {
		return path
	}
	return append([]geom.Pt{mouth}, path...)
}

// joinTears makes one tear of stretches that follow one another or overlap end
// to end.
func (s *lossScene) joinTears(tears []Proposal) []Proposal {
	near := tearJoin * s.mm * s.work.step
	out := append([]Proposal(nil), tears...)
	for i := 0; i < len(out); i++ {
		a := out[i].Path
		best, which := near, -1
		for j := range out {
			b := out[j].Path
			if j == i || geom.DistToPath(b[len(b)-1], a) < near {
				continue
			}
			if d := max(geom.DistToPath(b[0], a), geom.DistToPath(a[len(a)-1], b)); d < best {
				best, which = d, j
			}
		}
		if which < 0 {
			continue
		}
		out[i].Path = spliced(a, out[which].Path)
		out[i].Confidence = max(out[i].Confidence, out[which].Confidence)
		out = append(out[:which], out[which+1:]...)
		i = -1 // from the start: the joined one may go on
	}
	return out
}

// spliced follows a as far as it comes near the start of b, then b.
func spliced(a, b []geom.Pt) []geom.Pt {
	l := geom.Path(a)
	cut, best := 1.0, math.Inf(1)
	for k := 0; k <= 200; k++ {
		if d := l.At(l.Length() * float64(k) / 200).Dist(b[0]); d < best {
			cut, best = float64(k)/200, d
		}
	}
	var out []geom.Pt
	done := 0.0
	for i, p := range a {
		if i > 0 {
			done += a[i-1].Dist(p)
		}
		if done > cut*l.Length() {
			break
		}
		out = append(out, p)
	}
	return append(out, b...)
}

// settleTears parts what was found into losses and tears, and drops what is
// there twice: a loss or hole that is part of a tear, and of two tears that
// run together the shorter.
func (s *lossScene) settleTears(found, slits []Proposal) []Proposal {
	var losses, out []Proposal
	for _, p := range found {
		if p.Kind == KindEdgeTear {
			slits = append(slits, p)
		} else {
			losses = append(losses, p)
		}
	}
	tears := s.joinTears(slits)
	for _, p := range losses {
		if !s.partOfTear(p, tears) {
			out = append(out, p)
		}
	}
	near := s.mm * s.work.step
	for i, p := range tears {
		double := false
		for j, q := range tears {
			if a, b := geom.Path(p.Path).Length(), geom.Path(q.Path).Length(); i != j && (a < b || a == b && j < i) {
				double = double || runsAlong(p.Path, q.Path, near) > 0.5
			}
		}
		if !double && s.opensOut(p.Path[0]) && !s.alongBorder(p.Path) {
			p.Why = phrase.Of("a slit of backing %.0f mm long", geom.Path(p.Path).Length()/s.work.step/s.mm)
			out = append(out, p)
		}
	}
	return out
}

// alongBorder reports that a path keeps to the border of the picture: there the
// leaf is cut off, not torn.
func (s *lossScene) alongBorder(path []geom.Pt) bool {
	w, h, near := float64(s.work.w)*s.work.step, float64(s.work.h)*s.work.step, 1.5*s.mm*s.work.step
	l, in := geom.Path(path), 0
	for i := range 11 {
		if q := l.At(l.Length() * float64(i) / 10); min(q.X, q.Y, w-q.X, h-q.Y) < near {
			in++
		}
	}
	return in > 5
}

// opensOut reports that a tear's start lies at the edge of the leaf as it is,
// closed over its slits: what begins further in is a stroke of ink that the
// backing's colour leads to.
func (s *lossScene) opensOut(start geom.Pt) bool {
	x, y := int(start.X/s.work.step), int(start.Y/s.work.step)
	if x < 0 || y < 0 || x >= s.work.w || y >= s.work.h {
		return true
	}
	return float64(s.shut[y*s.work.w+x]) <= s.mm*s.mm
}

// partOfTear reports that a loss or hole is what shows of a tear: mostly slit,
// or narrow and strung along the tear's path.
func (s *lossScene) partOfTear(p Proposal, tears []Proposal) bool {
	m := rasterise(p.Polygon, s.work.w, s.work.h, s.work.step)
	n := m.count()
	if 2*m.and(s.slit).count() > n {
		return true
	}
	near := gapWidth / 2 * s.mm * s.work.step
	for _, t := range tears {
		in := 0
		for _, q := range p.Polygon {
			if geom.DistToPath(q, t.Path) <= near {
				in++
			}
		}
		if 10*in >= 9*len(p.Polygon) {
			return true
		}
	}
	return false
}

// runsAlong is the share of p within d of q.
func runsAlong(p, q []geom.Pt, d float64) float64 {
	const n = 20
	l, in := geom.Path(p), 0
	for i := range n {
		if geom.DistToPath(l.At(l.Length()*(float64(i)+0.5)/n), q) <= d {
			in++
		}
	}
	return float64(in) / n
}
