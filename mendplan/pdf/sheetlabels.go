package pdf

import (
	"cmp"
	"fmt"
	"slices"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// leastShape is the smaller side of a blank as drawn, mm, from which on the
// shape to be cut from it is drawn into it.
const leastShape = 9.0

// fullShare is the share of its blank from which on a shape counts as the
// blank itself.
const fullShare = 0.9

// shape draws the outline of a piece that is no rectangle into its blank, as
// its template shows it.
func (d *sheetDrawing) shape(p nest.Place) {
	piece, ok := d.b.pieces[p.Blank]
	if !ok || min(p.W, p.H)*d.k < leastShape || piece.AreaMM2 > fullShare*p.W*p.H {
		return
	}
	d.outline(onSheet(piece, nest.XY{X: p.X + p.W/2, Y: p.Y + p.H/2}, p.Turned, false))
}

// onSheet returns the rings of a piece as its template shows it, about the
// middle of its blank, mm on the sheet: turned by 90 degrees with its blank,
// or by 180.
func onSheet(piece mendplan.Piece, middle nest.XY, quarter, half bool) [][]geom.Pt {
	c := turnedCell(piece, nil)
	for _, ring := range c.rings {
		for i, q := range ring {
			x, y := q.X-c.w/2, q.Y-c.h/2
			if half {
				x, y = -x, -y
			}
			if quarter {
				x, y = -y, x
			}
			ring[i] = geom.Pt{X: middle.X + x, Y: middle.Y + y}
		}
	}
	return c.rings
}

// outline draws rings given in millimetres of the sheet.
func (d *sheetDrawing) outline(rings [][]geom.Pt) {
	d.b.line(indigo, 0.12)
	d.b.f.SetDashPattern([]float64{0.8, 0.5}, 0)
	for _, ring := range rings {
		out := make([]geom.Pt, len(ring))
		for i, q := range ring {
			out[i] = geom.Pt{X: d.x + q.X*d.k, Y: d.y + q.Y*d.k}
		}
		d.b.f.Polygon(moved(out, 0, 0), "D")
	}
	d.b.f.SetDashPattern(nil, 0)
}

// sharedOutlines are the rings of the two pieces of a place that holds two,
// mm on the sheet. A blank lies with its piece turned by 180 degrees from the
// template.
func sharedOutlines(p nest.Place, own, other mendplan.Piece) (a, b [][]geom.Pt) {
	return onSheet(own, p.Share.OwnAt, p.Turned, true), onSheet(other, p.Share.OtherAt, p.Turned, !p.Share.OtherTurned)
}

// shared draws two pieces that share a blank: their outlines, the line that
// parts them, and their labels each on its own side. false when the labels do
// not fit there.
func (d *sheetDrawing) shared(p nest.Place) bool {
	s := p.Share
	own, ok1 := d.b.pieces[p.Blank]
	other, ok2 := d.b.pieces[s.Blank]
	if ok1 && ok2 && s.OwnAt != s.OtherAt && min(p.W, p.H)*d.k >= leastShape {
		first, second := sharedOutlines(p, own, other)
		d.outline(first)
		d.outline(second)
	}
	d.b.line(madder, 0.25)
	d.b.f.SetDashPattern([]float64{2, 0.7, 0.5, 0.7}, 0)
	d.b.f.Line(d.x+s.X1*d.k, d.y+s.Y1*d.k, d.x+s.X2*d.k, d.y+s.Y2*d.k)
	d.b.f.SetDashPattern(nil, 0)
	fits := true
	for _, l := range []struct {
		name string
		at   nest.XY
	}{{p.Blank, s.Own}, {s.Blank, s.Other}} {
		w := min(p.W, 2*min(l.at.X-p.X, p.X+p.W-l.at.X)) * d.k
		h := min(p.H, 2*min(l.at.Y-p.Y, p.Y+p.H-l.at.Y)) * d.k
		fits = d.label(l.name, "", d.x+l.at.X*d.k-w/2, d.y+l.at.Y*d.k-h/2, w, h) && fits
	}
	return fits
}

// label writes a name into a rectangle, lying or upright, at the largest size
// that fits, with the size of the piece below it where there is room; false
// when the name does not fit.
func (d *sheetDrawing) label(name, size string, x, y, w, h float64) bool {
	name = d.b.face.printable(name)
	for _, pt := range []float64{9, 8, 7, 6, 5} {
		if d.labelAt(pt, name, size, x+w/2, y+h/2, w, h, false) || d.labelAt(pt, name, size, x+w/2, y+h/2, h, w, true) {
			return true
		}
	}
	return false
}

// labelAt writes a name of one size about a middle, if it fits into w × h.
func (d *sheetDrawing) labelAt(pt float64, name, size string, cx, cy, w, h float64, upright bool) bool {
	d.b.font("B", pt)
	tw, th := d.b.f.GetStringWidth(name)+1, pt/ptPerMM*0.95
	if tw > w || th > h {
		return false
	}
	if upright {
		d.b.f.TransformBegin()
		d.b.f.TransformRotate(90, cx, cy)
		defer d.b.f.TransformEnd()
	}
	d.b.colour(black)
	small := max(pt*0.75, 5)
	d.b.font("", small)
	if sw := d.b.f.GetStringWidth(size) + 1; size == "" || sw > w || th+small/ptPerMM*1.1 > h {
		d.b.font("B", pt)
		d.b.textCentre(cx, cy+th*0.32, name)
		return true
	}
	d.b.colour(grey)
	d.b.textCentre(cx, cy+th*0.32+small/ptPerMM*0.55, size)
	d.b.font("B", pt)
	d.b.colour(black)
	d.b.textCentre(cx, cy+th*0.32-small/ptPerMM*0.5, name)
	return true
}

const keyLine = 3.4 // from one line of the key to the next

// keyed lists the pieces that were drawn too small for their label from x on,
// beside a drawing of the given height: led to by lines while one column
// holds them, else by numbers.
func (d *sheetDrawing) keyed(x, height float64) {
	if len(d.small) == 0 {
		return
	}
	top := d.y
	if d.part != nil {
		top += d.part.y * d.k
	}
	slices.SortStableFunc(d.small, func(a, b int) int {
		p, q := d.s.Places[a], d.s.Places[b]
		return cmp.Or(cmp.Compare(p.Y+p.H/2, q.Y+q.H/2), cmp.Compare(q.X, p.X))
	})
	rows := max(int(height/keyLine), 1)
	if len(d.small) <= rows {
		d.leaders(x, top, height)
		return
	}
	for n, i := range d.small {
		p := d.s.Places[i]
		d.b.font("", 5)
		d.b.colour(indigo)
		d.b.textCentre(d.x+(p.X+p.W/2)*d.k, d.y+(p.Y+p.H/2)*d.k+0.6, fmt.Sprint(n+1))
		d.b.colour(black)
		d.b.font("", 7)
		d.b.text(x+float64(n/rows)*22, top+2.4+float64(n%rows)*keyLine, fmt.Sprintf("%d  %s", n+1, d.name(i)))
	}
}

// leaders writes each label beside the drawing, as near its piece's height as
// the others let it, with a line from it to the piece.
func (d *sheetDrawing) leaders(x, top, height float64) {
	at := make([]float64, len(d.small))
	for n, i := range d.small {
		p := d.s.Places[i]
		at[n] = max(d.y+(p.Y+p.H/2)*d.k, top+keyLine/2)
		if n > 0 {
			at[n] = max(at[n], at[n-1]+keyLine)
		}
	}
	low := top + height - keyLine/2
	for n := len(at) - 1; n >= 0; n-- {
		at[n] = min(at[n], low)
		low = at[n] - keyLine
	}
	for n, i := range d.small {
		p := d.s.Places[i]
		px, py := d.x+(p.X+p.W/2)*d.k, d.y+(p.Y+p.H/2)*d.k
		d.b.line(indigo, 0.12)
		d.b.f.Line(px, py, x-0.8, at[n])
		d.b.fill(indigo)
		d.b.f.Circle(px, py, 0.35, "F")
		d.b.colour(black)
		d.b.font("B", 7)
		d.b.text(x, at[n]+0.9, d.name(i))
	}
}
