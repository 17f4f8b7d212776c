package mendplan

import "leafmend/mendplan/geom"

// Job is one publication in treatment, as recorded: one file. The zero value
// is a valid empty job.
type Job struct {
	Title     string       `json:"title,omitempty"`      // of the publication
	Number    string       `json:"job_number,omitempty"` // the workshop's job number
	Owner     string       `json:"owner,omitempty"`      // who owns the publication
	Notes     string       `json:"notes,omitempty"`      // free words
	Units     Units        `json:"units,omitempty"`      // how lengths are shown; "" means millimetres
	Paper     Paper        `json:"paper,omitempty"`      // paper the prints are laid out for; "" means A4
	LeafPaper LeafDefaults `json:"leaf_paper,omitzero"`  // what holds for leaves that say nothing of their own
	Leaves    []Leaf       `json:"leaves"`               // in the order of the publication
	Tissues   []Tissue     `json:"tissues"`
	Stock     []Stock      `json:"stock"`
	Rules     Rules        `json:"rules,omitempty"` // departures from the defaults; see [RuleTable]
	// Pinned and Held say what of the layout of the tissue stays as it is;
	// see [PinnedPiece] and [HeldSheet].
	Pinned   []PinnedPiece `json:"pinned_pieces,omitempty"`
	Held     []HeldSheet   `json:"held_sheets,omitempty"`
	LastHeld int           `json:"last_held_sheet_number,omitempty"`
	// Gatherings, steps and the rest of the course of the work; see
	// packages collate and course.
	Gatherings  []Gathering  `json:"gatherings,omitempty"`
	Steps       []Step       `json:"steps,omitempty"`
	OwnSteps    []StepKind   `json:"own_steps,omitempty"` // the user's own words for acts
	Recipes     []Recipe     `json:"recipes,omitempty"`
	Batches     []Batch      `json:"batches,omitempty"`
	Samples     []Sample     `json:"weighed_samples,omitempty"`
	Press       PressRoom    `json:"press,omitzero"`
	Orders      []OrderCheck `json:"order_checks,omitempty"`
	Examination Examination  `json:"examination,omitzero"`
	StopList    []string     `json:"stop_list_passed,omitempty"` // of the questions before starting, those answered "no"
	StartDate   string       `json:"start_date,omitempty"`
	LastStep    int          `json:"last_step_number,omitempty"`
	// LastNumber is the highest damage number ever given. Numbers are never
	// used twice, so a label cannot come to mean another damage.
	LastNumber int `json:"last_damage_number"`
	// Unknown keeps fields of the file that this version does not know, so
	// that saving does not lose them.
	Unknown []UnknownField `json:"-"`
	// NewerBy is the version of the newer program that Unknown comes from,
	// which the file goes on naming; "" when there is none.
	NewerBy string `json:"-"`
}

// LeafDefaults are properties of the paper that most leaves of a job share.
type LeafDefaults struct {
	Grammage float64 `json:"grammage_g_per_m2,omitempty"` // g/m²; 0 means not known
	Grain    Grain   `json:"grain,omitempty"`             // of the leaf
	Coated   bool    `json:"coated,omitempty"`            // glossy, coated paper
}

// Units says how lengths are shown to the user.
type Units string

// The two units of the window and the prints.
const (
	Millimetres Units = "mm"
	Inches      Units = "in"
)

// MillimetresComma is for showing only, in languages that write a decimal
// comma; a job is never kept in it.
const MillimetresComma Units = "mm,"

// Paper is the paper of the user's printer.
type Paper string

// The papers that prints are laid out for.
const (
	A4     Paper = "A4"
	Letter Paper = "Letter"
)

// LeafKind says what lies flat on the scanner.
type LeafKind string

// Kinds of leaf. The zero value counts as a bifolium.
const (
	Bifolium   LeafKind = "bifolium" // a folded sheet opened flat: two leaves, four pages, one fold
	SingleLeaf LeafKind = "leaf"     // one leaf, two pages
)

