package geom

import "math"

// BufferTol is how much, in millimetres, a buffer may reach beyond its true
// distance: Buffer(r) contains every point nearer than r and none further
// than r+BufferTol, and so does Offset on its safe side. (Uniting the stretches
// of a very long path may shift an edge by another step of the grid or two.)
const BufferTol = 0.01

// Of BufferTol, slack is given away beforehand so that rounding to the grid
// never bites into the margin, and sagitta is what a corner of a polygon may
// stand out beyond its circle. The rest is left for rounding outwards.
const (
	slack   = 0.002
	sagitta = 0.006
)

// offsetter builds raw offset curves: rings at a distance that may cross
// themselves, but wind around each place exactly as often as the convex parts
// (a rectangle to each edge, a wedge to each corner) cover it.
type offsetter struct {
	grid  grid
	r     float64 // distance
	inner bool    // corners on the circle, not beyond it: never more than r
	step  float64 // widest angle between two corners of an arc
}

// newOffsetter returns an offsetter whose curve lies no nearer than d and
// whose corners stand out no more than the given height beyond their arcs.
func newOffsetter(g grid, d, height float64) offsetter {
	return offsetter{grid: g, r: d + slack, step: arcStep(d+slack, height)}
}

// newInner returns an offsetter whose curve lies no further than d and at
// most BufferTol nearer.
func newInner(g grid, d float64) offsetter {
	r := max(0, d-slack)
	return offsetter{grid: g, r: r, inner: true, step: arcStep(r, sagitta)}
}

// arcStep returns the widest angle between two corners of an arc of radius r
// that keeps its corners, or the middles of its chords, within height of it.
func arcStep(r, height float64) float64 {
	return min(math.Pi/2, 2*math.Acos(r/(r+height)))
}

// curve returns the raw offset curve of the closed walk on the side where y
// turns to from x run backwards: outside for an outer ring. Neighbouring
// points of the walk must differ.
func (o offsetter) curve(walk []Pt) gridRing {
	n := len(walk)
	out := make(gridRing, 0, 2*n+int(2*math.Pi/o.step)+8)
	prev := walk[n-1]
	in := walk[0].Sub(prev)
	inLen := in.Norm()
	in = in.Mul(1 / inLen)
	for i, v := range walk {
		next := walk[(i+1)%n]
		to := next.Sub(v)
		toLen := to.Norm()
		to = to.Mul(1 / toLen)
		out = o.corner(out, v, in, to, min(inLen, toLen))
		in, inLen = to, toLen
	}
	return out
}

// corner appends the curve's way round v between the directions in and to;
// room is the length of the shorter edge at v.
func (o offsetter) corner(out gridRing, v, in, to Pt, room float64) gridRing {
	turn := math.Atan2(in.Cross(to), in.Dot(to))
	if turn < -math.Pi+1e-9 {
		turn = math.Pi // straight back: round the tip
	}
	side := Pt{in.Y, -in.X}
	if turn >= 0 {
		return o.arc(out, v, side, turn)
	}
	cut := o.r * math.Tan(-turn/2)
	if 2*cut <= room {
		// Both neighbours reach the point where they cross: the loop beyond it
		// covers only what is covered anyway.
		m := side.Mul(o.r).Sub(in.Mul(cut))
		return append(out, o.grid.snap(v.Add(m)))
	}
	return append(out,
		o.grid.snap(v.Add(side.Mul(o.r))),
		o.grid.snap(v),
		o.grid.snap(v.Add(Pt{to.Y, -to.X}.Mul(o.r))))
}

// arc appends corners around v, from the direction side through the angle
// turn: beyond the circle with every edge touching it, or on it if inner.
func (o offsetter) arc(out gridRing, v, side Pt, turn float64) gridRing {
	k := max(1, math.Ceil(turn/o.step))
	each := turn / k
	at, r, n := each/2, o.r/math.Cos(each/2), int(k)
	if o.inner {
		at, r, n = 0, o.r, int(k)+1
	}
	sin, cos := math.Sincos(at)
	p := Pt{side.X*cos - side.Y*sin, side.X*sin + side.Y*cos}.Mul(r)
	sin, cos = math.Sincos(each)
	for range n {
		out = append(out, o.grid.snap(v.Add(p)))
		p = Pt{p.X*cos - p.Y*sin, p.X*sin + p.Y*cos}
	}
	return out
}

// apartMM is how far points must lie apart, in millimetres, for the direction
// between them to mean anything. It is far below the grid: a needle one step
// wide is still to be covered by its margin.
const apartMM = 1e-6

// distinct returns the finite points of pts with those left out that coincide
// with the one before.
func distinct(pts []Pt) []Pt {
	out := make([]Pt, 0, len(pts))
	for _, p := range pts {
		if p.Finite() && (len(out) == 0 || p.Dist(out[len(out)-1]) > apartMM) {
			out = append(out, p)
		}
	}
	return out
}

// distinctRing is distinct for closed rings.
func distinctRing(pts []Pt) []Pt {
	out := distinct(pts)
	for len(out) > 1 && out[0].Dist(out[len(out)-1]) <= apartMM {
		out = out[:len(out)-1]
	}
	return out
}
