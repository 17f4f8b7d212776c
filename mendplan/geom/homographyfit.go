package geom

import (
	"errors"
	"fmt"
	"math"
)

// ErrDegenerate is returned when points do not determine a map: too few of
// them, or all but one on a line.
var ErrDegenerate = errors.New("the points do not determine a perspective map")

// FitHomography returns the homography that takes each point of from nearest
// to its partner in to: exactly for four pairs, by least squares (normalised
// direct linear transform) for more. Both slices must have the same length,
// four or more; no three of four points may lie on one line, or the error
// wraps ErrDegenerate.
func FitHomography(from, to []Pt) (Homography, error) {
	if len(from) != len(to) {
		return Homography{}, fmt.Errorf("fitting a perspective map: %d points on one side, %d on the other", len(from), len(to))
	}
	if len(from) < 4 {
		return Homography{}, fmt.Errorf("fitting a perspective map: %d pairs of points, four are needed: %w", len(from), ErrDegenerate)
	}
	fit, ok := fitNormalised(from, to)
	if !ok {
		return Homography{}, fmt.Errorf("fitting a perspective map: %w", ErrDegenerate)
	}
	for _, p := range from {
		if !(fit.depth(p)*fit.depth(from[0]) > 0) || !fit.Apply(p).Finite() {
			return Homography{}, fmt.Errorf("fitting a perspective map: the horizon runs between the points; are they in the same order on both sides? %w", ErrDegenerate)
		}
	}
	return fit, nil
}

// fitNormalised is the fit itself; it reports false where points determine no
// map that can be undone.
func fitNormalised(from, to []Pt) (Homography, bool) {
	n, okN := normaliser(from)
	m, okM := normaliser(to)
	if !okN || !okM {
		return Homography{}, false
	}
	v, ok := nullVector(equations(n.points(from), m.points(to)))
	h := Homography{[3][3]float64{{v[0], v[1], v[2]}, {v[3], v[4], v[5]}, {v[6], v[7], v[8]}}}
	// v has length one, so this tells a flat map (three of four points on a
	// line) from a sound one, whose determinant is some hundredths or more.
	if !ok || !(math.Abs(h.det()) > 1e-6) {
		return Homography{}, false
	}
	back, err := m.Inverse()
	return n.Homography().Then(h).Then(back.Homography()).scaled(), err == nil
}

// normaliser returns the map that brings the centre of pts to the origin and
// their mean distance from it to √2, without which the fit loses digits.
func normaliser(pts []Pt) (Affine, bool) {
	var c Pt
	for _, p := range pts {
		c = c.Add(p.Mul(1 / float64(len(pts))))
	}
	mean := 0.0
	for _, p := range pts {
		mean += p.Dist(c) / float64(len(pts))
	}
	if !(mean > 0) || math.IsInf(mean, 0) {
		return Affine{}, false
	}
	k := math.Sqrt2 / mean
	return Affine{A: k, C: -k * c.X, E: k, F: -k * c.Y}, true
}

// equations returns two rows for each pair, whose product with the nine
// elements of the map should vanish.
func equations(from, to []Pt) [][9]float64 {
	rows := make([][9]float64, 0, 2*len(from))
	for i, p := range from {
		q := to[i]
		rows = append(rows,
			[9]float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y, -q.X},
			[9]float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y, -q.Y})
	}
	return rows
}
