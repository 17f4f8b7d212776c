package nest

// Turn says whether a blank may be turned by 90 degrees against the grain.
type Turn int

// Turns of a blank.
const (
	Fixed Turn = iota // never by 90 degrees: H stays along the grain
	Free              // may be turned by 90 degrees
)

// Blank is a rectangle to be cut, Count times.
type Blank struct {
	ID    string  // unique among the blanks
	W, H  float64 // mm; H runs along the sheet's grain
	Count int     // how many; 0 or less means none
	Turn  Turn
	Group string // the tissue; only stock of the same group is used
	Pins  []Pin  // copies that already have their place
}

// Pin holds one copy of a blank at its place. The layout is made around it.
type Pin struct {
	Index  int    // which copy of the blank, from 0
	Stock  string // ID of the stock item
	Copy   int    // which copy of that, from 0
	X, Y   float64
	Turned bool // by 90 degrees: H lies along x
	Cut    bool // already cut out, not only pinned
}

// Stock is a kind of sheet, roll or remnant to cut from.
type Stock struct {
	ID      string  // unique among the stock
	Group   string  // the tissue
	W, H    float64 // mm; H along the grain; of a roll, H is the length left (0 or less: no end)
	Copies  int     // how many there are; negative means as many as needed
	Opened  int     // of these the first so many are opened already: they cost nothing more
	Margin  Margin  // kept clear of blanks at the edges, such as a deckle
	Roll    bool    // cut off across the grain what is used
	Remnant bool    // left over from an earlier cutting
	Price   float64 // of one copy; of a roll, per metre
}

// Margin is a rim kept clear at the edges of a sheet, in mm.
type Margin struct{ Left, Right, Top, Bottom float64 }

// All returns the same margin on the four edges.
func All(mm float64) Margin { return Margin{mm, mm, mm, mm} }

// Weights are the user's own. Each is an area in mm² that he would give up
// for one cut or ruler setting less; 0 means that it only decides between
// layouts otherwise equal.
type Weights struct {
	FewerCuts      float64
	FewerSettings  float64
	LargestRemnant float64 // share of the largest remnant's area counted as saved; 0 means ½, negative none
	RemnantsFirst  float64 // share by which a remnant's area counts less than a fresh sheet's, 0 to 1
}

// Options tune a layout. The zero value is usable.
type Options struct {
	Gap          float64 // mm, least distance between two blanks: room for a torn fringe or the blade
	KeepW, KeepH float64 // mm, least sides of a remnant worth keeping
	KeepArea     float64 // mm², its least area; with all three 0 no remnant is kept
	Effort       int     // budget of work, about a thousandth of a second's worth each; 0 means DefaultEffort, negative none: the first layout only
	Seed         uint64
	Weights      Weights
	// Before are layouts of the same blanks found earlier, on this stock or
	// less of it. The result is never worse than any of them that this stock
	// still allows: so adding stock never makes a layout worse. Weights of
	// cuts and settings are left aside in that comparison, and tissues with
	// pinned pieces or opened sheets.
	Before  []Layout
	Workers int // independent searches, merged in fixed order; 0 means 2. Part of what decides the result
	// Progress, when set, is told now and then how far the work is; from
	// one goroutine at a time.
	Progress func(done, total int, best Summary)
}

// DefaultEffort is about one second of work for a common job.
const DefaultEffort = 1000

// Summary is the state of the best layout so far.
type Summary struct {
	Sheets   int     // opened
	Unplaced int     // blanks without a place
	Opened   float64 // mm² of stock opened
	Kept     float64 // mm² of the largest remnants kept, one a group
	Bound    float64 // mm²; Opened − Kept/2 cannot be less
	Proven   bool    // no better layout exists
}
