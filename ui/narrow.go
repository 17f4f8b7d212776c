package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// leastTitle is the width that a title keeps before buttons give way, units.
const leastTitle = 90

// givingRow lays out a row of buttons about a title that takes the rest. Where
// there is no room, buttons that have a key and a menu as well give way, in
// the order of gives; what remains is never cut off.
type givingRow struct {
	title fyne.CanvasObject
	gives []fyne.CanvasObject
}

// MinSize implements [fyne.Layout]: that of what never gives way.
func (g *givingRow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.NewSize(0, 0)
	for _, o := range objects {
		m := o.MinSize()
		size.Height = max(size.Height, m.Height)
		if o != g.title && !g.mayGive(o) {
			size.Width += m.Width + theme.Padding()
		}
	}
	return size.AddWidthHeight(leastTitle, 0)
}

func (g *givingRow) mayGive(o fyne.CanvasObject) bool {
	for _, have := range g.gives {
		if have == o {
			return true
		}
	}
	return false
}

// Layout implements [fyne.Layout].
func (g *givingRow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	room := size.Width - leastTitle
	for _, o := range objects {
		if o != g.title {
			room -= o.MinSize().Width + theme.Padding()
		}
	}
	gone := map[fyne.CanvasObject]bool{}
	for _, o := range g.gives {
		if room >= 0 {
			break
		}
		gone[o] = true
		room += o.MinSize().Width + theme.Padding()
	}
	x := float32(0)
	for _, o := range objects {
		w := o.MinSize().Width
		switch {
		case gone[o]: // out of the window, so that neither eye nor pointer meets it
			o.Move(fyne.NewPos(-10000, 0))
			o.Resize(o.MinSize())
			continue
		case o == g.title:
			w = leastTitle + max(room, 0)
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w, size.Height))
		x += w + theme.Padding()
	}
}

// smallestWidth is that of the smallest screen the program is made for, units.
const smallestWidth = 1024

// twoEnds lays out two groups at either end of a row, or, where they would not
// fit next to each other on the smallest screen, one under the other.
type twoEnds struct{}

// MinSize implements [fyne.Layout].
func (twoEnds) MinSize(o []fyne.CanvasObject) fyne.Size {
	a, b := o[0].MinSize(), o[1].MinSize()
	if a.Width+b.Width > smallestWidth-16 {
		return fyne.NewSize(max(a.Width, b.Width), a.Height+b.Height)
	}
	return fyne.NewSize(a.Width+b.Width, max(a.Height, b.Height))
}

// Layout implements [fyne.Layout].
func (e twoEnds) Layout(o []fyne.CanvasObject, size fyne.Size) {
	a, b := o[0].MinSize(), o[1].MinSize()
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(a)
	o[1].Resize(b)
	if a.Width+b.Width > smallestWidth-16 {
		o[1].Move(fyne.NewPos(0, a.Height))
		return
	}
	o[1].Move(fyne.NewPos(max(a.Width, size.Width-b.Width), 0))
}
