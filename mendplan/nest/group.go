package nest

import "fmt"

// piece is a kind of blank in the solver: all blanks of one group alike in
// size and turn. Sizes carry the gap.
type piece struct {
	w, h  int32
	free  bool
	count int32
	area  float64
	refs  []ref // which blanks' copies these are, in order of input
}

// ref names one copy of a blank.
type ref struct{ blank, index int }

// kind is a kind of sheet in the solver: a stock item, or one empty part of
// a sheet that is opened already. The size carries the gap.
type kind struct {
	w, h       int32 // room for blanks, margins off, one gap more
	fullW      int32 // of the real sheet
	fullH      int32
	rimX, rimY int32 // the wider margin across and along
	least      int32 // the narrowest margin
	ox, oy     int32 // of the room on the sheet: where a blank at 0, 0 lies
	ex, ey     int32 // of the paper itself on the sheet
	cost       float64
	copies     int32
	first      int32 // number of the first copy
	roll       bool
	open       bool // opened already: costs nothing
	stock      int  // index in the input
}

// group is the problem of one tissue.
type group struct {
	name           string
	gap            int32
	pieces         []piece
	leastW, leastH int32   // no piece is less
	never          []piece // fit no sheet
	kinds          []kind
	keepW          int32
	keepH          int32
	keepA          float64 // µm²
	keeps          bool    // remnants are worth something
	share          float64 // of the largest remnant that counts as saved
	floor          float64 // bound of the true use, µm²
	discounted     bool    // remnants cost less than their area
	copies         int     // blanks in all
}

// problem is the input, checked and split into groups.
type problem struct {
	blanks  []Blank
	stock   []Stock
	opt     Options
	groups  []*group
	notes   []string
	out     []Unplaced
	usable  []bool // by stock: taken into account
	blankOK []bool // by blank
	pinned  map[ref]bool
	held    []*heldSheet
}

func (p *problem) note(format string, a ...any) {
	p.notes = append(p.notes, fmt.Sprintf(format, a...))
}

// group finds the group of that name, or makes it.
func (p *problem) group(name string) *group {
	for _, g := range p.groups {
		if g.name == name {
			return g
		}
	}
	o := p.opt
	g := &group{name: name, gap: um(o.Gap), keepW: um(o.KeepW), keepH: um(o.KeepH), keepA: o.KeepArea * 1e6}
	g.keeps = o.KeepW > 0 || o.KeepH > 0 || o.KeepArea > 0
	g.share = o.Weights.LargestRemnant
	if g.share == 0 {
		g.share = 0.5
	}
	if g.share < 0 {
		g.share = 0
	}
	p.groups = append(p.groups, g)
	return g
}
