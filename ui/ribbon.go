package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// ribbon is a line across a panel that says what must not be missed, with one
// button that helps.
type ribbon struct {
	words  *widget.Label
	button *keyButton
	edge   *canvas.Rectangle
	ground *canvas.Rectangle
	box    *fyne.Container
}

func newRibbon() *ribbon {
	r := &ribbon{words: widget.NewLabel(""), button: newButton("", nil),
		edge: canvas.NewRectangle(nil), ground: canvas.NewRectangle(nil)}
	r.words.Truncation = fyne.TextTruncateEllipsis
	r.edge.SetMinSize(fyne.NewSize(4, 4))
	row := container.NewBorder(nil, nil, r.edge, r.button, r.words)
	r.box = container.NewStack(r.ground, container.New(layout.NewCustomPaddedLayout(1, 1, 0, 4), row))
	r.box.Hide()
	return r
}

func (r *ribbon) content() fyne.CanvasObject { return r.box }

func (r *ribbon) show(colour fyne.ThemeColorName, words, action string, run func()) {
	r.edge.FillColor, r.ground.FillColor = shade(colour), shade(theme.ColorNameInputBackground)
	r.edge.Refresh()
	r.ground.Refresh()
	r.words.SetText(words)
	r.button.OnTapped = run
	r.button.SetText(action)
	r.button.Hidden = action == ""
	r.box.Show()
}

func (r *ribbon) hide() { r.box.Hide() }
