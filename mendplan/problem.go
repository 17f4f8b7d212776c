package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Problem is a fault of a job or something the user should know, with a
// place, words and a hint. It is data: nothing is stopped by it.
type Problem struct {
	Kind   ProblemKind
	Weight Weight
	Leaf   string        // ID; "" when it concerns the whole job
	Side   SideName      // "" when it concerns both or none
	Damage int           // number; 0 when it concerns none
	At     *geom.Pt      // scan pixels of Side, when there is a point to look at
	Words  phrase.Phrase // what is the matter, one sentence
	Hint   phrase.Phrase // what can be done, one sentence
	Joins  []int         // numbers of damages that [Job.Join] would resolve it with, or for an [EdgeRun] [Job.AsNicks]; nil if joining is no answer
}

// Weight tells how much a problem matters.
type Weight string

// Weights, heaviest first.
const (
	Wrong  Weight = "wrong"  // no plan can be made of this part
	Doubt  Weight = "doubt"  // a plan was made, but look here
	Advice Weight = "advice" // worth knowing
)

// ProblemKind names the kind of a problem for filters and tests.
type ProblemKind string

// Kinds of problem.
const (
	NoScale       ProblemKind = "no scale"       // side not calibrated: no millimetres
	DoubtfulScale ProblemKind = "doubtful scale" // calibrated, but not to be trusted blindly
	NoScan        ProblemKind = "no scan"        // a side is named but has no picture
	ScanMissing   ProblemKind = "scan missing"   // the file is not there
	ScanChanged   ProblemKind = "scan changed"   // the file is another one now
	BadTrace      ProblemKind = "bad trace"      // too few points, not numbers, outside the picture
	NoTissue      ProblemKind = "no tissue"      // no tissue for a mend
	HeavyTissue   ProblemKind = "heavy tissue"   // tissue too heavy for the leaf
	DoesNotFit    ProblemKind = "does not fit"   // piece larger than any stock
	NoStock       ProblemKind = "no stock"       // not enough sheets
	Crowded       ProblemKind = "crowded"        // too many layers at a point
	SameLine      ProblemKind = "same line"      // ends on two sides coincide
	GrainConflict ProblemKind = "grain conflict" // along the strip against as the leaf
	BadRule       ProblemKind = "bad rule"       // a rule outside its range
	PrintCovered  ProblemKind = "print covered"  // tissue over print or ink
	OtherDamage   ProblemKind = "other damage"   // a piece runs into another damage or the fold
	BadFile       ProblemKind = "odd file"       // something in the job file had to be put right
	BadOrder      ProblemKind = "order"          // a leaf without its place, or a place without its leaf
)
