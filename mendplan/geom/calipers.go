package geom

import "math"

// Rect is a rectangle at any angle. Length runs along Angle, in degrees
// counter-clockwise as seen, from 0 up to 180; Width across it.
type Rect struct {
	Center        Pt
	Angle         float64
	Length, Width float64
}

// Direction returns the vector of length one at the given angle, in degrees
// counter-clockwise as seen (y runs down, so 90° is up the page).
func Direction(deg float64) Pt {
	sin, cos := sincosDeg(deg)
	return Pt{cos, -sin}
}

// AngleOf returns the angle of the direction v in degrees counter-clockwise
// as seen, from 0 up to 360; 0 for the zero vector.
func AngleOf(v Pt) float64 {
	return wrap(math.Atan2(-v.Y, v.X)*180/math.Pi, 360)
}

// Corners returns the corners of r as a ring of positive area.
func (r Rect) Corners() Ring {
	u := Direction(r.Angle)
	l, w := u.Mul(r.Length/2), Pt{-u.Y, u.X}.Mul(r.Width/2)
	return Ring{
		r.Center.Sub(l).Sub(w), r.Center.Add(l).Sub(w),
		r.Center.Add(l).Add(w), r.Center.Sub(l).Add(w),
	}
}

// Area returns Length times Width.
func (r Rect) Area() float64 { return r.Length * r.Width }

// Expand returns r grown by d on all four sides, its sizes held to 0.
func (r Rect) Expand(d float64) Rect {
	r.Length, r.Width = max(0, r.Length+2*d), max(0, r.Width+2*d)
	return r
}

// MinRect returns the rectangle of least area around pts, Length being its
// longer side. The zero Rect for no points.
func MinRect(pts []Pt) Rect {
	return calipers(pts, func(along, across float64) float64 { return along * across })
}

// MinWidthRect returns the rectangle around pts whose shorter side is least:
// the narrowest straight strip that covers them, cut to length. The zero Rect
// for no points.
func MinWidthRect(pts []Pt) Rect {
	return calipers(pts, func(along, across float64) float64 { return across })
}

// RectAlong returns the rectangle around pts that lies at the given angle, in
// degrees counter-clockwise as seen. Its Length runs along that angle even
// where Width is the greater. The zero Rect for no points.
func RectAlong(pts []Pt, angleDeg float64) Rect {
	if len(pts) == 0 {
		return Rect{}
	}
	return rectAlong(pts, Direction(angleDeg), wrap(angleDeg, 180))
}

func rectAlong(pts []Pt, u Pt, angle float64) Rect {
	v := Pt{-u.Y, u.X}
	lo, hi := Pt{inf, inf}, Pt{-inf, -inf}
	o := pts[0]
	for _, p := range pts {
		q := Pt{p.Sub(o).Dot(u), p.Sub(o).Dot(v)}
		lo.X, hi.X = min(lo.X, q.X), max(hi.X, q.X)
		lo.Y, hi.Y = min(lo.Y, q.Y), max(hi.Y, q.Y)
	}
	m := lo.Lerp(hi, 0.5)
	return Rect{
		Center: o.Add(u.Mul(m.X)).Add(v.Mul(m.Y)),
		Angle:  angle,
		Length: hi.X - lo.X,
		Width:  hi.Y - lo.Y,
	}
}

// calipers turns a pair of calipers once around the hull of pts and returns
// the rectangle of least cost, which depends on its extents along and across
// an edge of the hull. For least area and least width the best rectangle
// always lies along an edge.
func calipers(pts []Pt, cost func(along, across float64) float64) Rect {
	h := Hull(pts)
	if len(h) < 3 {
		return flatRect(h)
	}
	at := func(i int) Pt { return h[i%len(h)] }
	best, bestAt := inf, 0
	right, far, left := 1, 1, 1
	for i := range h {
		u := at(i + 1).Sub(at(i)).Unit()
		v := Pt{-u.Y, u.X}
		for right = max(right, i+1); at(right+1).Sub(at(right)).Dot(u) > 0; {
			right++
		}
		for far = max(far, right); at(far+1).Sub(at(far)).Dot(v) > 0; {
			far++
		}
		for left = max(left, far); at(left+1).Sub(at(left)).Dot(u) < 0; {
			left++
		}
		along, across := at(right).Sub(at(left)).Dot(u), at(far).Sub(at(i)).Dot(v)
		if c := cost(along, across); c < best {
			best, bestAt = c, i
		}
	}
	u := at(bestAt + 1).Sub(at(bestAt)).Unit()
	return longSide(rectAlong(h, u, wrap(AngleOf(u), 180)))
}

// flatRect is the rectangle around none, one or two points.
func flatRect(h Ring) Rect {
	switch len(h) {
	case 0:
		return Rect{}
	case 1:
		return Rect{Center: h[0]}
	}
	return Rect{
		Center: h[0].Lerp(h[1], 0.5),
		Angle:  wrap(AngleOf(h[1].Sub(h[0])), 180),
		Length: h[0].Dist(h[1]),
	}
}

// longSide returns the same rectangle with Length the longer side.
func longSide(r Rect) Rect {
	if r.Length < r.Width {
		r.Length, r.Width = r.Width, r.Length
		r.Angle = wrap(r.Angle+90, 180)
	}
	return r
}

// wrap brings deg into [0, turn).
func wrap(deg, turn float64) float64 {
	deg = math.Mod(deg, turn)
	if deg < 0 {
		deg += turn
	}
	if deg >= turn {
		return 0
	}
	return deg
}

// sincosDeg is exact at multiples of 90°.
func sincosDeg(deg float64) (sin, cos float64) {
	switch wrap(deg, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(deg * math.Pi / 180)
}
