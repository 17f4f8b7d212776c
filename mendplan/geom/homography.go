package geom

import "math"

// Homography is a map of the plane that keeps lines straight, as a photograph
// does of a flat leaf: (x, y, 1) is multiplied by the matrix M and divided by
// the third coordinate. The zero Homography maps nothing; begin with a fit.
type Homography struct{ M [3][3]float64 }

// Homography returns m as a homography.
func (m Affine) Homography() Homography {
	return Homography{[3][3]float64{{m.A, m.B, m.C}, {m.D, m.E, m.F}, {0, 0, 1}}}
}

// Apply returns where h takes p; not finite for a point on the horizon.
func (h Homography) Apply(p Pt) Pt {
	w := h.depth(p)
	return Pt{
		(h.M[0][0]*p.X + h.M[0][1]*p.Y + h.M[0][2]) / w,
		(h.M[1][0]*p.X + h.M[1][1]*p.Y + h.M[1][2]) / w,
	}
}

// ApplyPath returns where h takes the points of l.
func (h Homography) ApplyPath(l Path) Path {
	if l == nil {
		return nil
	}
	out := make(Path, len(l))
	for i, p := range l {
		out[i] = h.Apply(p)
	}
	return out
}

// depth is the third coordinate, zero on the horizon.
func (h Homography) depth(p Pt) float64 { return h.M[2][0]*p.X + h.M[2][1]*p.Y + h.M[2][2] }

// Then returns the map that does h first and g after it.
func (h Homography) Then(g Homography) Homography {
	var out Homography
	for i := range 3 {
		for j := range 3 {
			for k := range 3 {
				out.M[i][j] += g.M[i][k] * h.M[k][j]
			}
		}
	}
	return out
}

// Inverse returns the map that undoes h, or ErrFlat.
func (h Homography) Inverse() (Homography, error) {
	m := &h.M
	var out Homography
	for i := range 3 {
		for j := range 3 {
			a, b, c, d := (j+1)%3, (j+2)%3, (i+1)%3, (i+2)%3
			out.M[i][j] = m[a][c]*m[b][d] - m[a][d]*m[b][c]
		}
	}
	det := h.det()
	if det == 0 || det-det != 0 {
		return Homography{}, ErrFlat
	}
	for i := range 3 {
		for j := range 3 {
			out.M[i][j] /= det
		}
	}
	return out.scaled(), nil
}

func (h Homography) det() float64 {
	m := &h.M
	return m[0][0]*(m[1][1]*m[2][2]-m[1][2]*m[2][1]) +
		m[0][1]*(m[1][2]*m[2][0]-m[1][0]*m[2][2]) +
		m[0][2]*(m[1][0]*m[2][1]-m[1][1]*m[2][0])
}

// Residuals returns, for each pair, the distance from where h takes the point
// of from to its partner in to, in the units of to. Pairs that lack a partner
// are left out.
func (h Homography) Residuals(from, to []Pt) []float64 {
	out := make([]float64, min(len(from), len(to)))
	for i := range out {
		out[i] = h.Apply(from[i]).Dist(to[i])
	}
	return out
}

// scaled returns the same map with its last element 1 where it can be.
func (h Homography) scaled() Homography {
	k := h.M[2][2]
	if math.Abs(k) < 1e-300 {
		return h
	}
	for i := range h.M {
		for j := range h.M[i] {
			h.M[i][j] /= k
		}
	}
	return h
}
