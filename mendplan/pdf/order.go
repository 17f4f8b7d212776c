package pdf

import (
	"leafmend/mendplan"
	"leafmend/mendplan/collate"
)

// order prints a diagram of the gatherings and the sheet for checking the
// order twice.
func (b *book) order() {
	fl := b.newFlow(b.say("Order of the leaves"), b.say("Order of the leaves"))
	if len(b.job.Gatherings) == 0 {
		fl.words(b.say("No gatherings are recorded for this job."))
		return
	}
	leaves, pages := collate.Count(b.job)
	fl.fact(b.say("Collation"), collate.Formula(b.job))
	fl.fact(b.say("Extent"), b.say("%s, %s, without the cover", b.count(leaves, "1 leaf", "%d leaves"), b.count(pages, "1 page", "%d pages")))
	for _, p := range collate.Problems(b.job) {
		fl.fact(b.say("To look at"), b.problemWords(p))
	}
	fl.words(b.say("Seen from the tail, closed, the fold on the left. Above a line stands the page that faces up, below it the one that faces down. Hatched: missing."))
	for i := range b.job.Gatherings {
		fl.diagram(i)
	}
	fl.swell()
	for _, way := range b.ways() {
		fl.tickSheet(way)
	}
	fl.checksMade()
}

func (b *book) ways() []collate.Way {
	if len(b.opt.Ways) == 0 {
		return []collate.Way{collate.OutsideIn}
	}
	return b.opt.Ways
}

// Places of a row of the tick sheet, millimetres from the left margin.
const (
	tickRow    = 18.5
	tickMark   = 13.0 // leaf
	tickNumber = 46.0 // right end of the page number on the left
	tickThumb  = 48.0
	tickWide   = 34.0 // of the thumbnail
	tickPiles  = 101.0
)

// tickSheet lists what must show on each sheet as it is laid down, with a
// picture of that side and room for two independent checks with their time.
func (fl *flow) tickSheet(way collate.Way) {
	b := fl.b
	fl.page()
	head, how := b.say("From the outermost sheet inwards"), b.say("Each sheet is laid with its inner side up into the one before.")
	if way == collate.CentreOutward {
		head, how = b.say("From the centre outward"), b.say("Each sheet is laid with its outer side up over the one before.")
	}
	fl.heading(head)
	fl.words(how + " " + b.say("Compare both page numbers and the picture. Taking off goes the same list from the bottom up. A second person checks again, from the leaves and not from memory."))
	fl.y += 1
	fl.tickHead()
	for _, r := range collate.Order(b.job, way) {
		if fl.y+tickRow > b.bottom() {
			fl.page()
			fl.tickHead()
		}
		fl.tickLine(r)
		fl.y += tickRow
	}
	fl.signature(b.say("first check: name, date"))
	fl.signature(b.say("second check: name, date"))
}

// ticks are the columns to tick: where they begin, counted from the right.
func (b *book) ticks() (off, first, second float64) {
	right := b.w - marginX
	return right - 56, right - 42, right - 21
}

func (fl *flow) tickHead() {
	b := fl.b
	off, first, second := b.ticks()
	b.font("B", 7.5)
	b.colour(black)
	y := fl.y + 3.7
	b.textShrink(marginX+1, y, 11, "B", 7.5, b.say("gath."))
	b.textShrink(marginX+tickMark, y, 16, "B", 7.5, b.say("leaf"))
	b.textRight(marginX+tickNumber, y, b.short(b.say("left"), 16))
	b.textCentre(marginX+tickThumb+tickWide/2, y, b.short(b.say("side facing up"), tickWide))
	b.textShrink(marginX+tickThumb+tickWide+2, y, 15, "B", 7.5, b.say("right"))
	b.textShrink(marginX+tickPiles, y, off-marginX-tickPiles-1, "B", 7.5, b.say("in the pile"))
	b.textShrink(off, y, 12, "B", 7.5, b.say("off"))
	b.textShrink(first, y, 20, "B", 7.5, b.say("1st, time"))
	b.textShrink(second, y, 20, "B", 7.5, b.say("2nd, time"))
	b.line(black, 0.3)
	b.f.Line(marginX, fl.y+rowHeight, b.w-marginX, fl.y+rowHeight)
	fl.y += rowHeight
}

