package pdf

import (
	"math"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// cell is a piece turned as it is printed: grain up the page, mirrored when
// it is pasted on the back, its bounds starting at the origin.
type cell struct {
	piece mendplan.Piece
	rings [][]geom.Pt
	// traces are the lines of the damage, in the same place, to lay the
	// piece by.
	traces [][]geom.Pt
	w, h   float64 // as drawn, with the printer's correction
	size   string  // true size, in words
	note   string  // what else to say of it
}

const (
	cellGap      = 5.0
	cellLabel    = 9.0  // height of the words below a piece
	cellMinWidth = 31.0 // of the words
	cellNote     = 7.0  // height of a note below them
	// cellNoteWidth is how wide a cell is at least that has a note.
	cellNoteWidth = 42.0
)

// templates prints every piece at true size, those that fit side by side in
// rows, larger ones in tiles.
func (b *book) templates() {
	if len(b.plan.Pieces) == 0 {
		return
	}
	b.part = b.say("Templates at true size")
	cells := make([]cell, len(b.plan.Pieces))
	for i, p := range b.plan.Pieces {
		cells[i] = b.newCell(p, b.tracesOf(p))
	}
	b.templateCells(cells)
	if b.opt.Wet {
		b.wetTemplates()
	}
}

// templateCells sets what fits on a page in rows, and the rest in tiles.
func (b *book) templateCells(cells []cell) {
	var whole, large []cell
	areaW, areaH := b.templateArea()
	for _, c := range cells {
		if c.w <= areaW && c.h+cellLabel <= areaH {
			whole = append(whole, c)
		} else {
			large = append(large, c)
		}
	}
	b.templateRows(whole, areaW, areaH)
	for _, c := range large {
		b.templateTiles(c, areaW, areaH)
	}
}

// templateArea is the room of a template page beside the check bars.
func (b *book) templateArea() (w, h float64) {
	return b.w - 2*marginX - 8, b.bottom() - 8 - b.templateTop()
}

const templateLead = 3.3 // of the words above templates

// templateTop is where the room for templates begins, below the words.
func (b *book) templateTop() float64 {
	return b.top() - 1.3 + templateLead*float64(len(b.templateWords()))
}

// templateWords are the lines above the templates in hand.
func (b *book) templateWords() []string {
	b.font("", 7.5)
	words := b.lines(b.say("Drawn as seen from the side each piece is pasted on; grain up the page. Dashed red: the damage. Tissue past the leaf's edge is trimmed when dry."), b.w-2*marginX)
	words = append(words, b.lines(b.templateHint, b.w-2*marginX)...)
	if b.opt.Printer.corrected() {
		words = append(words, b.lines(b.printerWords(), b.w-2*marginX)...)
	}
	return words
}

func (b *book) templatePage() {
	b.page(true)
	words := b.templateWords()
	for i, w := range words {
		b.text(marginX, b.top()-1.5+templateLead*float64(i), w)
	}
	b.bars(marginX, b.bottom()-1, b.w-marginX, b.bottom()-8)
}

// turnedCell turns a piece for printing. Seen from the back, x is mirrored and
// with it every angle.
func turnedCell(p mendplan.Piece, traces [][]geom.Pt) cell {
	mirror, deg := 1.0, p.BlankDeg
	if p.Side == mendplan.Back {
		mirror, deg = -1, 180-deg
	}
	turn := (90 - deg) * math.Pi / 180 // counter-clockwise as seen
	sin, cos := math.Sincos(turn)
	turned := func(q geom.Pt) geom.Pt {
		x, y := mirror*q.X, q.Y
		return geom.Pt{X: x*cos + y*sin, Y: y*cos - x*sin}
	}
	c := cell{piece: p}
	lo, hi := geom.Pt{X: math.Inf(1), Y: math.Inf(1)}, geom.Pt{X: math.Inf(-1), Y: math.Inf(-1)}
	for _, ring := range p.Outline {
		out := make([]geom.Pt, len(ring))
		for i, q := range ring {
			out[i] = turned(q)
			lo = geom.Pt{X: min(lo.X, out[i].X), Y: min(lo.Y, out[i].Y)}
			hi = geom.Pt{X: max(hi.X, out[i].X), Y: max(hi.Y, out[i].Y)}
		}
		c.rings = append(c.rings, out)
	}
	for _, ring := range c.rings {
		for i := range ring {
			ring[i] = ring[i].Sub(lo)
		}
	}
	for _, t := range traces {
		line := make([]geom.Pt, len(t))
		for i, q := range t {
			line[i] = turned(q).Sub(lo)
		}
		c.traces = append(c.traces, line)
	}
	if len(c.rings) > 0 {
		c.w, c.h = hi.X-lo.X, hi.Y-lo.Y
	}
	return c
}

// newCell turns a piece for a template: as [turnedCell], with its size in
// words and corrected for the printer.
func (b *book) newCell(p mendplan.Piece, traces [][]geom.Pt) cell {
	c := turnedCell(p, traces)
	c.size = b.units.Size(c.h, c.w)
	c.correct(b.opt.Printer.factors())
	return c
}

// correct stretches a cell for a printer that is off.
func (c *cell) correct(kx, ky float64) {
	for _, lines := range [][][]geom.Pt{c.rings, c.traces} {
		for _, line := range lines {
			for i, q := range line {
				line[i] = geom.Pt{X: q.X * kx, Y: q.Y * ky}
			}
		}
	}
	c.w, c.h = c.w*kx, c.h*ky
}

// templateRows sets cells in rows, in the order of the cut list.
func (b *book) templateRows(cells []cell, areaW, areaH float64) {
	x, y, row := 0.0, math.Inf(1), 0.0
	for _, c := range cells {
		w, h := max(c.w, cellMinWidth), c.h+cellLabel
		if c.note != "" {
			w, h = max(w, cellNoteWidth), h+cellNote
		}
		if x > 0 && x+w > areaW {
			x, y, row = 0, y+row+cellGap, 0
		}
		if y+h > areaH {
			b.templatePage()
			x, y, row = 0, 0, 0
		}
		left, up := marginX+x, b.templateTop()+y
		b.drawCell(c, left, up)
		b.cellWords(c, left, up+c.h+3.6, w)
		x, row = x+w+cellGap, max(row, h)
	}
}

func (b *book) drawCell(c cell, x, y float64) {
	b.line(black, 0.2)
	for _, ring := range c.rings {
		b.f.Polygon(moved(ring, x, y), "D")
	}
	b.cellTraces(c, x, y)
	if !c.piece.GrainFree {
		b.grainArrow(x+c.w/2, y+c.h/2, min(c.h*0.6, 24))
	}
}

// cellTraces draws the damage inside the piece.
func (b *book) cellTraces(c cell, x, y float64) {
	b.f.ClipRect(x, y, c.w, c.h, false)
	b.line(madder, 0.18)
	b.f.SetDashPattern([]float64{1.2, 0.8}, 0)
	for _, t := range c.traces {
		line := make([]geom.Pt, len(t))
		for i, q := range t {
			line[i] = geom.Pt{X: q.X + x, Y: q.Y + y}
		}
		b.polyline(line)
	}
	b.f.SetDashPattern(nil, 0)
	b.f.ClipEnd()
}

// tracesOf returns the lines of the damage a piece answers, leaf frame.
func (b *book) tracesOf(p mendplan.Piece) [][]geom.Pt {
	leaf, ok := b.job.Leaf(p.Leaf)
	if !ok {
		return nil
	}
	d, ok := leaf.Damage(p.Damage)
	if !ok {
		return nil
	}
	frame, _, problem := mendplan.FrameOf(leaf, d.Side)
	if problem != nil {
		return nil
	}
	var out [][]geom.Pt
	for _, path := range append([][]geom.Pt{d.Points}, d.Forks...) {
		line := frame.PathToLeaf(path)
		if d.Kind.Closed() && len(line) > 0 {
			line = append(line, line[0])
		}
		out = append(out, line)
	}
	return out
}

// cellWords says below a piece which it is, where it goes and how large.
func (b *book) cellWords(c cell, x, y, width float64) {
	b.colour(black)
	b.font("B", 8)
	b.textFit(x, y, width, c.piece.Label)
	label := b.f.GetStringWidth(b.face.printable(c.piece.Label))
	side := b.say("front")
	if c.piece.Side == mendplan.Back {
		side = b.say("back, mirrored")
	}
	b.textShrink(x+label+2, y, width-label-2, "", 7, side)
	b.colour(grey)
	size := c.size
	if c.piece.GrainFree {
		size += " · " + b.say("any grain")
	}
	b.textShrink(x, y+3.2, width, "", 7, size)
	b.colour(black)
	if c.note != "" {
		b.font("", 7)
		b.paragraph(x, y+6.2, width, 2.8, c.note)
	}
}

// grainArrow is a double arrow up the page.
func (b *book) grainArrow(x, y, length float64) {
	if length < 3 {
		return
	}
	b.line(grey, 0.15)
	up, down := y-length/2, y+length/2
	b.f.Line(x, up, x, down)
	for _, s := range []float64{-0.8, 0.8} {
		b.f.Line(x, up, x+s, up+1.6)
		b.f.Line(x, down, x+s, down-1.6)
	}
}
