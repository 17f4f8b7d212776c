package scan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Registration lays a back over its front. BackToFront is what a leaf of a job
// records, so that a damage traced on one side shows on the other.
type Registration struct {
	BackToFront geom.Affine // back scan pixels to front scan pixels, mirrored
	Residual    float64     // mean distance of the mirrored outline from the front's, front scan pixels
	Doubt       float64     // how far a place may come to lie off, front scan pixels; see RegisterSides
	Upside      bool        // the back was scanned head down with regard to the front
}

// Corrected returns r put right by hand: after it, the back is turned about
// the front's place about by turnDeg, counter-clockwise as seen on the front,
// and shifted by shift, all in front scan pixels. Residual and Doubt stay what
// the outlines say.
func (r Registration) Corrected(shift geom.Pt, turnDeg float64, about geom.Pt) Registration {
	r.BackToFront = r.BackToFront.Then(geom.RotateAbout(about, turnDeg)).Then(geom.Translate(shift))
	return r
}

// RegisterSides finds how the back's scan lies over the front's: its outline,
// mirrored, is laid on the front's true edge corner on corner and then settled
// outline on outline, scale and a slight shear allowed, places that differ
// (a flap folded over, a shadow) given little weight. Both ways up are tried;
// head up is kept unless head down fits clearly better. For the doubt, each
// quarter of the back's outline is left out in turn: as far as the leaf's edge
// then moves anywhere, the outlines leave it open where it lies. An outline of
// fewer than three points is an error.
func RegisterSides(front, back Outline) (Registration, error) {
	if len(front.Polygon) < 3 || len(back.Polygon) < 3 || !allFinite(front) || !allFinite(back) {
		return Registration{}, phrase.Errorf("registering both sides: the outline of front and back is needed; find or trace both first")
	}
	best := Registration{Residual: math.Inf(1)}
	for turn := 0; turn < 2; turn++ {
		r, ok := settleSides(front, back, turn == 1)
		if ok && (turn == 0 || r.Residual < 0.6*best.Residual) {
			best = r
		}
	}
	if math.IsInf(best.Residual, 0) {
		return Registration{}, phrase.Errorf("registering both sides: the outlines have no extent; trace the edge by hand")
	}
	return best, nil
}

// settleSides starts from the corners and pulls the outlines together.
func settleSides(front, back Outline, upside bool) (Registration, bool) {
	order := [4]int{1, 0, 3, 2} // the back's head-right lies behind the front's head-left
	if upside {
		order = [4]int{3, 2, 1, 0}
	}
	var from, to []geom.Pt
	for i, k := range order {
		from, to = append(from, back.TrueEdge[k]), append(to, front.TrueEdge[i])
	}
	t, ok := fitAffine(from, to, nil)
	if !ok {
		return Registration{}, false
	}
	pts := evenly(back.Polygon, 800)
	ring := geom.Ring(front.Polygon)
	long := ring.Perimeter() / 4
	t = pullOnto(t, pts, ring, 0.02*long, 25)
	r := Registration{BackToFront: t, Upside: upside}
	for _, p := range pts {
		r.Residual += geom.DistToRing(t.Apply(p), ring) / float64(len(pts))
	}
	n := len(pts)
	for k := range 4 {
		without := append(append([]geom.Pt{}, pts[:k*n/4]...), pts[(k+1)*n/4:]...)
		u := pullOnto(t, without, ring, max(2, 3*r.Residual), 6)
		for i := 0; i < n; i += 8 {
			r.Doubt = max(r.Doubt, u.Apply(pts[i]).Dist(t.Apply(pts[i])))
		}
	}
	return r, true
}

// pullOnto settles t so that pts, mapped by it, lie on ring, in as many rounds
// as told. Places further off than reach, which shrinks from round to round,
// weigh little.
func pullOnto(t geom.Affine, pts []geom.Pt, ring geom.Ring, reach float64, rounds int) geom.Affine {
	for round := range rounds {
		near := max(2, reach*math.Pow(0.8, float64(round)))
		at, w := make([]geom.Pt, len(pts)), make([]float64, len(pts))
		for i, p := range pts {
			m := t.Apply(p)
			at[i] = nearestOnRing(m, ring)
			d := m.Dist(at[i]) / near
			w[i] = 1 / (1 + d*d)
		}
		next, ok := fitAffine(pts, at, w)
		if !ok {
			break
		}
		t = next
	}
	return t
}

// evenly returns n points spaced evenly along a ring.
func evenly(ring []geom.Pt, n int) []geom.Pt {
	l := geom.Ring(ring).Closed()
	long := l.Length()
	out := make([]geom.Pt, 0, n)
	k, done := 0, 0.0
	for i := range n {
		s := long * float64(i) / float64(n)
		for k+2 < len(l) && done+l[k].Dist(l[k+1]) < s {
			done += l[k].Dist(l[k+1])
			k++
		}
		d := l[k].Dist(l[k+1])
		if d == 0 {
			out = append(out, l[k])
			continue
		}
		out = append(out, l[k].Lerp(l[k+1], min(1, (s-done)/d)))
	}
	return out
}

func nearestOnRing(p geom.Pt, r geom.Ring) geom.Pt {
	best, d := r[0], math.Inf(1)
	for i, a := range r {
		b := r[(i+1)%len(r)]
		e := b.Sub(a)
		t := 0.0
		if n := e.Dot(e); n > 0 {
			t = max(0, min(1, p.Sub(a).Dot(e)/n))
		}
		if q := a.Lerp(b, t); q.Dist(p) < d {
			best, d = q, q.Dist(p)
		}
	}
	return best
}

// fitAffine is the weighted least-squares affine map of from onto to.
func fitAffine(from, to []geom.Pt, w []float64) (geom.Affine, bool) {
	var mf, mt geom.Pt
	sum := 0.0
	weight := func(i int) float64 {
		if w == nil {
			return 1
		}
		return w[i]
	}
	for i := range from {
		mf, mt = mf.Add(from[i].Mul(weight(i))), mt.Add(to[i].Mul(weight(i)))
		sum += weight(i)
	}
	if !(sum > 0) {
		return geom.Affine{}, false
	}
	mf, mt = mf.Mul(1/sum), mt.Mul(1/sum)
	var xx, xy, yy, ax, ay, bx, by float64
	for i := range from {
		p, q, k := from[i].Sub(mf), to[i].Sub(mt), weight(i)
		xx, xy, yy = xx+k*p.X*p.X, xy+k*p.X*p.Y, yy+k*p.Y*p.Y
		ax, ay = ax+k*p.X*q.X, ay+k*p.Y*q.X
		bx, by = bx+k*p.X*q.Y, by+k*p.Y*q.Y
	}
	det := xx*yy - xy*xy
	if !(det > 1e-9*(xx+yy)*(xx+yy)) {
		return geom.Affine{}, false
	}
	t := geom.Affine{A: (ax*yy - ay*xy) / det, B: (ay*xx - ax*xy) / det,
		D: (bx*yy - by*xy) / det, E: (by*xx - bx*xy) / det}
	o := t.Apply(mf)
	t.C, t.F = mt.X-o.X, mt.Y-o.Y
	return t, true
}
