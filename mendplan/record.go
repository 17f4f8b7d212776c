package mendplan

// Step is one dated act on a leaf. Dates are days as YYYY-MM-DD, times hours
// and minutes as HH:MM; the program proposes them, the user decides.
type Step struct {
	Number int       `json:"number"` // unique in the job, never used twice
	Leaf   string    `json:"leaf"`
	Side   SideName  `json:"side,omitempty"` // "" is both, or does not matter
	Kind   StepKind  `json:"kind"`
	Date   string    `json:"date"`
	Time   string    `json:"time,omitempty"`
	By     string    `json:"by"`
	Note   string    `json:"note,omitempty"`
	Test   *SpotTest `json:"test,omitempty"`
	Bath   *Bath     `json:"bath,omitempty"`
	Batch  string    `json:"batch,omitempty"` // ID of the paste used
	// Departure says how the work differed from the plan; it goes into the
	// report.
	Departure string `json:"departure,omitempty"`
}

// StepKind names an act. Users may add their own words; see [Job.OwnSteps].
type StepKind string

// The acts, in the order they usually come.
const (
	Surveyed       StepKind = "surveyed"
	Collated       StepKind = "collated"
	Disbound       StepKind = "disbound"
	Tested         StepKind = "tested" // solubility, see SpotTest
	SurfaceCleaned StepKind = "surface cleaned"
	Washed         StepKind = "washed"
	Alkalised      StepKind = "alkalised"
	Bleached       StepKind = "bleached" // recorded only; performed by whom must be said
	MendedStep     StepKind = "mended"
	PressedIn      StepKind = "into the press"
	PressedOut     StepKind = "out of the press"
	TrimmedStep    StepKind = "trimmed"
	Checked        StepKind = "checked"
	Reassembled    StepKind = "reassembled"
)

// StepKinds lists the acts in their usual order.
func StepKinds() []StepKind {
	return []StepKind{Surveyed, Collated, Disbound, Tested, SurfaceCleaned, Washed, Alkalised, Bleached,
		MendedStep, PressedIn, PressedOut, TrimmedStep, Checked, Reassembled}
}

// SpotTest is a solubility test of one spot (M. A. Smith and others, JAIC
// 23(2), 1984; Dartmouth College Library, A Simple Book Repair Manual).
type SpotTest struct {
	Medium  string     `json:"medium"` // such as "red printing ink"
	Place   string     `json:"place"`
	Liquid  string     `json:"liquid"`
	Seconds float64    `json:"seconds"`
	Result  TestResult `json:"result"`
}

// TestResult is what a spot test showed.
type TestResult string

// Results of a spot test.
const (
	Stable  TestResult = "stable"
	Bleeds  TestResult = "bleeds"
	Changes TestResult = "changes"
)

// Bath is what is worth keeping of a wet treatment.
type Bath struct {
	Agent         string  `json:"agent,omitempty"`
	Concentration string  `json:"concentration,omitempty"`
	Water         string  `json:"water,omitempty"`
	PHBefore      float64 `json:"ph_before,omitempty"`
	PHAfter       float64 `json:"ph_after,omitempty"`
	LeafPHBefore  float64 `json:"leaf_ph_before,omitempty"`
	LeafPHAfter   float64 `json:"leaf_ph_after,omitempty"`
	Minutes       float64 `json:"minutes,omitempty"`
	Baths         int     `json:"baths,omitempty"`
	Celsius       float64 `json:"temperature_c,omitempty"`
	Drying        string  `json:"drying,omitempty"`
	// ReservePercent is the alkaline reserve measured or aimed at, per cent of
	// calcium carbonate by mass; see course.ReserveMeq.
	ReservePercent float64 `json:"alkaline_reserve_percent,omitempty"`
}

// Recipe is a way to make an adhesive. Recipes are the user's own data; see
// [PublishedRecipes].
type Recipe struct {
	ID      string  `json:"id"`
	Name    string  `json:"name"`
	StarchG float64 `json:"starch_g,omitempty"` // to WaterML of water, by mass …
	WaterML float64 `json:"water_ml,omitempty"`
	Parts   float64 `json:"parts_water_to_one_of_powder,omitempty"` // … or by volume
	Ether   float64 `json:"cellulose_ether_percent,omitempty"`      // of a gel of cellulose ether
	// PasteParts of starch paste are mixed with GelParts of that gel; both 0
	// for an adhesive of one kind.
	PasteParts float64 `json:"paste_parts,omitempty"`
	GelParts   float64 `json:"gel_parts,omitempty"`
	CookMin    float64 `json:"cooking_min,omitempty"`
	Method     string  `json:"method,omitempty"`
	Source     string  `json:"source,omitempty"`
}

// Batch is one cooking of an adhesive.
type Batch struct {
	ID        string  `json:"id"`
	Recipe    string  `json:"recipe"`
	Made      string  `json:"made"`   // date
	UseBy     string  `json:"use_by"` // date
	Grams     float64 `json:"grams"`
	Chilled   bool    `json:"chilled,omitempty"`
	Discarded string  `json:"discarded,omitempty"` // date
	Note      string  `json:"note,omitempty"`
}

// Sample is a piece of tissue weighed before and after pasting, from which
// the wet coat is learnt.
type Sample struct {
	AreaMM2 float64 `json:"area_mm2"`
	DryG    float64 `json:"dry_g"`
	WetG    float64 `json:"wet_g"`
}

// PressRoom is what is there to dry and press with. 0 is "not entered", and
// bounds nothing.
type PressRoom struct {
	Openings    int     `json:"press_openings,omitempty"`
	LengthMM    float64 `json:"opening_length_mm,omitempty"`
	WidthMM     float64 `json:"opening_width_mm,omitempty"`
	PerOpening  int     `json:"leaves_per_opening,omitempty"` // 0: as many as lie side by side, by their size and the opening's
	Blotters    int     `json:"blotters,omitempty"`
	Interleaves int     `json:"interleaves,omitempty"` // non-stick sheets
	// Boards with weights take the leaves that fit no opening of a press, or
	// all where there is none; one weight to a board.
	Boards        int     `json:"boards,omitempty"`
	BoardLengthMM float64 `json:"board_length_mm,omitempty"`
	BoardWidthMM  float64 `json:"board_width_mm,omitempty"`
	Weights       int     `json:"weights,omitempty"`
}

// OrderCheck records that somebody compared the order of the leaves.
type OrderCheck struct {
	Date   string `json:"date"`
	Time   string `json:"time"`
	By     string `json:"by"`
	Result string `json:"result"` // "in order", or what was found
	Wrong  bool   `json:"wrong,omitempty"`
}

// Examination is what a proposal and a report say of the object besides its
// leaves (AIC Guidelines for Practice 25 to 28, from memory but for
// commentary 27).
type Examination struct {
	Object     string `json:"object,omitempty"` // what it is, maker, place, date
	Materials  string `json:"materials,omitempty"`
	Condition  string `json:"condition,omitempty"` // before treatment
	Cause      string `json:"cause,omitempty"`     // of the damage
	Purpose    string `json:"purpose,omitempty"`   // of the treatment
	Options    string `json:"options,omitempty"`
	Risks      string `json:"risks,omitempty"`
	Author     string `json:"author,omitempty"`
	Consent    string `json:"consent,omitempty"` // who agreed, and when
	FinalState string `json:"final_state,omitempty"`
	Found      string `json:"new_information,omitempty"`
}
