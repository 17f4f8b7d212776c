// Package nest lays rectangles on sheets so that a person can cut them out
// with a ruler: every cut goes from edge to edge of the part in hand (a
// guillotine cut), and a sheet's layout is a tree of such cuts.
//
// # Words
//
// A [Blank] is a rectangle to be cut, Count times. A [Stock] item is a kind
// of sheet, roll or remnant to cut from, in so many Copies. A [Sheet] is one
// copy opened, with the places of its blanks, the cuts in the order a person
// makes them, and what is left: a [Remnant] worth keeping, or waste.
// Blanks and stock meet only within the same Group (a tissue).
//
// # Frame and units
//
// Lengths are millimetres, areas square millimetres. The origin of a sheet is
// its top-left corner, x right, y down. H, the height, runs along the grain,
// for blanks and stock alike. A blank may always be turned by 180 degrees,
// which needs no saying; by 90 degrees only when its Turn is [Free].
// Inside, lengths are whole micrometres, so sums are exact.
//
// # What is good
//
// The figure of a layout is its use: the area of stock opened less half the
// area of the largest remnant kept ([Layout.Use]), per group. Less is better.
// A layout of equal use is better with fewer cuts and fewer ruler settings,
// as the user weighs them ([Weights]). Stock already opened costs nothing.
//
// # Method
//
// A first layout puts the blanks, large ones first, where they fit best. Then
// it is improved by ruin and recreate with a goal, after Gardeyn and Wauters,
// "A goal-driven ruin and recreate heuristic for the 2D variable-sized bin
// packing problem with guillotine constraints", European Journal of
// Operational Research 301 (2022): the goal is a use lower than the best
// known; blanks that do not fit within it wait outside; over and over a few
// subtrees are taken out of the trees of cuts and the waiting blanks put back
// one at a time, until none waits. Then the goal is lowered. Where a few
// sheets do, the most promising plans (which sheets, and how the one with the
// largest remnant is first cut) are each searched for themselves. A tenth of
// the effort goes into fewer cuts and settings. Lower bounds (areas of blanks
// under dual feasible functions) tell when to stop.
//
// Blanks that are sized alike and sheets opened already need no special care:
// the empty parts of an opened sheet, around what is pinned or cut, are stock
// that costs nothing. [Interlock] finds shaped pieces that share one blank.
//
// # Promises
//
// The result depends on the input, [Options.Seed], [Options.Effort] and
// [Options.Workers] alone: not on time, number of cores or chance. [Solve]
// never panics and never loses a blank: each of them is in a sheet or in
// [Layout.Unplaced], with the reason. What is pinned or cut stays where it
// is. When the context is cancelled the best layout so far is returned.
//
// Two laws, compared exactly in tests: more effort never gives a worse
// layout, since a longer search begins with all of a shorter one; and added
// stock never does, when the layout known before is given in
// [Options.Before]. Weights of cuts and settings are outside both.
package nest
