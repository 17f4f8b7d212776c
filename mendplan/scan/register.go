package scan

import (
	"errors"
	"math"

	"leafmend/mendplan/geom"
)

// Affine maps a point to (XX·x + XY·y + DX, YX·x + YY·y + DY). The zero value
// maps everything to the origin.
type Affine struct{ XX, XY, DX, YX, YY, DY float64 }

// Apply maps p.
func (t Affine) Apply(p geom.Pt) geom.Pt {
	return geom.Pt{X: t.XX*p.X + t.XY*p.Y + t.DX, Y: t.YX*p.X + t.YY*p.Y + t.DY}
}

// Invert returns the map back, and false when there is none.
func (t Affine) Invert() (Affine, bool) {
	d := t.XX*t.YY - t.XY*t.YX
	if !(math.Abs(d) > 1e-12) {
		return Affine{}, false
	}
	r := Affine{XX: t.YY / d, XY: -t.XY / d, YX: -t.YX / d, YY: t.XX / d}
	o := r.Apply(geom.Pt{X: t.DX, Y: t.DY})
	r.DX, r.DY = -o.X, -o.Y
	return r, true
}

// Registration lays a back over its front.
type Registration struct {
	BackToFront Affine  // back scan pixels to front scan pixels, mirrored
	Residual    float64 // mean distance of the mirrored outline from the front's, front scan pixels
	Upside      bool    // the back was scanned head down with regard to the front
}

// RegisterSides finds how the back's scan lies over the front's: its outline,
// mirrored, is laid on the front's true edge corner on corner and then settled
// outline on outline, scale and a slight shear allowed, places that differ
// (a flap folded over, a shadow) given little weight. Both ways up are tried;
// head up is kept unless head down fits clearly better. An outline of fewer
// than three points is an error.
func RegisterSides(front, back Outline) (Registration, error) {
	if len(front.Polygon) < 3 || len(back.Polygon) < 3 || !allFinite(front) || !allFinite(back) {
		return Registration{}, errors.New("registering both sides: the outline of front and back is needed; find or trace both first")
	}
	best := Registration{Residual: math.Inf(1)}
	for turn := 0; turn < 2; turn++ {
		r, ok := settleSides(front, back, turn == 1)
		if ok && (turn == 0 || r.Residual < 0.6*best.Residual) {
			best = r
		}
	}
	if math.IsInf(best.Residual, 0) {
		return Registration{}, errors.New("registering both sides: the outlines have no extent; trace the edge by hand")
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
	for round := range 25 {
		reach := max(2, long*0.02*math.Pow(0.8, float64(round)))
		q, at, w := make([]geom.Pt, 0, len(pts)), make([]geom.Pt, 0, len(pts)), make([]float64, 0, len(pts))
		for _, p := range pts {
			m := t.Apply(p)
			n := nearestOnRing(m, ring)
			d := m.Dist(n) / reach
			q, at, w = append(q, p), append(at, n), append(w, 1/(1+d*d))
		}
		next, ok := fitAffine(q, at, w)
		if !ok {
			break
		}
		t = next
	}
	sum := 0.0
	for _, p := range pts {
		sum += geom.DistToRing(t.Apply(p), ring)
	}
	return Registration{BackToFront: t, Residual: sum / float64(len(pts)), Upside: upside}, true
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
func fitAffine(from, to []geom.Pt, w []float64) (Affine, bool) {
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
		return Affine{}, false
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
		return Affine{}, false
	}
	t := Affine{XX: (ax*yy - ay*xy) / det, XY: (ay*xx - ax*xy) / det,
		YX: (bx*yy - by*xy) / det, YY: (by*xx - bx*xy) / det}
	o := t.Apply(mf)
	t.DX, t.DY = mt.X-o.X, mt.Y-o.Y
	return t, true
}
