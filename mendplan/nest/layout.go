package nest

// Layout is where all blanks lie and how to cut them.
type Layout struct {
	Sheets   []Sheet    // in the order of the stock, copies together
	Unplaced []Unplaced // blanks that found no place, with the reason
	Notes    []string   // what was wrong with the input and how it was taken
	Opened   float64    // mm² of stock opened; of a roll, what is cut off
	Kept     float64    // mm² of the largest remnant kept, summed over groups
	Placed   float64    // mm² of the blanks placed
	Price    float64    // of the stock opened
	Cuts     int        // of all sheets
	Settings int        // of the ruler, of all sheets
	Bound    float64    // mm²; Use cannot be less
	Proven   bool       // no layout of less use exists, the remnant counted by the user's own weight
	Work     int        // effort spent
}

// Use is the area of stock opened less half the largest remnant kept of each
// group, in mm². Less is better.
func (l Layout) Use() float64 { return l.Opened - l.Kept/2 }

// Sheet is one copy of a stock item with what is cut from it.
type Sheet struct {
	Stock    string  // ID
	Copy     int     // from 0
	Group    string  // of the stock
	W, H     float64 // mm; of a roll, H is the length to cut off
	Remnant  bool    // it was one
	Roll     bool
	Price    float64
	Margin   Margin
	Gap      float64 // mm, between blanks
	Root     *Node   // tree of cuts
	Places   []Place // in the order they come free
	Cuts     []Cut   // in the order to make them
	Remnants []Remnant
	Settings int // of the ruler: runs of cuts at the same measure count once
}

// Place is where one copy of a blank lies on its sheet.
type Place struct {
	Blank      string // ID
	Index      int    // which copy of the blank, from 0
	X, Y, W, H float64
	Turned     bool // by 90 degrees: W is the blank's H
	Pinned     bool // it was held there
	Cut        bool // it is cut out already
	// Share is set where a second piece is cut from the same blank; nil
	// otherwise. See [Interlock].
	Share *Share
}

// Remnant is an empty rectangle left on a sheet.
type Remnant struct {
	X, Y, W, H float64
	Keep       bool // large enough to go back to stock
}

// NodeKind says what a node of the tree of cuts is.
type NodeKind int

// Kinds of nodes.
const (
	Divided NodeKind = iota // cut further into Children
	Piece                   // a blank: Place is its index in Sheet.Places
	Left                    // a remnant: Place is its index in Sheet.Remnants
)

// Node is a rectangle in the tree of cuts. A divided node is cut by parallel
// lines into its children, which lie side by side along x (Upright lines) or
// along y; what lies between them is waste.
type Node struct {
	X, Y, W, H float64
	Kind       NodeKind
	Upright    bool // the cuts run along y, the children side by side along x
	Place      int  // see Kind
	Children   []*Node
}

// Part names what a cut leaves on one side of it.
type Part struct {
	Number int // of the part, to be cut further; 0 if none (the whole sheet is part 0, but no cut leaves it)
	Place  int // index in Sheet.Places of the blank that came free, or −1
	Left   int // index in Sheet.Remnants, or −1
}

// Waste says that nothing of use is left on that side.
func (p Part) Waste() bool { return p.Number == 0 && p.Place < 0 && p.Left < 0 }

// Cut is one step: lay the ruler on a part, cut from edge to edge.
type Cut struct {
	Step    int     // from 1
	Part    int     // the part to lay before you: 0 is the sheet, others are left by earlier steps
	Upright bool    // the line runs along y; At is measured along x
	At      float64 // mm from the part's left edge (top edge, unless Upright) to the ruler
	// Near is what lies between that edge and the line, Far the other
	// side, which begins Band mm beyond the line: a band of waste to be
	// cut off too, or torn down its middle where a fringe is wanted.
	Near, Far Part
	Band      float64
	X1, Y1    float64 // the line on the sheet, mm
	X2, Y2    float64
	// With is the step of an equal part cut alike before, or 0: the two
	// parts may be laid on one another and cut, or torn, in one go.
	With  int
	Again bool // same measure as the step before: the ruler's stop stays
}

// Unplaced says of which blank how many found no place, and why.
type Unplaced struct {
	Blank  string // ID
	Count  int
	Reason string // in words
	Remedy string // what stock would do
}
