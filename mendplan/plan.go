package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
	"leafmend/mendplan/phrase"
)

// Plan is what follows from a job. It is made by [Compute] and read only.
type Plan struct {
	Pieces   []Piece        // in cutting-list order: leaf, damage, order of application
	Layouts  []TissueLayout // one for each tissue used, in the order of Job.Tissues
	Estimate Estimate
	Problems []Problem
}

// Piece is one shape of tissue to be cut. Its outline lies in the leaf frame,
// whichever side it is pasted on.
type Piece struct {
	Label   string    // stable: leaf mark, side letter, damage number, letter: "3f-7a"
	Leaf    string    // ID
	Damage  int       // number of the damage it answers
	Side    SideName  // pasted on this side
	Tissue  string    // ID
	Style   Style     // of the mend
	Role    Role      // what this piece is in it
	Order   int       // of application on its damage, from 1: root of the tear first
	Outline geom.Area // mm, leaf frame, as it is when the leaf has been trimmed ... plus overhang
	// GrainDeg is the direction the tissue's grain must take, leaf frame,
	// degrees counter-clockwise modulo 180; GrainFree lets it be any.
	GrainDeg  float64
	GrainFree bool
	// AreaMM2 is the area of Outline; PasteMM2 what of it is pasted (all
	// but a handling tab).
	AreaMM2, PasteMM2 float64
	// Blank is the rectangle the piece is cut from: LengthMM runs along the
	// tissue's grain, fringe included.
	BlankLengthMM, BlankWidthMM float64
	// BlankDeg is the direction of the blank's length in the leaf frame,
	// and BlankCentre its middle there.
	BlankDeg    float64
	BlankCentre geom.Pt
	Reasons     []phrase.Phrase // in words: why this side, tissue, size
}

// Role says what a piece does in its mend.
type Role string

// Roles of pieces.
const (
	RoleMend   Role = "mend"        // the mend itself, or one strip of it
	RoleFill   Role = "fill"        // takes the place of missing material
	RoleCover  Role = "overlay"     // light tissue over an infill, weak area or loss
	RoleEdge   Role = "edge piece"  // second small piece where a tear meets the edge
	RoleSecond Role = "second side" // on the other face
	RoleBridge Role = "bridge"      // short piece across a tear
	RoleGuard  Role = "guard"       // over the fold
)

// TissueLayout is the layout of all pieces of one tissue.
type TissueLayout struct {
	Tissue string // ID
	Layout nest.Layout
}
