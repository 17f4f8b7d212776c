package pdf

import (
	"fmt"
	"slices"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// sheetPage draws the sheets of a run once, with their cuts, and lists the
// steps.
func (b *book) sheetPage(run sheetRun) {
	next := func() float64 { b.page(false); return b.top() }
	s := run.sheets[0]
	y := next()
	b.font("B", 12)
	title := b.say("Sheet %s: %s", b.which(run.numbers), b.tissueName(run.tissue))
	if len(run.sheets) > 1 {
		title = b.say("Sheets %s: %s", b.which(run.numbers), b.tissueName(run.tissue))
	}
	b.textFit(marginX, y+4, b.w-2*marginX, title)
	b.font("", 8.5)
	y = b.paragraph(marginX, y+9, b.w-2*marginX, 4, b.sheetWords(run)) + 1
	y = b.drawSheet(run, y)
	w := cutWords{b: b, run: run, s: s, parts: partsOf(s), offcuts: offcutNames(s)}
	cols := b.stretch([]column{{"", 6, false}, {b.say("cut"), 9, true}, {b.say("lay before you"), 34, false}, {b.say("ruler from its"), 20, false}, {b.say("at"), 17, true},
		{b.say("on this side"), 33, false}, {b.say("beyond the ruler"), 33, false}, {b.say("mind"), 26, false}}, 7)
	if y+4*rowHeight > b.bottom() {
		y = next()
	}
	y = b.table(cols, w.rows(), y+2, next)
	y = b.partings(run, y, next)
	y = b.runNames(run, y, next)
	b.kept(run, w.offcuts, y, next)
}

// sheetWords say what sheet to take, how often, and what comes of it.
func (b *book) sheetWords(run sheetRun) string {
	s := run.sheets[0]
	kind := b.say("sheet")
	switch {
	case s.Remnant:
		kind = b.say("remnant")
	case s.Roll:
		kind = b.say("length off a roll")
	}
	words := b.say("Stock %s, %s %s; grain up the page; %s, %s, the ruler set %s.", s.Stock, kind, b.units.Size(s.H, s.W),
		b.count(piecesOn(s), "1 piece", "%d pieces"), b.count(len(s.Cuts), "1 cut", "%d cuts"), b.count(s.Settings, "once", "%d times"))
	if n := len(run.sheets); n > 1 {
		words += " " + b.say("%d sheets are cut alike; they can be laid on one another.", n)
	}
	if slices.ContainsFunc(s.Places, func(p nest.Place) bool { return p.Cut }) {
		words += " " + b.say("Hatched pieces are cut out already.")
	}
	if s.Gap > 0 {
		words += " " + b.say("Between two pieces lies a band of %s of waste: cut it off, or tear with water down its middle.", b.units.Length(s.Gap))
	}
	if fringe := (mendplan.InForce{Job: b.job.Rules}).Number(mendplan.Fringe); fringe > 0 {
		words += " " + b.say("Sizes hold %s on each edge for a water-torn fringe.", b.units.Length(fringe))
	}
	return words
}

// cutWords puts the cuts of a sheet into words.
type cutWords struct {
	b       *book
	run     sheetRun
	s       nest.Sheet
	parts   map[int]rect
	offcuts map[int]string
}

func (w cutWords) rows() [][]string {
	rows := make([][]string, len(w.s.Cuts))
	for i, c := range w.s.Cuts {
		edge := w.b.say("top edge")
		if c.Upright {
			edge = w.b.say("left edge")
		}
		rows[i] = []string{box, fmt.Sprint(c.Step), w.part(c.Part), edge, w.b.units.Length(c.At), w.side(c.Near), w.side(c.Far), w.mind(c)}
	}
	return rows
}

// part names a part to be cut further, with its size to know it by.
func (w cutWords) part(n int) string {
	if n == 0 {
		return w.b.say("the sheet")
	}
	name := w.b.say("part %d", n)
	if r, ok := w.parts[n]; ok {
		name += ", " + w.b.units.Size(r.h, r.w)
	}
	return name
}

// side says what a cut leaves on one side; what comes free is set bold.
func (w cutWords) side(p nest.Part) string {
	switch {
	case p.Place >= 0 && p.Place < len(w.s.Places):
		if w.run.mixed() {
			return bold + w.b.say("piece no. %d", p.Place+1)
		}
		return bold + w.b.say("piece %s", w.s.Places[p.Place].Name())
	case p.Left >= 0 && p.Left < len(w.s.Remnants) && w.s.Remnants[p.Left].Keep:
		return bold + w.b.say("keep %s", w.offcuts[p.Left])
	case p.Number > 0:
		return w.part(p.Number)
	}
	return w.b.say("waste")
}

// mind is what else there is to know of a cut: that it goes together with
// another, that the ruler's stop stays, that a band of waste comes off.
func (w cutWords) mind(c nest.Cut) string {
	var said []string
	for _, p := range []nest.Part{c.Near, c.Far} {
		if p.Place >= 0 && p.Place < len(w.s.Places) && w.s.Places[p.Place].Share != nil {
			said = append(said, w.b.say("two in one, see below"))
		}
	}
	if c.With > 0 {
		said = append(said, w.b.say("as cut %d", c.With))
	}
	if with := w.together(c.Step); len(with) > 0 {
		said = append(said, w.b.say("lay on part %s", w.b.which(with)))
	}
	if c.Again {
		said = append(said, w.b.say("ruler stays"))
	}
	if c.Band > 0 {
		said = append(said, w.b.say("band of %s off", w.b.units.Length(c.Band)))
	}
	return strings.Join(said, "; ")
}

// partings lists the blanks that hold two pieces and how each is parted: by
// one straight cut, told by where it meets the edges.
func (b *book) partings(run sheetRun, y float64, next func() float64) float64 {
	s := run.sheets[0]
	var rows [][]string
	for _, p := range s.Places {
		if p.Share == nil {
			continue
		}
		rows = append(rows, []string{box, bold + p.Name(), b.units.Size(p.H, p.W), b.edgePoint(p, p.Share.X1, p.Share.Y1), b.edgePoint(p, p.Share.X2, p.Share.Y2), b.units.Area(p.Share.Gain)})
	}
	if len(rows) == 0 {
		return y
	}
	if y+5*rowHeight > b.bottom() {
		y = next()
	}
	b.font("B", 9)
	b.colour(black)
	b.text(marginX, y+6, b.say("Blanks that hold two pieces: part each with one straight cut along the slanting line"))
	return b.table(b.stretch([]column{{"", 6, false}, {b.say("pieces"), 40, false}, {b.say("size of the blank"), 32, false}, {b.say("cut from"), 42, false}, {b.say("to"), 42, false}, {b.say("saved"), 20, true}}, 1), rows, y+8, next)
}

// edgePoint tells a point on the edge of a blank as one measures it there.
func (b *book) edgePoint(p nest.Place, x, y float64) string {
	const near = 0.01
	switch {
	case y-p.Y < near:
		return b.say("top edge, %s from the left", b.units.Length(x-p.X))
	case p.Y+p.H-y < near:
		return b.say("bottom edge, %s from the left", b.units.Length(x-p.X))
	case x-p.X < near:
		return b.say("left edge, %s from the top", b.units.Length(y-p.Y))
	}
	return b.say("right edge, %s from the top", b.units.Length(y-p.Y))
}

// together lists the parts that are cut alike with this step and lie ready
// then, so that all are cut in one go.
func (w cutWords) together(step int) []int {
	var out []int
	for _, c := range w.s.Cuts {
		if c.With == step {
			out = append(out, c.Part)
		}
	}
	return out
}

// runNames lists which piece is which, on each sheet of a run whose pieces
// have different names.
func (b *book) runNames(run sheetRun, y float64, next func() float64) float64 {
	if !run.mixed() {
		return y
	}
	cols := b.stretch([]column{{b.say("no."), 10, true}, {b.say("along grain × across"), 34, false}, {b.say("pieces, in the order of sheets %s", b.which(run.numbers)), 60, false}}, 2)
	var rows [][]string
	for i, p := range run.sheets[0].Places {
		for k, words := range chunks(run.names(i), 12) {
			no, size := fmt.Sprint(i+1), b.units.Size(p.H, p.W)
			if k > 0 {
				no, size = "", ""
			}
			rows = append(rows, []string{no, size, strings.Join(words, ", ")})
		}
	}
	if y+4*rowHeight > b.bottom() {
		y = next()
	}
	return b.table(cols, rows, y+3, next)
}

// chunks splits a list into lists no longer than n.
func chunks(list []string, n int) [][]string {
	var out [][]string
	for len(list) > n {
		out, list = append(out, list[:n]), list[n:]
	}
	return append(out, list)
}

// kept lists what goes back to stock, to be written on each remnant.
func (b *book) kept(run sheetRun, first map[int]string, y float64, next func() float64) {
	if len(first) == 0 {
		return
	}
	var rows [][]string
	for _, s := range run.sheets {
		names := offcutNames(s)
		for i, r := range s.Remnants {
			if r.Keep {
				rows = append(rows, []string{box, names[i], b.units.Size(r.H, r.W)})
			}
		}
	}
	if y+4*rowHeight > b.bottom() {
		y = next()
	}
	b.font("B", 9)
	b.colour(black)
	b.text(marginX, y+6, b.say("Back to stock: write the name and an arrow for the grain on each"))
	b.table([]column{{"", 6, false}, {b.say("name"), 34, false}, {b.say("along grain × across"), 40, false}}, rows, y+8, next)
}