// Leaf is one thing that lies flat on the scanner, with both its sides.
type Leaf struct {
	ID       string   `json:"id"`             // unique in the job, letters and digits; never changes
	Mark     string   `json:"mark,omitempty"` // short mark used in labels, such as "3" or "C"
	Name     string   `json:"name,omitempty"` // in words, such as "bifolium 3, pages 5 6 11 12"
	Kind     LeafKind `json:"kind,omitempty"`
	Front    Side     `json:"front,omitzero"`              // recto, or the outer side of a bifolium
	Back     Side     `json:"back,omitzero"`               // verso, or the inner side of a bifolium
	Grammage float64  `json:"grammage_g_per_m2,omitempty"` // g/m²; 0 takes the job's
	Grain    Grain    `json:"grain,omitempty"`             // "" takes the job's
	FoldMM   float64  `json:"fold_from_left_mm,omitempty"` // distance of the fold from the left edge of the front, mm; 0 means the middle of a bifolium
	// BackOver maps back scan pixels to front scan pixels, mirrored: x' =
	// [0]·x + [1]·y + [2], y' = [3]·x + [4]·y + [5]. Empty lays the back over
	// the front by the true edges of both; see [Leaf.LaidOver].
	BackOver []float64 `json:"back_over_front_px,omitempty"`
	Damages  []Damage  `json:"damages,omitempty"`
	Note     string    `json:"note,omitempty"`
	Mended   bool      `json:"mended,omitempty"` // ticked by the user: every mend of this leaf is on
	// PiecesOn holds the labels of pieces ticked off at the bench as pasted
	// on. Labels that the plan no longer has stay and mean nothing.
	PiecesOn []string `json:"pieces_on,omitempty"`
	// EdgesTrimmed holds the stretches of edge ticked off as trimmed; see
	// [Trim.Key].
	EdgesTrimmed []string `json:"edges_trimmed,omitempty"`
}

// SideName names a side of a leaf.
type SideName string

// The two sides. The zero value means "not said" and is filled from advice
// or rules where a side must be chosen.
const (
	Front SideName = "front"
	Back  SideName = "back"
)

// Other returns the other side; of "" it is "".
func (s SideName) Other() SideName {
	switch s {
	case Front:
		return Back
	case Back:
		return Front
	}
	return ""
}

// Letter is the side's letter in labels: f or b.
func (s SideName) Letter() string {
	if s == Back {
		return "b"
	}
	return "f"
}

// Side is one side of a leaf with its scan. The zero value has no scan.
type Side struct {
	Scan        Scan        `json:"scan,omitzero"`
	Calibration Calibration `json:"calibration,omitzero"`
	// Outline is the edge of the leaf as it is, in scan pixels; may be empty.
	Outline []geom.Pt `json:"outline_px,omitempty"`
	// TrueEdge holds the corners of the leaf as it was before it was
	// damaged, in scan pixels, in the order head-left, head-right,
	// tail-right, tail-left as the side is read; empty means the picture's
	// own corners. Their order also tells how the leaf lay on the scanner.
	TrueEdge []geom.Pt `json:"true_edge_px,omitempty"`
	// Damp says that the leaf was damp when it was scanned, and so larger
	// than it is dry.
	Damp bool `json:"scanned_damp,omitempty"`
	// After is the picture of the side after treatment, for the report;
	// nothing is measured on it.
	After Scan `json:"after,omitzero"`
}

// Scan names a picture file. The picture itself is not part of the job.
type Scan struct {
	Path   string `json:"path,omitempty"`      // relative to the job's folder, with forward slashes
	Width  int    `json:"width_px,omitempty"`  // pixels, after the file's orientation tag
	Height int    `json:"height_px,omitempty"` // pixels, after the file's orientation tag
	SHA256 string `json:"sha256,omitempty"`    // of the file, hexadecimal, lower case
	Page   int    `json:"page,omitempty"`      // of a file with several pictures, counted from 0
	// Look is what remains known of the picture when its file is gone, made
	// and read by package scan; "" means not known.
	Look string `json:"look,omitempty"`
}

// Present reports whether a scan is named at all.
func (s Scan) Present() bool { return s.Path != "" }

// Origin says where a calibration comes from.
type Origin string

// Origins of a calibration. The zero value means none: no millimetres.
const (
	FromNothing   Origin = ""
	FromFile      Origin = "file"         // the file's resolution, see Calibration.Words
	FromTwoPoints Origin = "two points"   // a known distance in the picture
	FromRuler     Origin = "ruler"        // a ruler in the picture, one or two directions
	FromLeafSize  Origin = "leaf size"    // the leaf's measured size
	FromCorners   Origin = "four corners" // a rectangle of known size, photographed
)

