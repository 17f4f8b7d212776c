package pdf

import (
	"fmt"
	"math"

	"leafmend/mendplan/nest"
)

// crowdedShare is the share of a sheet's area below which the part that is
// cut is drawn a second time, enlarged.
const crowdedShare = 0.4

// keyWidth is the room beside a drawing for labels that do not fit into it.
const keyWidth = 46.0

// drawSheet draws the sheets of a run once, as large as half the page allows,
// from y down, and returns the y below it. Pieces carry their label; those
// drawn too small for it have it beside the sheet, led to by a line, or by a
// number where there are too many for lines. When most of the sheet stays
// whole, it is drawn small and its cut part enlarged beside.
func (b *book) drawSheet(run sheetRun, y float64) float64 {
	s := run.sheets[0]
	roomW, roomH := b.w-2*marginX, b.drawingHeight(len(s.Cuts), b.bottom()-y)
	part := usedPart(s)
	if part.w*part.h > crowdedShare*s.W*s.H {
		k := min((roomW-keyWidth)/s.W, roomH/s.H)
		d := sheetDrawing{b: b, run: run, s: s, x: marginX, y: y, k: k}
		d.all(marginX + s.W*k + 8)
		return b.drawnAt(y+s.H*k, b.say("drawn at 1 : %.1f; circled numbers are the cuts, in order", 1/k))
	}
	small := min(42/s.W, roomH/s.H)
	d := sheetDrawing{b: b, run: run, s: s, x: marginX, y: y, k: small, bare: true}
	d.all(0)
	d.frame(part)
	left := marginX + s.W*small + 10
	k := min((b.w-marginX-left-keyWidth)/part.w, roomH/part.h)
	e := sheetDrawing{b: b, run: run, s: s, x: left - part.x*k, y: y - part.y*k, k: k, part: &part}
	b.f.ClipRect(left-0.2, y-0.2, part.w*k+0.4, part.h*k+0.4, false)
	e.ground()
	e.remnants()
	e.pieces()
	e.cuts()
	b.f.ClipEnd()
	b.line(grey, 0.15)
	b.f.Rect(left-0.2, y-0.2, part.w*k+0.4, part.h*k+0.4, "D")
	e.keyed(left+part.w*k+6, part.h*k)
	return b.drawnAt(y+max(s.H*small, part.h*k), b.say("the part that is cut, drawn at 1 : %.1f; circled numbers are the cuts, in order", 1/k))
}

// drawingHeight is how high a sheet is drawn: as high as its steps leave it on
// one page, within reason; where they need another page anyway, the drawing
// has this one to itself.
func (b *book) drawingHeight(cuts int, room float64) float64 {
	steps := float64(cuts+2)*rowHeight + 10
	if steps > room*0.65 {
		return room - 16
	}
	return min(room-steps, room*0.62)
}

// drawnAt says at what scale a sheet is drawn and returns the y below.
func (b *book) drawnAt(y float64, words string) float64 {
	b.colour(grey)
	b.font("", 7)
	b.text(marginX, y+4, words)
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
	run     sheetRun
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
	names := offcutNames(d.s)
	for i, r := range d.s.Remnants {
		if !r.Keep {
			continue
		}
		x, y, w, h := d.x+r.X*d.k, d.y+r.Y*d.k, r.W*d.k, r.H*d.k
		d.b.hatched(x, y, w, h, pale)
		if d.part != nil {
			continue // the overview beside tells it
		}
		d.b.font("", 7)
		for _, words := range []string{d.b.say("keep %s: %s", names[i], d.b.units.Size(r.H, r.W)), d.b.say("keep %s", names[i]), names[i]} {
			tw := f.GetStringWidth(d.b.face.printable(words))
			across, along := tw < w-2 && h > 5, tw < h-2 && w > 5
			if !across && !along {
				continue
			}
			cx, cy := x+w/2, y+h/2
			f.TransformBegin()
			if !across {
				f.TransformRotate(90, cx, cy)
			}
			f.SetFillColor(255, 255, 255)
			f.Rect(cx-tw/2-1, cy-2.2, tw+2, 4, "F")
			d.b.colour(moss)
			d.b.textCentre(cx, cy+0.8, words)
			d.b.colour(black)
			f.TransformEnd()
			break
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
		if p.Cut {
			d.b.hatched(x, y, w, h, grey)
		}
		if !d.bare && !d.run.mixed() {
			if p.Share != nil {
				if !d.shared(p) {
					d.small = append(d.small, i)
				}
				continue
			}
			d.shape(p)
		}
		if !d.bare && !d.label(d.name(i), d.b.units.Size(p.H, p.W), x, y, w, h) {
			d.small = append(d.small, i)
		}
	}
}

// name is what a place is called in the drawing: its label, or on sheets cut
// alike into pieces of other names its number.
func (d *sheetDrawing) name(place int) string {
	if d.run.mixed() {
		return fmt.Sprint(place + 1)
	}
	return d.s.Places[place].Name()
}

// cuts numbers the cuts at a free spot on each line.
func (d *sheetDrawing) cuts() {
	f := d.b.f
	size, radius := 6.0, 1.7
	if len(d.s.Cuts) > 40 {
		size, radius = 5, 1.4
	}
	d.b.font("", size)
	for _, c := range d.s.Cuts {
		x1, y1, x2, y2 := d.x+c.X1*d.k, d.y+c.Y1*d.k, d.x+c.X2*d.k, d.y+c.Y2*d.k
		d.b.line(grey, 0.12)
		f.Line(x1, y1, x2, y2)
		mx, my := d.freeSpot(x1, y1, x2, y2)
		d.marks = append(d.marks, [2]float64{mx, my})
		f.SetFillColor(255, 255, 255)
		f.Circle(mx, my, radius, "FD")
		d.b.textCentre(mx, my+size*0.12, fmt.Sprint(c.Step))
	}
}

// freeSpot looks along a line for a place away from the numbers so far; the
// least crowded one if all are taken.
func (d *sheetDrawing) freeSpot(x1, y1, x2, y2 float64) (x, y float64) {
	best := -1.0
	for _, t := range []float64{0, 0.5, 1, 0.25, 0.75, 0.12, 0.37, 0.62, 0.88} {
		px, py := x1+(x2-x1)*t, y1+(y2-y1)*t
		if d.part != nil {
			px = min(max(px, d.x+d.part.x*d.k+1.8), d.x+(d.part.x+d.part.w)*d.k-1.8)
			py = min(max(py, d.y+d.part.y*d.k+1.8), d.y+(d.part.y+d.part.h)*d.k-1.8)
		}
		least := math.Inf(1)
		for _, m := range d.marks {
			least = min(least, math.Hypot(px-m[0], py-m[1]))
		}
		if least >= 3.6 {
			return px, py
		}
		if least > best {
			best, x, y = least, px, py
		}
	}
	return x, y
}
