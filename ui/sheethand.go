package ui

import (
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/nest"
)

// sheetDrag is a gesture on a drawing of a sheet: a piece that is moved, or
// the sheet itself.
type sheetDrag struct {
	on    bool
	place int // −1 when the sheet is moved
	x, y  float64
}

// placeAt finds the piece under a point, −1 for none.
func (d *sheetDrawing) placeAt(p fyne.Position) int {
	q := d.view.toSheet(p)
	for i, pl := range d.sheet.Places {
		if q.X >= pl.X && q.Y >= pl.Y && q.X <= pl.X+pl.W && q.Y <= pl.Y+pl.H {
			return i
		}
	}
	return -1
}

// Tapped implements [fyne.Tappable]: a piece is taken in hand.
func (d *sheetDrawing) Tapped(e *fyne.PointEvent) {
	d.grabKeys()
	d.choose(d.placeAt(e.Position))
}

// TappedSecondary implements [fyne.SecondaryTappable].
func (d *sheetDrawing) TappedSecondary(e *fyne.PointEvent) {
	i := d.placeAt(e.Position)
	d.choose(i)
	if d.acts.menu != nil {
		d.acts.menu(i, e.AbsolutePosition)
	}
}

func (d *sheetDrawing) grabKeys() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(d); c != nil {
		c.Focus(d)
	}
}

// MouseIn implements [desktop.Hoverable].
func (d *sheetDrawing) MouseIn(e *desktop.MouseEvent) { d.MouseMoved(e) }

// MouseMoved implements [desktop.Hoverable].
func (d *sheetDrawing) MouseMoved(e *desktop.MouseEvent) {
	if i := d.placeAt(e.Position); i != d.hover {
		d.hover = i
		d.tell()
		d.Refresh()
	}
}

// MouseOut implements [desktop.Hoverable].
func (d *sheetDrawing) MouseOut() {
	if d.hover < 0 {
		return
	}
	d.hover = -1
	d.tell()
	d.Refresh()
}

// Scrolled implements [fyne.Scrollable]: the wheel zooms at the pointer.
func (d *sheetDrawing) Scrolled(e *fyne.ScrollEvent) {
	const notch = 25 // what the toolkit reports for one
	d.zoom(float32(math.Pow(1.25, math.Max(-4, math.Min(4, float64(e.Scrolled.DY)/notch)))), e.Position)
}

// Dragged implements [fyne.Draggable]: a piece is moved, or the sheet.
func (d *sheetDrawing) Dragged(e *fyne.DragEvent) {
	if !d.drag.on {
		start := e.Position.SubtractXY(e.Dragged.DX, e.Dragged.DY)
		d.drag = sheetDrag{on: true, place: d.placeAt(start)}
		if i := d.drag.place; i >= 0 {
			d.drag.x, d.drag.y = d.sheet.Places[i].X, d.sheet.Places[i].Y
			d.grabKeys()
			d.choose(i)
		}
	}
	if d.drag.place < 0 {
		d.fitting = fitFree
		d.view = d.view.moved(e.Dragged.DX, e.Dragged.DY)
	} else {
		d.drag.x += float64(e.Dragged.DX / d.view.k)
		d.drag.y += float64(e.Dragged.DY / d.view.k)
	}
	d.Refresh()
}

// DragEnd implements [fyne.Draggable].
func (d *sheetDrawing) DragEnd() {
	drag := d.drag
	d.drag = sheetDrag{place: -1}
	if drag.on && drag.place >= 0 && d.acts.put != nil {
		x, y := d.within(drag)
		d.acts.put(drag.place, x, y)
	}
	d.Refresh()
}

// within brings a moved piece inside the sheet's margins, on half millimetres
// as a ruler shows them, and up against a margin it nearly touches.
func (d *sheetDrawing) within(drag sheetDrag) (x, y float64) {
	p, s := d.sheet.Places[drag.place], d.sheet
	near := 6 / float64(d.view.k)
	fix := func(v, lo, hi float64) float64 {
		v = math.Round(v*2) / 2
		switch {
		case v < lo+near || hi < lo:
			return lo
		case v > hi-near:
			return hi
		}
		return v
	}
	return fix(drag.x, s.Margin.Left, s.W-s.Margin.Right-p.W), fix(drag.y, s.Margin.Top, s.H-s.Margin.Bottom-p.H)
}