// Calibration maps scan pixels to millimetres. The zero value is "not
// calibrated". The scales may differ between x and y.
type Calibration struct {
	Origin   Origin  `json:"origin,omitempty"`
	MMPerPxX float64 `json:"mm_per_px_x,omitempty"` // millimetres per pixel along the picture's x
	MMPerPxY float64 `json:"mm_per_px_y,omitempty"` // millimetres per pixel along the picture's y
	// DoubtPercent is how far the scale may be off, in per cent; see
	// the origin for what it rests on.
	DoubtPercent float64   `json:"doubt_percent,omitempty"`
	Words        string    `json:"words,omitempty"`      // what it rests on, such as "JFIF 300 × 300 ppi"
	Points       []geom.Pt `json:"points_px,omitempty"`  // the points it was taken from, scan pixels
	LengthsMM    []float64 `json:"lengths_mm,omitempty"` // the lengths that belong to them
	// Homography maps scan pixels to millimetres of the plane, row by row,
	// for photographs; nil for scans. When set it replaces the scales.
	Homography []float64 `json:"homography_px_to_mm,omitempty"`
}

// Known reports whether millimetres can be told.
func (c Calibration) Known() bool {
	return len(c.Homography) == 9 || c.MMPerPxX > 0 && c.MMPerPxY > 0
}

// Grain is the direction of easier bending, of a leaf or a tissue.
type Grain string

// Directions of grain in a leaf. The zero value takes the job's, and for the
// job means not known.
const (
	GrainUnknown Grain = ""
	GrainUpright Grain = "head to tail" // parallel to the fold
	GrainAcross  Grain = "across"       // from fore-edge to fold
)

// Degrees returns the direction in the leaf frame, and whether it is known.
func (g Grain) Degrees() (float64, bool) {
	switch g {
	case GrainUpright:
		return 90, true
	case GrainAcross:
		return 0, true
	}
	return 0, false
}

// DamageKind says what is wrong at a place.
type DamageKind string

// Kinds of damage that are mended.
const (
	Tear     DamageKind = "tear"      // open path; may fork
	Split    DamageKind = "split"     // open path along a fold
	Loss     DamageKind = "loss"      // closed ring: material missing, inside or at an edge
	Nicks    DamageKind = "nicks"     // open path along an edge with many small tears
	WeakArea DamageKind = "weak area" // closed ring: thin, soft, cracked
	Hole     DamageKind = "hole"      // closed ring: puncture or bored hole inside the leaf, little missing
	// RustHole is a closed ring: the hole of a staple, or of sewing beside
	// one, with the paper that rust has eaten round it.
	RustHole DamageKind = "rusted hole"
)

// Damage is one thing wrong with a leaf, traced on one side and shown on
// both. Points are scan pixels of that side and are never rewritten.
type Damage struct {
	Number int         `json:"number"` // unique in the job, given once, never again
	Kind   DamageKind  `json:"kind"`
	Side   SideName    `json:"side"`               // on which it was traced
	Points []geom.Pt   `json:"points_px"`          // path or ring, scan pixels of Side
	Forks  [][]geom.Pt `json:"forks_px,omitempty"` // further paths of a forked tear, scan pixels
	Scarf  Scarf       `json:"scarf,omitzero"`     // how the torn faces of a tear overlap
	// Start and End say how the path ends; EndAuto lets the geometry tell.
	Start    EndKind  `json:"start,omitempty"`
	End      EndKind  `json:"end,omitempty"`
	Severity Severity `json:"severity,omitempty"`
	Unstable bool     `json:"unstable,omitempty"`
	Note     string   `json:"note,omitempty"`
	NoMend   bool     `json:"no_mend,omitempty"` // recorded only
	Mends    []Mend   `json:"mends,omitempty"`   // what is done about it; empty means the rules' own mend
}

// Closed reports whether the damage is a ring rather than a path.
func (k DamageKind) Closed() bool { return k != Tear && k != Split && k != Nicks && k != Crease }

// Mended reports whether damage of this kind gets a mend by itself; the
// others are noted only.
func (k DamageKind) Mended() bool {
	switch k {
	case Tear, Split, Loss, Hole, RustHole, Nicks, WeakArea:
		return true
	}
	return false
}

