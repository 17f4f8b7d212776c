package pdf

import (
	"fmt"
	"math"

	"leafmend/mendplan/nest"
)

// crowdedShare is the share of a sheet's area below which the part that is
// cut is drawn a second time, enlarged.
const crowdedShare = 0.4

// drawSheet draws a sheet as large as half the page allows, from y down, and
// returns the y below it. Pieces carry their label, or a number that is
// listed beside the sheet when they are drawn too small for it. When most of
// the sheet stays whole, it is drawn small and its cut part enlarged beside.
func (b *book) drawSheet(s nest.Sheet, y float64) float64 {
	roomW, roomH := b.w-2*marginX, (b.bottom()-y)*0.56
	part := usedPart(s)
	if part.w*part.h > crowdedShare*s.W*s.H {
		const keyWidth = 46
		k := min((roomW-keyWidth)/s.W, roomH/s.H)
		d := sheetDrawing{b: b, s: s, x: marginX, y: y, k: k}
		d.all(marginX + s.W*k + 6)
		return b.drawnAt(y+s.H*k, k, "")
	}
	small := min(42/s.W, roomH/s.H)
	d := sheetDrawing{b: b, s: s, x: marginX, y: y, k: small, bare: true}
	d.all(0)
	d.frame(part)
	const keyWidth = 26
	left := marginX + s.W*small + 10
	k := min((b.w-marginX-left-keyWidth)/part.w, roomH/part.h)
	e := sheetDrawing{b: b, s: s, x: left - part.x*k, y: y - part.y*k, k: k, part: &part}
	b.f.ClipRect(left-0.2, y-0.2, part.w*k+0.4, part.h*k+0.4, false)
	e.ground()
	e.remnants()
	e.pieces()
	e.cuts()
	b.f.ClipEnd()
	b.line(grey, 0.15)
	b.f.Rect(left-0.2, y-0.2, part.w*k+0.4, part.h*k+0.4, "D")
	e.keyed(left+part.w*k+3, part.h*k)
	return b.drawnAt(y+max(s.H*small, part.h*k), k, "the part that is cut, ")
}

// drawnAt says at what scale a sheet is drawn and returns the y below.
func (b *book) drawnAt(y, k float64, what string) float64 {
	b.colour(grey)
	b.font("", 7)
	b.text(marginX, y+4, fmt.Sprintf("%sdrawn at 1 : %.1f; grey numbers are the cuts, in order", what, 1/k))
	b.colour(black)
	return y + 6
}

// rect is a rectangle on a sheet, mm.
type rect struct{ x, y, w, h float64 }

// usedPart returns the part of a sheet that holds its pieces, with a rim.
func usedPart(s nest.Sheet) rect {
	const rim = 6
	x0, y0, x1, y1 := s.W, s.H, 0.0, 0.0
	for _, p := range s.Places {
		x0, y0, x1, y1 = min(x0, p.X), min(y0, p.Y), max(x1, p.X+p.W), max(y1, p.Y+p.H)
	}
	x0, y0, x1, y1 = max(x0-rim, 0), max(y0-rim, 0), min(x1+rim, s.W), min(y1+rim, s.H)
	if x1 <= x0 || y1 <= y0 {
		return rect{0, 0, s.W, s.H}
	}
	return rect{x0, y0, x1 - x0, y1 - y0}
}

// sheetDrawing is a sheet on the page: k page millimetres to one of the sheet.
type sheetDrawing struct {
	b       *book
	s       nest.Sheet
	x, y, k float64
	part    *rect // only this part is shown; nil for the whole
	bare    bool  // an overview: no labels, no numbers
	small   []int // places too small for their label
	marks   [][2]float64
}

// all draws everything, with the key of small pieces at keyX.
func (d *sheetDrawing) all(keyX float64) {
	d.ground()
	d.remnants()
	d.pieces()
	if d.bare {
		return
	}
	d.cuts()
	d.b.grainArrow(d.x+d.s.W*d.k+3, d.y+d.s.H*d.k/2, min(d.s.H*d.k, 30))
	d.keyed(keyX, d.s.H*d.k)
}

// frame marks a part of an overview.
func (d *sheetDrawing) frame(r rect) {
	d.b.line(madder, 0.3)
	d.b.f.Rect(d.x+r.x*d.k, d.y+r.y*d.k, r.w*d.k, r.h*d.k, "D")
}

func (d *sheetDrawing) ground() {
	f := d.b.f
	d.b.line(black, 0.35)
	f.Rect(d.x, d.y, d.s.W*d.k, d.s.H*d.k, "D")
	m := d.s.Margin
	if m != (nest.Margin{}) {
		d.b.line(grey, 0.1)
		f.SetDashPattern([]float64{0.8, 0.8}, 0)
		f.Rect(d.x+m.Left*d.k, d.y+m.Top*d.k, (d.s.W-m.Left-m.Right)*d.k, (d.s.H-m.Top-m.Bottom)*d.k, "D")
		f.SetDashPattern(nil, 0)
	}
}

