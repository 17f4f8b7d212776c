package draw

import "image/color"

// Spec says what a leaf is like: its size, its print, its harm and how it
// lay on the scanner. All lengths are millimetres in the leaf frame: origin
// at the head-left corner of the front, x right, y down; the back shows the
// same places mirrored. The same Spec always gives the same pixels.
type Spec struct {
	Name              string // short mark, such as "1" or "C"
	Seed              uint64 // of everything that looks random
	WidthMM, HeightMM float64
	PPI               float64 // pixels per inch of the scans
	Paper             color.RGBA
	Spot              color.RGBA // second printing ink; key ink is near black
	Front, Back       Face

	Tears   []Tear
	Losses  []Loss
	Splits  []Tear // along the fold
	Holes   []Hole
	Stains  []Stain
	Creases [][2]Pt
	Foxing  float64 // 0 none, 1 much
}

// Face is one side of a bifolium: two pages and its place on the scanner.
type Face struct {
	Pages     [2]Page // as seen, left and right; nil is blank
	Turn      float64 // degrees counter-clockwise as seen
	MarginMM  float64 // of backing around the leaf
	Backing   Backing
	ScaleBar  bool // a ruler lies below the leaf
	ShiftMM   Pt   // from the middle of the picture
	PageNames [2]string
}

// Page prints one page.
type Page func(p *Sheet)

// Backing is what lies behind the leaf on the scanner.
type Backing string

// The two backings.
const (
	BlackCard Backing = "black card"
	GreyFelt  Backing = "grey felt"
)

// Tear is a rip. Where a path starts or ends within a millimetre of the
// leaf's edge, it runs out over it.
type Tear struct {
	Path     []Pt
	Forks    [][]Pt  // each begins on Path
	OpenMM   float64 // how wide the rip gapes at its start
	Wander   float64 // sideways unrest: 0.04 straight, 0.2 wandering
	CoreMM   float64 // width of bared fibre along one flank
	BothEnds bool    // gapes along its whole length, not only at the start
}

// Loss is missing paper. An edge loss takes the stretch of the leaf's
// perimeter from From to To, clockwise as seen in millimetres from the
// head-left corner, and runs through Via; a hole has From = To = 0 and Via
// is a ring.
type Loss struct {
	From, To float64
	Via      []Pt
	Wander   float64
}

func (l Loss) hole() bool { return l.From == 0 && l.To == 0 }

// Hole is a prick of the needle, or of a wire that has rusted.
type Hole struct {
	At     Pt
	RustMM float64 // radius of the halo; 0 none
}

// Stain is a place that was wet once: a pale inside and a brown rim.
type Stain struct {
	Centre Pt
	Radii  Pt
}