// FocusGained implements [fyne.Focusable].
func (d *sheetDrawing) FocusGained() {
	d.focused = true
	d.Refresh()
}

// FocusLost implements [fyne.Focusable].
func (d *sheetDrawing) FocusLost() {
	d.focused = false
	d.Refresh()
}

// TypedRune implements [fyne.Focusable].
func (d *sheetDrawing) TypedRune(r rune) {
	mid := fyne.NewPos(d.Size().Width/2, d.Size().Height/2)
	switch r {
	case '+':
		d.zoom(1.25, mid)
	case '-', '−':
		d.zoom(1/1.25, mid)
	case '0':
		d.fit(fitWhole)
	case '9':
		d.fit(fitPart)
	case 'h', 'H':
		if d.chosen >= 0 && d.acts.pin != nil {
			d.acts.pin(d.chosen)
		}
	case ' ':
	default:
		if d.acts.rune != nil {
			d.acts.rune(r)
		}
	}
}

// step is how far a key moves a piece in hand, mm.
const sheetStep = 1.0

// TypedKey implements [fyne.Focusable]: arrows go from piece to piece, and
// with Alt move the piece in hand; without pieces they move the sheet.
func (d *sheetDrawing) TypedKey(e *fyne.KeyEvent) {
	dx, dy, arrow := arrowOf(e.Name)
	mods := currentModifiers()
	switch {
	case arrow && mods&fyne.KeyModifierAlt != 0 && d.chosen >= 0 && d.acts.put != nil:
		p := d.sheet.Places[d.chosen]
		x, y := d.within(sheetDrag{place: d.chosen, x: p.X + dx*sheetStep, y: p.Y + dy*sheetStep})
		d.acts.put(d.chosen, x, y)
	case arrow && (mods&shift != 0 || len(d.sheet.Places) == 0):
		d.fitting = fitFree
		d.view = d.view.moved(float32(-dx)*40, float32(-dy)*40)
		d.Refresh()
	case arrow:
		d.choose(neighbour(d.sheet.Places, d.chosen, dx, dy))
	case e.Name == fyne.KeySpace && d.chosen >= 0 && d.acts.tick != nil:
		d.acts.tick(d.chosen)
	case (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) && d.chosen >= 0 && d.acts.leaf != nil:
		d.acts.leaf(d.chosen)
	case e.Name == fyne.KeyEscape && d.chosen >= 0:
		d.choose(-1)
	case (e.Name == fyne.KeyPageDown || e.Name == fyne.KeyPageUp) && d.acts.sheet != nil:
		by := 1
		if e.Name == fyne.KeyPageUp {
			by = -1
		}
		d.acts.sheet(by)
	default:
		if d.acts.key != nil {
			d.acts.key(e.Name)
		}
	}
}

func arrowOf(name fyne.KeyName) (dx, dy float64, arrow bool) {
	switch name {
	case fyne.KeyLeft:
		return -1, 0, true
	case fyne.KeyRight:
		return 1, 0, true
	case fyne.KeyUp:
		return 0, -1, true
	case fyne.KeyDown:
		return 0, 1, true
	}
	return 0, 0, false
}

// neighbour finds the next piece in a direction: near, and not far aside. The
// first piece when none is in hand; the same when there is none further on.
func neighbour(places []nest.Place, from int, dx, dy float64) int {
	if from < 0 || from >= len(places) {
		return min(0, len(places)-1)
	}
	mid := func(p nest.Place) (float64, float64) { return p.X + p.W/2, p.Y + p.H/2 }
	x0, y0 := mid(places[from])
	best, least := from, math.Inf(1)
	for i, p := range places {
		x, y := mid(p)
		on, aside := (x-x0)*dx+(y-y0)*dy, math.Abs((x-x0)*dy)+math.Abs((y-y0)*dx)
		if i == from || on <= 0.01 {
			continue
		}
		if far := on + 2.5*aside; far < least {
			best, least = i, far
		}
	}
	return best
}
