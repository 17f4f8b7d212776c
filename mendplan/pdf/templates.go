package pdf

import (
	"fmt"
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
	w, h   float64
}

const (
	cellGap      = 5.0
	cellLabel    = 9.0  // height of the words below a piece
	cellMinWidth = 29.0 // of the words
	tileOverlap  = 12.0
)

// templates prints every piece at true size, those that fit side by side in
// rows, larger ones in tiles.
func (b *book) templates() {
	if len(b.plan.Pieces) == 0 {
		return
	}
	b.part = "Templates at true size"
	var whole, large []cell
	areaW, areaH := b.templateArea()
	for _, p := range b.plan.Pieces {
		c := newCell(p, b.tracesOf(p))
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

// templateTop is where the room for templates begins, below a line of words.
func (b *book) templateTop() float64 { return b.top() + 2 }

func (b *book) templatePage() {
	b.page(true)
	b.font("", 7.5)
	b.text(marginX, b.top()-1.5, "Drawn as seen from the side each piece is pasted on; grain up the page. Dashed red: the damage. Tissue past the leaf's edge is trimmed when dry.")
	b.bars(marginX, b.bottom()-1, b.w-marginX, b.bottom()-8)
}

// newCell turns a piece for printing. Seen from the back, x is mirrored and
// with it every angle.
func newCell(p mendplan.Piece, traces [][]geom.Pt) cell {
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

// templateRows sets cells in rows, in the order of the cut list.
func (b *book) templateRows(cells []cell, areaW, areaH float64) {
	x, y, row := 0.0, math.Inf(1), 0.0
	for _, c := range cells {
		w, h := max(c.w, cellMinWidth), c.h+cellLabel
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
	b.font("", 7)
	b.textFit(x+label+2, y, width-label-2, onSide(c.piece.Side))
	b.colour(grey)
	b.textFit(x, y+3.2, width, b.units.Size(c.h, c.w)+grainWord(c.piece))
	b.colour(black)
}

func onSide(s mendplan.SideName) string {
	if s == mendplan.Back {
		return "back, mirrored"
	}
	return "front"
}

func grainWord(p mendplan.Piece) string {
	if p.GrainFree {
		return " · any grain"
	}
	return ""
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

// templateTiles prints a piece larger than the page on several pages that
// overlap, with crosses at the same places of the piece on both.
func (b *book) templateTiles(c cell, areaW, areaH float64) {
	areaH -= cellLabel
	nx, stepX := tiles(c.w, areaW)
	ny, stepY := tiles(c.h, areaH)
	for iy := range ny {
		for ix := range nx {
			b.templatePage()
			ox, oy := float64(ix)*stepX, float64(iy)*stepY
			x, y := marginX, b.templateTop()
			b.f.ClipRect(x, y, min(areaW, c.w-ox)+0.2, min(areaH, c.h-oy)+0.2, false)
			b.drawCell(c, x-ox, y-oy)
			b.f.ClipEnd()
			for jy := range ny + 1 {
				for jx := range nx + 1 {
					mx, my := float64(jx)*stepX+tileOverlap/2, float64(jy)*stepY+tileOverlap/2
					b.registerMark(x+mx-ox, y+my-oy, x, y, areaW, areaH, fmt.Sprintf("%c%d", 'A'+jy%26, jx+1))
				}
			}
			b.cellWords(c, x, y+areaH+4, 120)
			b.font("", 7)
			b.textRight(marginX+areaW, y+areaH+4, fmt.Sprintf("tile %d of %d: lay the crosses over one another", iy*nx+ix+1, nx*ny))
		}
	}
}

// tiles splits a length into overlapping stretches that fit into room.
func tiles(length, room float64) (n int, step float64) {
	if length <= room {
		return 1, room
	}
	step = room - tileOverlap
	return int(math.Ceil((length - tileOverlap) / step)), step
}

// registerMark draws a cross with its name, if it lies in the tile.
func (b *book) registerMark(x, y, left, top, w, h float64, name string) {
	if x < left-0.01 || y < top-0.01 || x > left+w+0.01 || y > top+h+0.01 {
		return
	}
	b.line(grey, 0.12)
	b.f.Line(x-3, y, x+3, y)
	b.f.Line(x, y-3, x, y+3)
	b.f.Circle(x, y, 1.5, "D")
	b.colour(grey)
	b.font("", 6)
	b.text(x+2, y-1.5, name)
	b.colour(black)
}
