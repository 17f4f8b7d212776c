// Package mendplan plans the mending of a publication of folded sheets with
// Japanese tissue: from what a conservator recorded to what must be cut,
// pasted and trimmed.
//
// # Two halves
//
// A [Job] is what was recorded: leaves with their scans, damages traced on
// them, tissues and stock, and the rules in force. A [Plan] is what follows:
// pieces of tissue, the sheets they are cut from, an estimate, and problems.
// [Compute] leads from one to the other and is a pure function: no clock, no
// chance, no map order. The same job gives the same plan, byte for byte.
//
// # Words
//
// The words are the trade's: leaf, bifolium, fold, head, tail, fore-edge,
// gutter; tear, split, loss, weak area; mend, piece, margin, overhang,
// overlap, fringe, grain; tissue, sheet, roll, remnant; paste, batch. Each
// type says what it means.
//
// # Frames and units
//
// Traces are kept in the scan's own pixels, after the file's orientation tag,
// x right and y down, and are never rewritten. Millimetres follow from the
// side's [Calibration]. The side frame has its origin at the head-left corner
// of that side; the leaf frame is the front's side frame, and the back maps
// to it by mirroring in x. Angles are degrees, counter-clockwise as seen;
// grain counts modulo 180. Grammage is g/m², mass grams.
//
// # Values
//
// A Job is a plain value. Every method that edits returns a new Job and
// shares what it did not touch, so [History] keeps old ones at little cost.
// Slices and maps inside a shared Job are never written to.
//
// # Faults
//
// What is wrong with a job is data, a [Problem] with a kind, a place, words
// and a hint, never an error: a half-drawn job still saves and still plans
// what can be planned.
package mendplan
