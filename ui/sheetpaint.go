package ui

import (
	"image/color"
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan/nest"
)

// sheetRenderer paints a sheet of tissue.
type sheetRenderer struct {
	d       *sheetDrawing
	objects []fyne.CanvasObject
	taken   []claimed // where something is written already
}

type claimed struct {
	at   fyne.Position
	size fyne.Size
}

// claim takes a place for writing, unless it meets one that is taken.
func (r *sheetRenderer) claim(at fyne.Position, size fyne.Size) bool {
	for _, c := range r.taken {
		if at.X < c.at.X+c.size.Width && c.at.X < at.X+size.Width && at.Y < c.at.Y+c.size.Height && c.at.Y < at.Y+size.Height {
			return false
		}
	}
	r.taken = append(r.taken, claimed{at, size})
	return true
}

func (r *sheetRenderer) Destroy()                     {}
func (r *sheetRenderer) MinSize() fyne.Size           { return fyne.NewSize(160, 110) }
func (r *sheetRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *sheetRenderer) Layout(fyne.Size)             {}

func (r *sheetRenderer) Refresh() {
	d := r.d
	r.objects, r.taken = nil, nil
	s := d.sheet
	if s.W > 0 && s.H > 0 && d.Size().Width >= 60 && d.Size().Height >= 60 {
		r.ground()
		r.remnants()
		r.pieces()
		r.cuts()
		r.moving()
		r.measures()
		if d.closeUp() {
			r.inset()
		}
		r.focus()
	}
	canvas.Refresh(d)
}

func (r *sheetRenderer) add(o fyne.CanvasObject) { r.objects = append(r.objects, o) }

func (r *sheetRenderer) box(x, y, w, h float64, fill, line fyne.ThemeColorName, width float32) {
	pos, size := r.d.view.rect(x, y, w, h)
	if size.Width <= 0 || size.Height <= 0 {
		return
	}
	box := canvas.NewRectangle(color.Transparent)
	if fill != "" {
		box.FillColor = shade(fill)
	}
	if line != "" {
		box.StrokeColor, box.StrokeWidth = shade(line), width
	}
	box.Move(pos)
	box.Resize(size)
	r.add(box)
}

func (r *sheetRenderer) ground() {
	s := r.d.sheet
	r.box(0, 0, s.W, s.H, theme.ColorNameInputBackground, theme.ColorNameForeground, 1.5)
	if m := s.Margin; m != (nest.Margin{}) {
		r.box(m.Left, m.Top, s.W-m.Left-m.Right, s.H-m.Top-m.Bottom, "", theme.ColorNameSeparator, 1)
	}
}

// remnants shows what goes back to stock.
func (r *sheetRenderer) remnants() {
	offcuts := r.d.sheet.Offcuts()
	for _, rem := range r.d.sheet.Remnants {
		if !rem.Keep || len(offcuts) == 0 {
			continue
		}
		name := offcuts[0].ID
		offcuts = offcuts[1:]
		r.box(rem.X, rem.Y, rem.W, rem.H, theme.ColorNameHover, "", 0)
		r.words(rem.X, rem.Y, rem.W, rem.H, t("keep")+"  "+name+"  "+r.d.units.Size(rem.H, rem.W), theme.ColorNameSuccess, theme.CaptionTextSize(), false)
	}
}

// pieces shows what is cut out. What is looked at or comes free by the cut in
// hand has a broad line, what is cut a tick and a line across, what is held a
// dot.
func (r *sheetRenderer) pieces() {
	d := r.d
	for i, p := range d.sheet.Places {
		fill, line, width := colourTissue, colourTissueOn, float32(1)
		if i == d.hover || i == d.chosen || d.litPlace(p) {
			fill = colourChosen
		}
		if i == d.chosen || d.litPlace(p) {
			line, width = theme.ColorNamePrimary, 2.5
		}
		if d.freed(i) {
			line, width = theme.ColorNameError, 3
		}
		r.box(p.X, p.Y, p.W, p.H, fill, line, width)
		if p.Cut {
			r.across(p)
		} else if p.Pinned {
			r.dot(p)
		}
		if !p.Cut || !r.words(p.X, p.Y, p.W, p.H, t("%s, cut", p.Name()), colourTissueOn, theme.TextSize(), true) {
			r.words(p.X, p.Y, p.W, p.H, p.Name(), colourTissueOn, theme.TextSize(), true)
		}
	}
}

