package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// pressRow makes any content pressable, and shows that it is.
type pressRow struct {
	widget.BaseWidget
	inner   fyne.CanvasObject
	ground  *canvas.Rectangle
	onPress func()
	chosen  bool
}

var (
	_ fyne.Tappable     = (*pressRow)(nil)
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

func (r *pressRow) paint(over bool) {
	r.ground.FillColor = nil
	if r.chosen {
		r.ground.FillColor = shade(colourChosen)
	} else if over {
		r.ground.FillColor = shade(theme.ColorNameHover)
	}
	r.ground.Refresh()
}

// choose marks the row, or takes the mark away.
func (r *pressRow) choose(on bool) {
	r.chosen = on
	r.paint(false)
}

// MouseIn implements [desktop.Hoverable].
func (r *pressRow) MouseIn(*desktop.MouseEvent) { r.paint(true) }

// MouseMoved implements [desktop.Hoverable].
func (r *pressRow) MouseMoved(*desktop.MouseEvent) {}

// MouseOut implements [desktop.Hoverable].
func (r *pressRow) MouseOut() { r.paint(false) }