// Missing reports whether damage of this kind is a place where material is
// gone, so that it can be filled.
func (k DamageKind) Missing() bool { return k == Loss || k == Hole || k == RustHole }

// EndKind says how a path ends.
type EndKind string

// How a path can end.
const (
	EndAuto  EndKind = ""      // told from the distance to the leaf's edge
	EndBlind EndKind = "blind" // inside the leaf
	EndEdge  EndKind = "edge"  // at the leaf's edge
)

// Severity grades a damage (common practice, no source).
type Severity string

// Grades of severity; the zero value is not graded.
const (
	Slight   Severity = "slight"
	Moderate Severity = "moderate"
	Severe   Severity = "severe"
)

// Style says how a mend is made.
type Style string

// Styles of mend. The zero value takes the style of the rules for the kind.
const (
	Shaped    Style = "shaped"     // one outline that follows the tear
	Strips    Style = "strips"     // a chain of straight strips
	Bridges   Style = "bridges"    // short pieces crosswise, spaced
	Guard     Style = "guard"      // folded strip over the fold, half on each leaf
	Infill    Style = "infill"     // the loss's own shape, with thinned overlap
	Overlay   Style = "overlay"    // light tissue over the whole, with margin
	EdgeStrip Style = "edge strip" // one strip along an edge with many nicks
)

// Mend is the answer to one damage. The zero value is "as the rules say".
type Mend struct {
	Style  Style    `json:"style,omitempty"`
	Tissue string   `json:"tissue,omitempty"` // ID; "" takes the first that suits
	Side   SideName `json:"side,omitempty"`   // the side the tissue is pasted on; "" takes the advice
	Rules  Rules    `json:"rules,omitempty"`  // departures for this mend alone
	// Joins names damages of the same leaf, perhaps this one itself, whose
	// pieces run into this mend's and are cut as one with them; see
	// [Job.Join].
	Joins []int `json:"joins_damages,omitempty"`
	// Breaks are places where one strip must end and the next begin, set by
	// hand, as shares of the main path's length from its first point, 0 to 1.
	Breaks []float64 `json:"strip_breaks,omitempty"`
}

// Tissue is a kind of paper for mending.
type Tissue struct {
	ID          string    `json:"id"`
	Name        string    `json:"name"`                        // generic, such as "kozo tissue, 5 g/m²"
	Fibre       string    `json:"fibre,omitempty"`             // kozo, mitsumata, gampi, abacá, mixed
	Grammage    float64   `json:"grammage_g_per_m2,omitempty"` // g/m²
	ThicknessMM float64   `json:"thickness_mm,omitempty"`      // 0 means not known
	Colour      string    `json:"colour,omitempty"`            // sRGB as #rrggbb; "" means not known
	Use         TissueUse `json:"use,omitempty"`               // what it is meant for; "" means any
}

// TissueUse says what mends a tissue is meant for.
type TissueUse string

// Uses of a tissue; the zero value is any.
const (
	ForTears   TissueUse = "tears"   // tears, splits, overlays: light
	ForInfills TissueUse = "infills" // losses: near the leaf's weight
)

// StockKind says in what form tissue is in stock.
type StockKind string

// Kinds of stock.
const (
	SheetStock StockKind = "sheet"
	Roll       StockKind = "roll"    // fixed width, open length up to LengthMM
	Remnant    StockKind = "remnant" // left over from an earlier cutting
)

// Stock is an item of tissue at hand.
type Stock struct {
	ID         string    `json:"id"`
	Tissue     string    `json:"tissue"` // ID of the tissue
	Kind       StockKind `json:"kind"`
	LengthMM   float64   `json:"length_mm"` // the longer side by custom, or what is left of a roll
	WidthMM    float64   `json:"width_mm"`
	Count      int       `json:"count"`                 // how many; 0 means none left
	GrainAlong string    `json:"grain_along,omitempty"` // "length" or "width"; "" means length
	MarginMM   float64   `json:"margin_mm,omitempty"`   // kept clear on all four edges, such as a deckle
	Price      float64   `json:"price,omitempty"`       // of one sheet or remnant; of a roll per metre
	Currency   string    `json:"currency,omitempty"`
	Note       string    `json:"note,omitempty"`
}