// across strikes a piece that is cut.
func (r *sheetRenderer) across(p nest.Place) {
	pos, size := r.d.view.rect(p.X, p.Y, p.W, p.H)
	if size.Width <= 0 || size.Height <= 0 {
		return
	}
	line := canvas.NewLine(shade(colourQuiet))
	line.StrokeWidth = 1
	line.Position1, line.Position2 = pos.AddXY(0, size.Height), pos.AddXY(size.Width, 0)
	r.add(line)
}

// dot marks a piece that is held, in its corner.
func (r *sheetRenderer) dot(p nest.Place) {
	pos, size := r.d.view.rect(p.X, p.Y, p.W, p.H)
	const side = 7
	if size.Width < side || size.Height < side {
		return
	}
	c := canvas.NewCircle(shade(theme.ColorNameForeground))
	c.Move(pos.AddXY(size.Width-side-2, 2))
	c.Resize(fyne.NewSize(side, side))
	r.add(c)
}

// moving shows where a piece that is dragged would lie.
func (r *sheetRenderer) moving() {
	d := r.d
	if !d.drag.on || d.drag.place < 0 || d.drag.place >= len(d.sheet.Places) {
		return
	}
	p := d.sheet.Places[d.drag.place]
	x, y := d.within(d.drag)
	r.box(x, y, p.W, p.H, colourChosen, theme.ColorNamePrimary, 2.5)
	r.words(x, y, p.W, p.H, p.Name(), theme.ColorNameForeground, theme.TextSize(), true)
}

// words writes in the middle of a rectangle, smaller where there is little
// room, and not at all where it could not be read; it reports whether it did.
func (r *sheetRenderer) words(x, y, w, h float64, text string, colour fyne.ThemeColorName, size float32, bold bool) bool {
	pos, room := r.d.view.rect(x, y, w, h)
	label := canvas.NewText(text, shade(colour))
	label.TextStyle.Bold = bold
	if room.Height < 6 || room.Width < 6 {
		return false // not even in the smallest letters
	}
	// Measuring is slow and a sheet may hold a thousand pieces: the first
	// measure tells where to begin, one size above what will probably do.
	label.TextSize = size
	whole := label.MinSize()
	probable := size * min((room.Width-2)/whole.Width, room.Height/(whole.Height*0.8))
	for label.TextSize = min(size, size-float32(math.Floor(float64(size-probable)))+1); label.TextSize >= 8; label.TextSize-- {
		min := label.MinSize()
		if min.Width <= room.Width-2 && min.Height*0.8 <= room.Height {
			label.Move(fyne.NewPos(pos.X+(room.Width-min.Width)/2, pos.Y+(room.Height-min.Height)/2))
			label.Resize(min)
			r.add(label)
			r.claim(label.Position(), min)
			return true
		}
	}
	return false
}

// focus shows that keys go to the drawing.
func (r *sheetRenderer) focus() {
	if !r.d.focused {
		return
	}
	box := canvas.NewRectangle(color.Transparent)
	box.StrokeColor, box.StrokeWidth = shade(theme.ColorNamePrimary), 2
	box.Move(fyne.NewPos(1, 1))
	box.Resize(r.d.Size().SubtractWidthHeight(2, 2))
	r.add(box)
}

// litPlace reports whether any piece that lies in a place is lit.
func (d *sheetDrawing) litPlace(p nest.Place) bool {
	return slices.ContainsFunc(p.Blanks(), func(label string) bool { return d.lit[label] })
}
