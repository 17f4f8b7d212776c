package ui

import (
	"cmp"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// firstField returns the first thing in o that takes the keyboard and is
// shown and not disabled, as one reads: from above, then from the left; a
// button only where there is nothing else, and nil when there is none.
func firstField(o fyne.CanvasObject) fyne.Focusable {
	if f := firstOf(o, func(f fyne.Focusable) bool { _, button := f.(*keyButton); return !button }); f != nil {
		return f
	}
	return firstOf(o, func(fyne.Focusable) bool { return true })
}

func firstOf(o fyne.CanvasObject, wanted func(fyne.Focusable) bool) fyne.Focusable {
	if o == nil || !o.Visible() {
		return nil
	}
	if d, ok := o.(fyne.Disableable); ok && d.Disabled() {
		return nil
	}
	if f, ok := o.(fyne.Focusable); ok && wanted(f) {
		return f
	}
	parts := slices.Clone(inside(o))
	slices.SortStableFunc(parts, func(a, b fyne.CanvasObject) int {
		return cmp.Or(cmp.Compare(a.Position().Y, b.Position().Y), cmp.Compare(a.Position().X, b.Position().X))
	})
	for _, c := range parts {
		if f := firstOf(c, wanted); f != nil {
			return f
		}
	}
	return nil
}

// inside lists what lies in a container of any kind.
func inside(o fyne.CanvasObject) []fyne.CanvasObject {
	switch o := o.(type) {
	case *fyne.Container:
		return o.Objects
	case *container.Scroll:
		return []fyne.CanvasObject{o.Content}
	case *container.Split:
		return []fyne.CanvasObject{o.Leading, o.Trailing}
	case *pressRow:
		return []fyne.CanvasObject{o.inner}
	case *widget.PopUp:
		return []fyne.CanvasObject{o.Content}
	}
	return nil
}

// toFields gives the keyboard to the first field of what is shown; from a
// field it goes back to the leaf.
func (w *Window) toFields() {
	c := w.win.Canvas()
	if f := c.Focused(); f != nil && f != fyne.Focusable(w.surface) {
		c.Unfocus()
		w.focusSurface()
		return
	}
	content := w.side.body.Objects[0]
	if p, ok := w.panels[w.stage]; ok && w.stage != stageTrace {
		content = p.content()
	}
	if f := firstField(content); f != nil {
		c.Focus(f)
	}
}

// showTab brings a tab beside the leaf to the front.
func (w *Window) showTab(tab sideTab) {
	w.showStage(stageTrace)
	w.side.show(tab)
	w.focusSurface()
}
