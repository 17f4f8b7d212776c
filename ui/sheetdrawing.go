package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// sheetActs is what a drawing of a sheet asks its owner to do. Places are
// indexes in the sheet's Places.
type sheetActs struct {
	look  func(place int)               // another piece is looked at; −1 for none
	say   func(words string)            // what lies under the pointer; "" for nothing
	leaf  func(place int)               // show the piece on its leaf
	tick  func(place int)               // tick it off, or not
	pin   func(place int)               // hold it where it lies, or let it go
	put   func(place int, x, y float64) // hold it at another place, mm
	menu  func(place int, at fyne.Position)
	sheet func(by int) // go to another sheet
	rune  func(r rune) // keys that are not the drawing's own
	key   func(name fyne.KeyName)
}

// sheetDrawing draws one sheet of tissue with its pieces, labels and numbered
// cuts, the grain upright as on the print. It can be zoomed and moved about;
// where most of a sheet stays whole, the part that is cut up is shown first,
// and a small outline in the corner tells where on the sheet it lies.
type sheetDrawing struct {
	widget.BaseWidget
	acts    sheetActs
	sheet   nest.Sheet
	units   mendplan.Units
	view    sheetView
	fitting fitting
	marked  int             // index of the cut shown strongly; −1 for none
	off     map[int]bool    // cuts that are made
	lit     map[string]bool // labels of pieces shown strongly
	hover   int             // index of the place under the pointer; −1 for none
	chosen  int             // index of the place in hand; −1 for none
	focused bool
	drag    sheetDrag
}

// fitting says what the view goes back to when its room changes.
type fitting int

const (
	fitPart  fitting = iota // the part that is cut up
	fitWhole                // the whole sheet
	fitFree                 // as the user left it
)

var (
	_ fyne.Tappable          = (*sheetDrawing)(nil)
	_ fyne.SecondaryTappable = (*sheetDrawing)(nil)
	_ fyne.Draggable         = (*sheetDrawing)(nil)
	_ fyne.Scrollable        = (*sheetDrawing)(nil)
	_ fyne.Focusable         = (*sheetDrawing)(nil)
	_ desktop.Hoverable      = (*sheetDrawing)(nil)
)

func newSheetDrawing(acts sheetActs) *sheetDrawing {
	d := &sheetDrawing{acts: acts, marked: -1, hover: -1, chosen: -1}
	d.drag.place = -1
	d.ExtendBaseWidget(d)
	return d
}

// show draws a sheet. The view stays as it is when the sheet is the same, or
// was only laid out anew.
func (d *sheetDrawing) show(s nest.Sheet, u mendplan.Units, off map[int]bool) {
	same := d.sheet.Stock == s.Stock && d.sheet.Copy == s.Copy && d.sheet.W == s.W && d.sheet.H == s.H
	label := d.label(d.chosen)
	d.sheet, d.units, d.off = s, u, off
	d.hover, d.chosen = -1, -1
	if same && label != "" {
		d.chosen = slices.IndexFunc(s.Places, func(p nest.Place) bool { return p.Blank == label })
	}
	if !same || d.marked >= len(s.Cuts) {
		d.marked = -1
	}
	if !same && d.fitting == fitFree {
		d.fitting = fitPart
	}
	d.refit()
	d.Refresh()
}

// label names a place; "" for none.
func (d *sheetDrawing) label(place int) string {
	if place < 0 || place >= len(d.sheet.Places) {
		return ""
	}
	return d.sheet.Places[place].Blank
}

// refit brings the view to what it is to show in the room there is.
func (d *sheetDrawing) refit() {
	size := geom.Pt{X: d.sheet.W, Y: d.sheet.H}
	switch d.fitting {
	case fitPart:
		d.view = fitted(size, cutPart(d.sheet), d.Size())
	case fitWhole:
		d.view = fitted(size, geom.Box{Max: size}, d.Size())
	default:
		d.view.sheet, d.view.size = size, d.Size()
		d.view = d.view.held()
	}
}

// fit shows the part that is cut up, or the whole sheet.
func (d *sheetDrawing) fit(what fitting) {
	d.fitting = what
	d.refit()
	d.Refresh()
}

// zoom magnifies about a point.
func (d *sheetDrawing) zoom(factor float32, about fyne.Position) {
	d.fitting = fitFree
	d.view = d.view.zoomed(factor, about)
	d.Refresh()
}

// closeUp reports whether only a part of the sheet is in sight.
func (d *sheetDrawing) closeUp() bool {
	v := d.view
	return v.at.X < 0 || v.at.Y < 0 || v.at.X+float32(d.sheet.W)*v.k > d.Size().Width+1 || v.at.Y+float32(d.sheet.H)*v.k > d.Size().Height+1
}

// highlight shows a cut strongly, with the pieces that come free by it.
func (d *sheetDrawing) highlight(cut int) {
	d.marked = cut
	d.Refresh()
}

// light shows pieces strongly by their labels.
func (d *sheetDrawing) light(labels map[string]bool) {
	d.lit = labels
	d.Refresh()
}

// freed reports whether a place comes free by the cut that is shown strongly.
func (d *sheetDrawing) freed(place int) bool {
	if d.marked < 0 || d.marked >= len(d.sheet.Cuts) {
		return false
	}
	c := d.sheet.Cuts[d.marked]
	return c.Near.Place == place || c.Far.Place == place
}

// choose takes a piece in hand; −1 takes none.
func (d *sheetDrawing) choose(place int) {
	d.chosen = place
	d.tell()
	d.Refresh()
}

// CreateRenderer implements [fyne.Widget].
func (d *sheetDrawing) CreateRenderer() fyne.WidgetRenderer { return &sheetRenderer{d: d} }

// Resize implements [fyne.CanvasObject].
func (d *sheetDrawing) Resize(size fyne.Size) {
	if size == d.Size() {
		return
	}
	d.BaseWidget.Resize(size)
	d.refit()
	d.Refresh()
}

// looking is the place the user looks at: under the pointer, else in hand.
func (d *sheetDrawing) looking() int {
	if d.hover >= 0 {
		return d.hover
	}
	return d.chosen
}

// tell says which piece is looked at: small ones carry no label.
func (d *sheetDrawing) tell() {
	i := d.looking()
	words := ""
	if i >= 0 && i < len(d.sheet.Places) {
		p := d.sheet.Places[i]
		words = t("Piece %s: %s.", p.Name(), d.units.Size(p.H, p.W)) + " "
		switch {
		case p.Cut:
			words += t("It is cut.")
		case p.Pinned:
			words += t("It is held at its place.")
		}
		words += " " + t("Drag it to hold it elsewhere; Enter shows its leaf, Space ticks it off, the right button has more.")
	}
	if d.acts.say != nil {
		d.acts.say(words)
	}
	if d.acts.look != nil {
		d.acts.look(i)
	}
}