// remnants hatches what goes back to stock.
func (d *sheetDrawing) remnants() {
	f := d.b.f
	for _, r := range d.s.Remnants {
		if !r.Keep {
			continue
		}
		x, y, w, h := d.x+r.X*d.k, d.y+r.Y*d.k, r.W*d.k, r.H*d.k
		d.b.hatched(x, y, w, h, pale)
		d.b.font("", 7)
		words := "keep " + d.b.units.Size(r.H, r.W)
		if d.b.f.GetStringWidth(words) < w-2 && h > 5 {
			tw := d.b.f.GetStringWidth(words)
			d.b.f.SetFillColor(255, 255, 255)
			f.Rect(x+w/2-tw/2-1, y+h/2-2.2, tw+2, 4, "F")
			d.b.colour(moss)
			d.b.textCentre(x+w/2, y+h/2+0.8, words)
			d.b.colour(black)
		}
	}
}

func (d *sheetDrawing) pieces() {
	f := d.b.f
	for i, p := range d.s.Places {
		x, y, w, h := d.x+p.X*d.k, d.y+p.Y*d.k, p.W*d.k, p.H*d.k
		d.b.fill(wash)
		d.b.line(indigo, 0.2)
		f.Rect(x, y, w, h, "FD")
		if !d.bare && !d.label(p.Blank, x, y, w, h) {
			d.small = append(d.small, i)
			d.b.font("", 5)
			d.b.colour(indigo)
			d.b.textCentre(x+w/2, y+h/2+0.6, fmt.Sprint(len(d.small)))
			d.b.colour(black)
		}
	}
}

// label writes a label into a rectangle, lying or upright, at the largest
// size that fits; false when none does.
func (d *sheetDrawing) label(s string, x, y, w, h float64) bool {
	s = d.b.face.printable(s)
	for _, size := range []float64{8, 7, 6, 5} {
		d.b.font("", size)
		tw, th := d.b.f.GetStringWidth(s)+1, size/ptPerMM*0.95
		if tw <= w && th <= h {
			d.b.textCentre(x+w/2, y+h/2+th*0.32, s)
			return true
		}
		if tw <= h && th <= w {
			d.b.f.TransformBegin()
			d.b.f.TransformRotate(90, x+w/2, y+h/2)
			d.b.textCentre(x+w/2, y+h/2+th*0.32, s)
			d.b.f.TransformEnd()
			return true
		}
	}
	return false
}

// cuts numbers the cuts at a free spot on each line.
func (d *sheetDrawing) cuts() {
	f := d.b.f
	d.b.font("", 5)
	for _, c := range d.s.Cuts {
		x1, y1, x2, y2 := d.x+c.X1*d.k, d.y+c.Y1*d.k, d.x+c.X2*d.k, d.y+c.Y2*d.k
		d.b.line(grey, 0.12)
		f.Line(x1, y1, x2, y2)
		mx, my := d.freeSpot(x1, y1, x2, y2)
		d.marks = append(d.marks, [2]float64{mx, my})
		f.SetFillColor(255, 255, 255)
		f.Circle(mx, my, 1.45, "FD")
		d.b.colour(grey)
		d.b.textCentre(mx, my+0.6, fmt.Sprint(c.Step))
	}
	d.b.colour(black)
}

// freeSpot looks along a line for a place away from the numbers so far; the
// least crowded one if all are taken.
func (d *sheetDrawing) freeSpot(x1, y1, x2, y2 float64) (x, y float64) {
	best := -1.0
	for _, t := range []float64{0, 0.5, 1, 0.25, 0.75, 0.12, 0.37, 0.62, 0.88} {
		px, py := x1+(x2-x1)*t, y1+(y2-y1)*t
		if d.part != nil {
			px = min(max(px, d.x+d.part.x*d.k+1.6), d.x+(d.part.x+d.part.w)*d.k-1.6)
			py = min(max(py, d.y+d.part.y*d.k+1.6), d.y+(d.part.y+d.part.h)*d.k-1.6)
		}
		least := math.Inf(1)
		for _, m := range d.marks {
			least = min(least, math.Hypot(px-m[0], py-m[1]))
		}
		if least >= 3.2 {
			return px, py
		}
		if least > best {
			best, x, y = least, px, py
		}
	}
	return x, y
}

// keyed lists the pieces that were drawn too small for their label.
func (d *sheetDrawing) keyed(x, height float64) {
	if len(d.small) == 0 {
		return
	}
	d.b.font("", 7)
	top := d.y
	if d.part != nil {
		top += d.part.y * d.k
	}
	rows := max(int(height/3.2), 1)
	for n, i := range d.small {
		col, row := n/rows, n%rows
		d.b.text(x+float64(col)*22, top+3+float64(row)*3.2, fmt.Sprintf("%d  %s", n+1, d.s.Places[i].Blank))
	}
}
