package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// keepInSight moves the scrolls round o so that what has taken the keyboard
// can be seen; the toolkit leaves them where they are.
func keepInSight(o fyne.CanvasObject) {
	app := fyne.CurrentApp()
	if app == nil {
		return
	}
	c := app.Driver().CanvasForObject(o)
	if c == nil {
		return
	}
	scrolls := scrollsTo(c.Content(), o)
	for _, over := range c.Overlays().List() {
		scrolls = append(scrolls, scrollsTo(over, o)...)
	}
	for _, s := range slices.Backward(scrolls) { // the innermost first
		top := app.Driver().AbsolutePositionForObject(o).Y - app.Driver().AbsolutePositionForObject(s).Y
		bottom := top + o.Size().Height
		y := s.Offset.Y
		switch {
		case bottom > s.Size().Height-sightMargin:
			y += bottom - s.Size().Height + sightMargin
		case top < sightMargin:
			y += top - sightMargin
		}
		if last := max(s.Content.Size().Height-s.Size().Height, 0); y != s.Offset.Y {
			s.ScrollToOffset(fyne.NewPos(s.Offset.X, min(max(y, 0), last)))
		}
	}
}

// letGoOfHidden takes the keyboard from what is no longer shown, since its keys
// would act unseen.
func (w *Window) letGoOfHidden() {
	c := w.win.Canvas()
	o, ok := c.Focused().(fyne.CanvasObject)
	if !ok || o == nil {
		return
	}
	if _, shown := wayTo(w.body, o); shown {
		return
	}
	for _, over := range c.Overlays().List() {
		if _, shown := wayTo(over, o); shown {
			return
		}
	}
	c.Unfocus()
}

// sightMargin is left above and below what is brought into sight, units.
const sightMargin = 10

// scrollsTo lists the scrolls on the way from an object down to another, the
// outermost first; nil when it is not there or is in none.
func scrollsTo(from, to fyne.CanvasObject) []*container.Scroll {
	found, _ := wayTo(from, to)
	return found
}

func wayTo(from, to fyne.CanvasObject) ([]*container.Scroll, bool) {
	if from == nil || !from.Visible() {
		return nil, false
	}
	if from == to {
		return nil, true
	}
	for _, part := range inside(from) {
		if below, ok := wayTo(part, to); ok {
			if s, is := from.(*container.Scroll); is {
				below = append([]*container.Scroll{s}, below...)
			}
			return below, true
		}
	}
	return nil, false
}
