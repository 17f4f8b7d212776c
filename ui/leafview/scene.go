package leafview

import "leafmend/mendplan/geom"

// Kind is the kind of a damage; it chooses the pattern and colour of its
// line. Any other word is drawn as a noted damage: thin, dash and dot.
type Kind string

// The kinds with a pattern of their own.
const (
	Tear  Kind = "tear"        // open; solid line
	Split Kind = "split"       // open; long dashes along the fold
	Loss  Kind = "loss"        // ring; solid line, filled with dots
	Weak  Kind = "weak area"   // ring; round dots, filled with short strokes
	Nicks Kind = "nicks"       // open; solid line with a comb of ticks
	Hole  Kind = "hole"        // ring; as a loss, paler
	Rust  Kind = "rusted hole" // ring; short dashes, filled with dots
)

// Scene is everything drawn over the picture, in scan pixels of the side
// shown. It is an immutable value: after it was handed to [Surface.SetScene]
// nothing in it may be written to. The zero value draws nothing.
type Scene struct {
	Shapes    []Shape
	Pieces    []PieceShape
	Proposals []Proposal
	Grips     []Grip // of the damage in hand; drawn by the select tool
	// Outline is the edge of the leaf as it is; a ring, may be nil.
	Outline []geom.Pt
	// OtherOutline is the edge of the leaf as found on the other side, mirrored
	// to this one; shown while what the other side shows is being moved.
	OtherOutline []geom.Pt
	// TrueEdge holds the four corners of the leaf as it was: head-left,
	// head-right, tail-right, tail-left; nil when not set.
	TrueEdge []geom.Pt
	// Fold holds the two ends of the fold; nil when there is none.
	Fold []geom.Pt
	// Frame tells millimetres; its zero value means not calibrated.
	Frame Frame
}

// Shape is one damage as drawn.
type Shape struct {
	Ref    int         // the damage's number; unique in the scene
	Kind   Kind        //
	Closed bool        // ring rather than path
	Points []geom.Pt   // path, or ring without its first point repeated
	Forks  [][]geom.Pt // further paths of a forked tear; each starts on the shape
	// OtherSide marks a damage traced on the other side and shown through:
	// it is dashed and cannot be edited here.
	OtherSide bool
	Label     string // short; "" draws none
	Faint     bool   // drawn pale: filtered out, or recorded only
}

// PieceShape is one piece of tissue as drawn over the leaf.
type PieceShape struct {
	Label     string
	Ref       int         // number of the damage it answers
	Rings     [][]geom.Pt // outline and holes, even-odd
	GrainDeg  float64     // degrees counter-clockwise as seen, modulo 180
	GrainFree bool        // any grain will do: cross hatched
	OtherSide bool        // pasted on the other side: dashed outline
	Strong    bool        // of the damage in hand, or hovered in a list
}

// Proposal is a shape that the program found and a person has not yet
// accepted; drawn dotted with a question mark.
type Proposal struct {
	ID     int
	Kind   Kind
	Points []geom.Pt // ring, or path
	Open   bool      // a path
	Label  string
}

// Frame maps scan pixels to millimetres as an affine map, which is exact for
// scans and right at one place for photographs. The zero value means that no
// millimetres can be told.
type Frame struct {
	Origin geom.Pt // scan position of the side frame's origin
	X, Y   geom.Pt // scan pixels for one millimetre along the side frame's x and y
	// DoubtPercent is how far lengths may be off, in per cent.
	DoubtPercent float64
}

// UniformFrame returns the frame of a straight scan with its origin at the
// picture's corner, from millimetres per pixel in x and y.
func UniformFrame(mmPerPxX, mmPerPxY float64) Frame {
	if !(mmPerPxX > 0) || !(mmPerPxY > 0) {
		return Frame{}
	}
	return Frame{X: geom.Pt{X: 1 / mmPerPxX}, Y: geom.Pt{Y: 1 / mmPerPxY}}
}

// Known reports whether millimetres can be told.
func (f Frame) Known() bool {
	d := f.X.Cross(f.Y)
	return d != 0 && f.Origin.Finite() && f.X.Finite() && f.Y.Finite()
}

// ToMM maps a scan position to millimetres of the side frame; of an unknown
// frame it is the origin.
func (f Frame) ToMM(p geom.Pt) geom.Pt {
	d := f.X.Cross(f.Y)
	if d == 0 {
		return geom.Pt{}
	}
	q := p.Sub(f.Origin)
	return geom.Pt{X: q.Cross(f.Y) / d, Y: f.X.Cross(q) / d}
}

// ToScan maps millimetres of the side frame to a scan position.
func (f Frame) ToScan(mm geom.Pt) geom.Pt {
	return f.Origin.Add(f.X.Mul(mm.X)).Add(f.Y.Mul(mm.Y))
}

// PxPerMM returns scan pixels per millimetre, the mean of both directions; 0
// when not known.
func (f Frame) PxPerMM() float64 { return (f.X.Norm() + f.Y.Norm()) / 2 }

// shape returns the shape with the number ref.
func (s *Scene) shape(ref int) (Shape, bool) {
	for i := range s.Shapes {
		if s.Shapes[i].Ref == ref {
			return s.Shapes[i], true
		}
	}
	return Shape{}, false
}

// paths returns all lines of the shape: Points first, then the forks.
func (s Shape) paths() [][]geom.Pt {
	out := make([][]geom.Pt, 0, 1+len(s.Forks))
	return append(append(out, s.Points), s.Forks...)
}

// bounds returns the box around all of the shape.
func (s Shape) bounds() Rect {
	r := RectOf(s.Points...)
	for _, f := range s.Forks {
		if len(f) > 0 {
			r = r.Join(RectOf(f...))
		}
	}
	return r
}

// has reports whether the shape still has the stretch, or at its very end the
// point, that a spot lies on: scenes change while something is in hand.
func (s Shape) has(at spot) bool {
	return at.path >= 0 && at.path <= len(s.Forks) && at.seg >= 0 && at.seg < len(s.paths()[at.path])
}
