package pdf

import (
	"fmt"
	"math"

	"leafmend/mendplan/nest"
)

// drawSheet draws a sheet as large as half the page allows, from y down, and
// returns the y below it. Pieces carry their label, or a number that is
// listed beside the sheet when they are drawn too small for it.
func (b *book) drawSheet(s nest.Sheet, y float64) float64 {
	roomW, roomH := b.w-2*marginX-46, (b.bottom()-y)*0.56
	k := min(roomW/s.W, roomH/s.H)
	d := sheetDrawing{b: b, s: s, x: marginX, y: y, k: k}
	d.ground()
	d.remnants()
	d.pieces()
	d.cuts()
	d.keyed(marginX + s.W*k + 6)
	b.colour(grey)
	b.font("", 7)
	b.text(marginX, y+s.H*k+4, fmt.Sprintf("drawn at 1 : %.1f; grey numbers are the cuts, in order", 1/k))
	b.colour(black)
	return y + s.H*k + 6
}

// sheetDrawing is a sheet on the page: k page millimetres to one of the sheet.
type sheetDrawing struct {
	b       *book
	s       nest.Sheet
	x, y, k float64
	small   []int // places too small for their label
	marks   [][2]float64
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
	d.b.grainArrow(d.x+d.s.W*d.k+3, d.y+d.s.H*d.k/2, min(d.s.H*d.k, 30))
}

// remnants hatches what goes back to stock.
func (d *sheetDrawing) remnants() {
	f := d.b.f
	for _, r := range d.s.Remnants {
		if !r.Keep {
			continue
		}
		x, y, w, h := d.x+r.X*d.k, d.y+r.Y*d.k, r.W*d.k, r.H*d.k
		f.ClipRect(x, y, w, h, false)
		d.b.line(pale, 0.15)
		for o := 0.0; o < w+h; o += 3 {
			f.Line(x+o, y, x+o-h, y+h)
		}
		f.ClipEnd()
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
		if !d.label(p.Blank, x, y, w, h) {
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
func (d *sheetDrawing) keyed(x float64) {
	if len(d.small) == 0 {
		return
	}
	d.b.font("", 7)
	rows := max(int(d.s.H*d.k/3.2), 1)
	for n, i := range d.small {
		col, row := n/rows, n%rows
		d.b.text(x+float64(col)*22, d.y+3+float64(row)*3.2, fmt.Sprintf("%d  %s", n+1, d.s.Places[i].Blank))
	}
}
