package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// pressRow makes any content pressable, by pointer and by key, and shows that
// it is. Keys that it has no use for go where they would go without it.
type pressRow struct {
	widget.BaseWidget
	inner   fyne.CanvasObject
	ground  *canvas.Rectangle
	onPress func()
	chosen  bool
	over    bool
	focused bool
}

var (
	_ fyne.Tappable     = (*pressRow)(nil)
	_ fyne.Focusable    = (*pressRow)(nil)
	_ desktop.Hoverable = (*pressRow)(nil)
)

func newPressRow(inner fyne.CanvasObject, onPress func()) *pressRow {
	r := &pressRow{inner: inner, onPress: onPress, ground: canvas.NewRectangle(nil)}
	r.ground.CornerRadius = theme.InputRadiusSize()
	r.ExtendBaseWidget(r)
	return r
}

// CreateRenderer implements [fyne.Widget].
func (r *pressRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(r.ground, r.inner))
}

// Tapped implements [fyne.Tappable].
func (r *pressRow) Tapped(*fyne.PointEvent) {
	if r.onPress != nil {
		r.onPress()
	}
}

func (r *pressRow) paint() {
	r.ground.FillColor, r.ground.StrokeWidth = nil, 0
	switch {
	case r.chosen:
		r.ground.FillColor = shade(colourChosen)
	case r.over:
		r.ground.FillColor = shade(theme.ColorNameHover)
	}
	if r.focused {
		r.ground.StrokeColor, r.ground.StrokeWidth = shade(theme.ColorNamePrimary), 2
	}
	r.ground.Refresh()
}

// choose marks the row, or takes the mark away.
func (r *pressRow) choose(on bool) {
	r.chosen = on
	r.paint()
}

// MouseIn implements [desktop.Hoverable].
func (r *pressRow) MouseIn(*desktop.MouseEvent) { r.over = true; r.paint() }

// MouseMoved implements [desktop.Hoverable].
func (r *pressRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements [desktop.Hoverable].
func (r *pressRow) MouseOut() { r.over = false; r.paint() }

// FocusGained implements [fyne.Focusable].
func (r *pressRow) FocusGained() {
	r.focused = true
	r.paint()
	keepInSight(r)
}

// FocusLost implements [fyne.Focusable].
func (r *pressRow) FocusLost() { r.focused = false; r.paint() }

// TypedRune implements [fyne.Focusable].
func (r *pressRow) TypedRune(c rune) {
	handOnLetter(r, c)
}

// TypedKey implements [fyne.Focusable].
func (r *pressRow) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		r.Tapped(nil)
	default:
		handOnKey(r, e)
	}
}
