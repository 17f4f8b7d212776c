package geom

import "errors"

// Affine is the map x' = A·x + B·y + C, y' = D·x + E·y + F. The zero Affine
// throws everything onto the origin; begin with Identity.
type Affine struct{ A, B, C, D, E, F float64 }

// ErrFlat is returned for a map that cannot be undone because it presses the
// plane onto a line or a point.
var ErrFlat = errors.New("the map presses the plane flat and cannot be undone")

// Identity returns the map that leaves everything where it is.
func Identity() Affine { return Affine{A: 1, E: 1} }

// Translate returns the shift by d.
func Translate(d Pt) Affine { return Affine{1, 0, d.X, 0, 1, d.Y} }

// Rotate returns the turn about the origin by deg degrees counter-clockwise
// as seen, exact at quarter turns.
func Rotate(deg float64) Affine {
	sin, cos := sincosDeg(deg)
	return Affine{A: cos, B: sin, D: -sin, E: cos}
}

// RotateAbout returns the turn about c by deg degrees counter-clockwise as
// seen.
func RotateAbout(c Pt, deg float64) Affine {
	return Translate(c.Mul(-1)).Then(Rotate(deg)).Then(Translate(c))
}

// Scale returns the map that stretches x and y from the origin.
func Scale(x, y float64) Affine { return Affine{A: x, E: y} }

// MirrorX returns the map between the two sides of a leaf of the given width:
// x' = width − x. It undoes itself.
func MirrorX(width float64) Affine { return Affine{A: -1, C: width, E: 1} }

// Then returns the map that does m first and n after it.
func (m Affine) Then(n Affine) Affine {
	return Affine{
		n.A*m.A + n.B*m.D, n.A*m.B + n.B*m.E, n.A*m.C + n.B*m.F + n.C,
		n.D*m.A + n.E*m.D, n.D*m.B + n.E*m.E, n.D*m.C + n.E*m.F + n.F,
	}
}

// Mul returns the matrix product m·n: the map that does n first and m after.
func (m Affine) Mul(n Affine) Affine { return n.Then(m) }

// Det returns how many times m multiplies areas, negative if it mirrors.
func (m Affine) Det() float64 { return m.A*m.E - m.B*m.D }

// Inverse returns the map that undoes m, or ErrFlat.
func (m Affine) Inverse() (Affine, error) {
	k := m.Det()
	if k == 0 || k-k != 0 {
		return Affine{}, ErrFlat
	}
	a, b, d, e := m.E/k, -m.B/k, -m.D/k, m.A/k
	return Affine{a, b, -(a*m.C + b*m.F), d, e, -(d*m.C + e*m.F)}, nil
}

// Apply returns where m takes p.
func (m Affine) Apply(p Pt) Pt {
	return Pt{m.A*p.X + m.B*p.Y + m.C, m.D*p.X + m.E*p.Y + m.F}
}

// ApplyPath returns where m takes l.
func (m Affine) ApplyPath(l Path) Path { return Path(m.points(l)) }

// ApplyRing returns where m takes r, run the other way round if m mirrors, so
// that the sign of its area stays.
func (m Affine) ApplyRing(r Ring) Ring {
	out := Ring(m.points(r))
	if m.Det() < 0 {
		return out.Reverse()
	}
	return out
}

// ApplyArea returns where m takes a; outers stay positive, holes negative.
func (m Affine) ApplyArea(a Area) Area {
	if a.Empty() {
		return nil
	}
	out := make(Area, len(a))
	for i, r := range a {
		out[i] = m.ApplyRing(r)
	}
	return out
}

func (m Affine) points(pts []Pt) []Pt {
	if pts == nil {
		return nil
	}
	out := make([]Pt, len(pts))
	for i, p := range pts {
		out[i] = m.Apply(p)
	}
	return out
}
