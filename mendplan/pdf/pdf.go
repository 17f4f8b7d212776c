// Package pdf prints a plan at true scale: the cut list with a drawing of
// each sheet, templates of the pieces, the estimate, and a picture of each
// leaf with its damages and mends; and what goes with the work: the order of
// the leaves, the calendar, the proposal before and the report after.
//
// # Scale
//
// Coordinates are millimetres on the page, origin top left, y down. Templates
// are drawn at 1 : 1. Every page that is to be measured carries two bars of
// exactly 100 mm, one across and one upright, and the file asks viewers not
// to scale it (ISO 32000-1, viewer preference PrintScaling). Printers shrink
// pages all the same: measure the bars before cutting.
//
// # Sides
//
// A template is drawn as seen from the side the piece is pasted on; for the
// back that is the mirror image of the leaf frame. Each says which it is. It
// is turned so that the tissue's grain runs up the page.
//
// # Promise
//
// The same job, plan and options give the same bytes.
package pdf

import (
	"fmt"
	"io"
	"slices"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/phrase"
)

// Part names a part of the printed set.
type Part string

// The parts, in the order they are printed.
const (
	CutList   Part = "cutlist"
	Templates Part = "templates"
	Estimate  Part = "estimate"
	Leaves    Part = "leaves"
	Trimming  Part = "trimming" // what hangs over which edge, to be cut when dry
	Order     Part = "order"    // gatherings and the sheet for checking the order
	Calendar  Part = "calendar" // mending, drying, trimming, day by day
	Proposal  Part = "proposal" // before work, for the owner
	Report    Part = "report"   // after work, for the owner and the file
)

// Parts lists all parts in the order they are printed.
func Parts() []Part {
	return []Part{Proposal, Report, CutList, Templates, Estimate, Leaves, Trimming, Order, Calendar}
}

// BenchSet lists what is printed when nothing is chosen: what one needs at
// the bench.
func BenchSet() []Part { return []Part{CutList, Templates, Estimate, Leaves, Trimming} }

// Picture is one side of a leaf, made small enough to print, as the picture
// is displayed.
type Picture struct {
	JPEG []byte
	// FullWidth and FullHeight are the scan's own pixels, the frame of the
	// traces.
	FullWidth, FullHeight int
}

// Options say what to print and how. The zero value prints the bench set.
type Options struct {
	Only []Part // empty means [BenchSet]
	// Picture returns the picture of a side, or an error that is printed
	// in its place. Nil prints the leaves as outlines.
	Picture func(leaf mendplan.Leaf, side mendplan.SideName) (Picture, error)
	// After returns the picture of a side after treatment, for the report;
	// nil leaves them out.
	After func(leaf mendplan.Leaf, side mendplan.SideName) (Picture, error)
	// Day is printed on proposal and report, and the calendar begins on it,
	// YYYY-MM-DD; empty takes the job's start date, and leaves it out where
	// that is empty too.
	Day string
	// Printer corrects templates for a printer that is off.
	Printer Printer
	// Wet prints infills once more as they must be on a leaf that is worked
	// wet.
	Wet bool
	// Ways are the ways of piling the leaves that the order is printed for;
	// empty means from the outermost sheet inwards.
	Ways []collate.Way
	// Tongue gives words of the print in another language, from English;
	// nil, and what it lacks, is English.
	Tongue phrase.Tongue
	// Version is printed in the foot; empty leaves it out.
	Version string
}

// prints says how each part is printed.
var prints = map[Part]func(*book){
	CutList: (*book).cutList, Templates: (*book).templates, Estimate: (*book).estimate, Leaves: (*book).leaves, Trimming: (*book).trimming,
	Order: (*book).order, Calendar: (*book).calendar, Proposal: (*book).proposal, Report: (*book).report,
}

// ErrNothing says that the parts asked for hold nothing to print.
var ErrNothing = phrase.Errorf("there is nothing to print: the plan has no pieces and the job no leaves")

// Write prints the set to w.
func Write(w io.Writer, job mendplan.Job, plan mendplan.Plan, opt Options) error {
	for _, p := range opt.Only {
		if !slices.Contains(Parts(), p) {
			return fmt.Errorf("there is no part %q; the parts are %v", p, Parts())
		}
	}
	if err := opt.Printer.Check(); err != nil {
		return err
	}
	if len(plan.Pieces) == 0 && len(job.Leaves) == 0 {
		return ErrNothing
	}
	b, err := newBook(job, plan, opt)
	if err != nil {
		return err
	}
	chosen := opt.Only
	if len(chosen) == 0 {
		chosen = BenchSet()
	}
	for _, part := range Parts() {
		if slices.Contains(chosen, part) {
			prints[part](b)
		}
	}
	return b.finish(w)
}
