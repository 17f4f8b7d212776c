package leafview

import "leafmend/mendplan/geom"

// Edit is what one gesture asks for. The surface has changed nothing; the
// owner of the job applies it, or refuses it, and hands in the next scene.
// All points are scan pixels of the side shown; slices are the receiver's to
// keep.
type Edit interface {
	// Label names the edit in the imperative, for "Undo move point".
	Label() string
}

// Add asks for a new damage.
type Add struct {
	Kind   Kind
	Closed bool
	Points []geom.Pt // path of two or more points, ring of three or more
}

// Why says which gesture led to a [Change].
type Why string

// Gestures that change shapes in place.
const (
	MovePoint   Why = "move point"
	InsertPoint Why = "add point"
	DeletePoint Why = "delete point"
	MoveShape   Why = "move shape"
	Extend      Why = "extend tear"
	Retrace     Why = "retrace stretch"
	Reshape     Why = "reshape"
	Nudge       Why = "nudge" // repeated arrow keys: amend the step before
	DeleteFork  Why = "delete fork"
)

// Geometry is the whole new course of one shape.
type Geometry struct {
	Ref    int
	Points []geom.Pt
	Forks  [][]geom.Pt
}

// Change asks for new courses of one or more shapes. Shapes not named stay.
type Change struct {
	Why    Why
	Shapes []Geometry
}

// Fork asks for a further path of the tear Ref; its first point lies on it.
type Fork struct {
	Ref  int
	Path []geom.Pt
}

// Divide asks to make two damages of one: Ref keeps First, a new damage with
// the same particulars gets Second (whose Ref is 0).
type Divide struct {
	Ref           int
	First, Second Geometry
}

// Join asks to make one damage of two: Keep.Ref gets Keep's course, Gone is
// deleted.
type Join struct {
	Keep Geometry
	Gone int
}

// Delete asks to delete damages.
type Delete struct{ Refs []int }

// TrueEdge asks for new corners of the leaf as it was: head-left, head-right,
// tail-right, tail-left.
type TrueEdge struct{ Corners []geom.Pt }

// MoveOther asks to lay what the other side shows through elsewhere: By maps
// where it is drawn now to where it belongs.
type MoveOther struct {
	By     geom.Affine
	Nudged bool // by a key: amend the step before
}

// Outline asks for a new edge of the leaf as it is, a ring.
type Outline struct{ Points []geom.Pt }

// FoldLine asks for the fold to run through two points.
type FoldLine struct{ A, B geom.Pt }

// TwoPoints gives two points a distance apart that the user will tell: a
// calibration.
type TwoPoints struct{ A, B geom.Pt }

// FourCorners gives the corners of a rectangle of known size: the calibration
// of a photograph. Same order as [TrueEdge].
type FourCorners struct{ Corners []geom.Pt }

// Sample gives a place whose colour the user wants used, such as a neutral
// card or the paper beside a damage; a box, may be a single point.
type Sample struct{ Box Rect }

// Label implements [Edit].
func (e Add) Label() string { return "trace " + string(e.Kind) }

// Label implements [Edit].
func (e Change) Label() string {
	if e.Why == MoveShape && len(e.Shapes) > 1 {
		return "move shapes"
	}
	return string(e.Why)
}

// Label implements [Edit].
func (Fork) Label() string { return "add fork" }

// Label implements [Edit].
func (Divide) Label() string { return "divide tear" }

// Label implements [Edit].
func (Join) Label() string { return "join tears" }

// Label implements [Edit].
func (e Delete) Label() string {
	if len(e.Refs) > 1 {
		return "delete damages"
	}
	return "delete damage"
}

// Label implements [Edit].
func (TrueEdge) Label() string { return "set true edge" }

// Label implements [Edit].
func (MoveOther) Label() string { return "move other side" }

// Label implements [Edit].
func (Outline) Label() string { return "trace outline" }

// Label implements [Edit].
func (FoldLine) Label() string { return "set fold" }

// Label implements [Edit].
func (TwoPoints) Label() string { return "calibrate by two points" }

// Label implements [Edit].
func (FourCorners) Label() string { return "calibrate by four corners" }

// Label implements [Edit].
func (Sample) Label() string { return "sample colour" }

// Measurement is what the measuring tool reads; it asks for nothing.
type Measurement struct {
	Points   []geom.Pt // scan pixels
	Known    bool      // millimetres can be told
	LengthMM float64   // of the path, or round the ring
	AreaMM2  float64   // of the ring; 0 for a path
	// By how much length, area and angle may be off, as far as that can be
	// told: by the scale's doubt and by pointing.
	LengthDoubtMM, AreaDoubtMM2, AngleDoubtDeg float64
	AngleDeg                                   float64 // between the first two stretches, 0…180; 0 when there is one
	LengthPx                                   float64 // of the path in scan pixels
	Words                                      string  // the same in words, with units, or "not calibrated"
}