// tickLine draws one sheet of the order.
func (fl *flow) tickLine(r collate.Row) {
	b := fl.b
	mid := fl.y + tickRow/2
	leaf, scanned := b.job.Leaf(r.Leaf)
	b.colour(black)
	b.font("", 8)
	b.textShrink(marginX+1, mid+1, tickMark-2, "", 8, b.gatheringName(r.Gathering))
	name := b.say("not scanned")
	switch {
	case scanned:
		name = markOf(leaf)
	case r.Missing:
		name = b.say("gone")
	case r.Blank:
		name = b.say("blank")
	}
	b.textShrink(marginX+tickMark, mid+1.5, 17, "B", 12, name)
	b.colour(grey)
	b.textShrink(marginX+tickMark, mid+5, 18, "", 6, leaf.Name)
	b.colour(black)
	fl.tickPicture(r, leaf, scanned)
	b.tickNumber(r.Left, marginX+tickNumber, mid, true)
	b.tickNumber(r.Right, marginX+tickThumb+tickWide+2, mid, false)
	fl.tickPile(r, mid)
	b.line(pale, 0.25)
	b.f.Line(marginX, fl.y+tickRow, b.w-marginX, fl.y+tickRow)
}

// tickPile says how the sheet lies in the pile, and leaves room for ticks and
// times.
func (fl *flow) tickPile(r collate.Row, mid float64) {
	b := fl.b
	off, first, second := b.ticks()
	x, room := marginX+tickPiles, off-marginX-tickPiles-2
	lies := b.say("lies on %s", b.pileName(r.Below))
	if r.Below == "" {
		lies = b.say("lies lowest")
	}
	next := b.say("under %s", b.pileName(r.Above))
	if r.Above == "" {
		next = b.say("lies on top")
	}
	b.textShrink(x, mid-2.6, room, "", 7.5, b.sideUp(r))
	b.textShrink(x, mid+1, room, "", 7.5, lies)
	b.textShrink(x, mid+4.6, room, "", 7.5, next)
	b.font("", 7.5)
	b.line(black, 0.25)
	b.f.Rect(off+1, mid-2.2, 4.4, 4.4, "D")
	for _, at := range []float64{first, second} {
		b.f.Rect(at, mid-2.2, 4.4, 4.4, "D")
		b.f.Line(at+6.5, mid+2.2, at+19, mid+2.2)
		b.textCentre(at+12.7, mid+2, ":")
	}
}

// pileName is what a sheet is called that another lies on.
func (b *book) pileName(s string) string {
	switch s {
	case "blank":
		return b.say("blank")
	case "not scanned":
		return b.say("not scanned")
	}
	return s
}

func (b *book) sideUp(r collate.Row) string {
	if r.Up == mendplan.Front {
		return b.say("outer side (front) up")
	}
	return b.say("inner side (back) up")
}

// tickNumber writes a page number large, shrunk where it is long.
func (b *book) tickNumber(s string, x, mid float64, right bool) {
	s = b.pageLabel(s)
	size := 15.0
	for b.font("B", size); size > 6 && b.f.GetStringWidth(b.face.printable(s)) > 15.5; b.font("B", size) {
		size -= 0.5
	}
	if right {
		b.textRight(x, mid+size/ptPerMM*0.36, s)
	} else {
		b.text(x, mid+size/ptPerMM*0.36, s)
	}
}

// tickPicture draws the side that faces up, or the outline of a sheet where
// there is no picture of it. A sheet that is gone is hatched.
func (fl *flow) tickPicture(r collate.Row, leaf mendplan.Leaf, scanned bool) {
	b := fl.b
	x, y, w, h := marginX+tickThumb, fl.y+0.8, tickWide, tickRow-1.6
	place, drawn := fitted(1.4, 1, x, y, w, h), false
	if scanned && !r.Missing {
		place, drawn = b.thumbnail(leaf, r.Up, x, y, w, h)
	}
	if r.Missing {
		b.hatched(place.x, place.y, place.w, place.h, grey)
	}
	b.line(grey, 0.2)
	b.f.Rect(place.x, place.y, place.w, place.h, "D")
	if !drawn && (!scanned || leaf.Kind != mendplan.SingleLeaf) {
		b.f.SetDashPattern([]float64{1, 0.8}, 0)
		b.f.Line(place.x+place.w/2, place.y, place.x+place.w/2, place.y+place.h)
		b.f.SetDashPattern(nil, 0)
	}
}

// checksMade prints the checks recorded so far.
func (fl *flow) checksMade() {
	if len(fl.b.job.Orders) == 0 {
		return
	}
	b := fl.b
	fl.heading(b.say("Checks recorded"))
	var rows [][]string
	for _, o := range b.job.Orders {
		result := o.Result
		if o.Wrong {
			result = b.say("not in order: %s", o.Result)
		}
		rows = append(rows, []string{o.Date, o.Time, o.By, result})
	}
	fl.table(b.stretch([]column{{b.say("day"), 22, false}, {b.say("time"), 16, false}, {b.say("by"), 40, false}, {b.say("result"), 40, false}}, 3), rows)
}
