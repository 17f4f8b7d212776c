// Package geom is plane geometry for flat leaves: points, lines and areas,
// and the few operations a mend needs of them. It knows no trade words.
//
// # Units and axes
//
// Lengths are millimetres unless a name says otherwise; x runs right and y
// runs down, as on a scan. Angles are degrees, counter-clockwise as seen on
// the page (so with y down, a positive turn takes +x towards −y).
//
// # Shapes
//
// A Path is open, a Ring closed (its first point is not repeated), an Area a
// set of rings that cross neither themselves nor each other. SignedArea is
// the shoelace sum in the frame's own axes: outer rings are positive, holes
// negative, so areas add up without asking which ring is which. A nil Area is
// the valid empty area. Values are never changed in place; every operation
// returns a new one.
//
// # Promise
//
// Booleans and buffers work on a grid of one micrometre ([Grid]) with snap
// rounding: whatever is fed in, self-crossing or doubled back, the answer is
// the right area within a few grid steps, the same on every run.
package geom

import (
	"encoding/json"
	"fmt"
	"math"
)

// Grid is the step, in millimetres, on which booleans and buffers work.
const Grid = 0.001

// Pt is a point or a vector of the plane, in the units of its frame. It is
// written to JSON as [x,y].
type Pt struct{ X, Y float64 }

// Path is an open line through its points in order.
type Path []Pt

// Ring is a closed line; the first point is not repeated at the end.
type Ring []Pt

// Area is a set of oriented rings; see the package comment. Nil is empty.
type Area []Ring

// Add returns p+q.
func (p Pt) Add(q Pt) Pt { return Pt{p.X + q.X, p.Y + q.Y} }

// Sub returns p−q.
func (p Pt) Sub(q Pt) Pt { return Pt{p.X - q.X, p.Y - q.Y} }

// Mul returns p scaled by k.
func (p Pt) Mul(k float64) Pt { return Pt{p.X * k, p.Y * k} }

// Dot returns the inner product of p and q.
func (p Pt) Dot(q Pt) float64 { return p.X*q.X + p.Y*q.Y }

// Cross returns the z component of p×q.
func (p Pt) Cross(q Pt) float64 { return p.X*q.Y - p.Y*q.X }

// Norm returns the length of p as a vector.
func (p Pt) Norm() float64 { return math.Hypot(p.X, p.Y) }

// Dist returns the distance from p to q.
func (p Pt) Dist(q Pt) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

// Lerp returns the point a share t of the way from p to q.
func (p Pt) Lerp(q Pt, t float64) Pt { return Pt{p.X + (q.X-p.X)*t, p.Y + (q.Y-p.Y)*t} }

// Unit returns p scaled to length one, or the zero vector if p is zero.
func (p Pt) Unit() Pt {
	n := p.Norm()
	if n == 0 {
		return Pt{}
	}
	return p.Mul(1 / n)
}

// Finite reports whether both coordinates are numbers and not infinite.
func (p Pt) Finite() bool {
	return !math.IsNaN(p.X-p.X) && !math.IsNaN(p.Y-p.Y)
}

// MarshalJSON writes p as [x,y].
func (p Pt) MarshalJSON() ([]byte, error) { return json.Marshal([2]float64{p.X, p.Y}) }

// UnmarshalJSON reads [x,y]; anything but two numbers is an error.
func (p *Pt) UnmarshalJSON(b []byte) error {
	var v []float64
	if err := json.Unmarshal(b, &v); err != nil {
		return fmt.Errorf("reading a point: %w", err)
	}
	if len(v) != 2 {
		return fmt.Errorf("reading a point: want two numbers, have %d", len(v))
	}
	*p = Pt{v[0], v[1]}
	return nil
}
