package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// The toolkit shows the focus of a button by a tint alone, which cannot be
// told on the coloured button that answers a dialog. A ring can.

// FocusGained implements [fyne.Focusable].
func (b *keyButton) FocusGained() {
	b.focused = true
	b.Button.FocusGained()
	keepInSight(b)
}

// FocusLost implements [fyne.Focusable].
func (b *keyButton) FocusLost() {
	b.focused = false
	b.Button.FocusLost()
}

// CreateRenderer implements [fyne.Widget].
func (b *keyButton) CreateRenderer() fyne.WidgetRenderer {
	ring := canvas.NewRectangle(nil)
	ring.StrokeWidth, ring.CornerRadius = ringWidth, theme.InputRadiusSize()
	r := &ringed{WidgetRenderer: b.Button.CreateRenderer(), of: b, ring: ring}
	r.paint()
	return r
}

// ringWidth is the width of the ring round a button with the focus, units.
const ringWidth = 2

// ringed draws a button with a ring while it has the focus.
type ringed struct {
	fyne.WidgetRenderer
	of   *keyButton
	ring *canvas.Rectangle
}

// Layout implements [fyne.WidgetRenderer].
func (r *ringed) Layout(size fyne.Size) {
	r.WidgetRenderer.Layout(size)
	r.ring.Resize(size)
}

// Objects implements [fyne.WidgetRenderer]; the ring lies over the rest.
func (r *ringed) Objects() []fyne.CanvasObject {
	return append(append([]fyne.CanvasObject(nil), r.WidgetRenderer.Objects()...), r.ring)
}

// Refresh implements [fyne.WidgetRenderer].
func (r *ringed) Refresh() {
	r.WidgetRenderer.Refresh()
	r.paint()
}

func (r *ringed) paint() {
	r.ring.StrokeColor = shade(theme.ColorNameForeground)
	r.ring.Hidden = !r.of.focused
	r.ring.Refresh()
}
