package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// thumb shows a small picture of a leaf, or an empty sheet while there is
// none.
type thumb struct {
	widget.BaseWidget
	min   fyne.Size
	image *canvas.Image
	blank *canvas.Rectangle
}

func (th *thumb) show(img image.Image) {
	th.ensure()
	if th.image.Image == img {
		return
	}
	th.image.Image = img
	th.image.Hidden = img == nil
	th.blank.Hidden = img != nil
	th.Refresh()
}

func (th *thumb) ensure() {
	if th.image != nil {
		return
	}
	th.image = canvas.NewImageFromImage(nil)
	th.image.FillMode, th.image.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleFastest
	th.image.Hidden = true
	th.blank = canvas.NewRectangle(shade(theme.ColorNameInputBackground))
	th.blank.StrokeColor, th.blank.StrokeWidth = shade(theme.ColorNameInputBorder), 1
	th.blank.SetMinSize(th.min)
}

// CreateRenderer implements [fyne.Widget].
func (th *thumb) CreateRenderer() fyne.WidgetRenderer {
	th.ensure()
	return &thumbRenderer{th}
}

type thumbRenderer struct{ th *thumb }

func (r *thumbRenderer) Destroy()           {}
func (r *thumbRenderer) MinSize() fyne.Size { return r.th.min }
func (r *thumbRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.th.blank, r.th.image}
}

func (r *thumbRenderer) Layout(size fyne.Size) {
	r.th.image.Resize(size)
	w := size.Height * 0.72
	r.th.blank.Resize(fyne.NewSize(w, size.Height))
	r.th.blank.Move(fyne.NewPos((size.Width-w)/2, 0))
}

func (r *thumbRenderer) Refresh() {
	r.th.blank.FillColor, r.th.blank.StrokeColor = shade(theme.ColorNameInputBackground), shade(theme.ColorNameInputBorder)
	r.th.blank.Refresh()
	r.th.image.Refresh()
}
