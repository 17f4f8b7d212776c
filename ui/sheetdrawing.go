package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// sheetDrawing draws one sheet of tissue with its pieces, labels and numbered
// cuts, as large as there is room, the grain upright as on the print. Where most of a sheet stays whole, only
// the part that is cut up is shown, and a small outline in the corner tells
// where on the sheet it lies.
type sheetDrawing struct {
	widget.BaseWidget
	onPiece func(label string)
	onHover func(words string) // what lies under the pointer; "" for nothing
	sheet   nest.Sheet
	units   mendplan.Units
	marked  int  // index of the cut shown strongly; −1 for none
	hover   int  // index of the place under the pointer; −1 for none
	whole   bool // the whole sheet is wanted, however small its pieces
	part    geom.Box
	k       float32
	at      fyne.Position // of the part's corner
}

var (
	_ fyne.Tappable     = (*sheetDrawing)(nil)
	_ desktop.Hoverable = (*sheetDrawing)(nil)
)

func newSheetDrawing(onPiece func(string)) *sheetDrawing {
	d := &sheetDrawing{onPiece: onPiece, marked: -1, hover: -1}
	d.ExtendBaseWidget(d)
	return d
}

func (d *sheetDrawing) show(s nest.Sheet, u mendplan.Units) {
	d.sheet, d.units, d.marked, d.hover = s, u, -1, -1
	d.part = d.shown()
	d.Refresh()
}

// showWhole chooses between the whole sheet and the part that is cut up.
func (d *sheetDrawing) showWhole(on bool) {
	d.whole, d.part = on, d.shown()
	if !on {
		d.part = d.shown()
	}
	d.Refresh()
}

// closeUpShare is how much of a sheet its pieces must span to be shown whole.
const closeUpShare = 0.45

// shown is the part of the sheet to draw.
func (d *sheetDrawing) shown() geom.Box {
	all := geom.Box{Max: geom.Pt{X: d.sheet.W, Y: d.sheet.H}}
	cut := geom.EmptyBox()
	for _, p := range d.sheet.Places {
		cut = cut.Union(geom.Box{Min: geom.Pt{X: p.X, Y: p.Y}, Max: geom.Pt{X: p.X + p.W, Y: p.Y + p.H}})
	}
	if d.whole || cut.Empty() || cut.Width()*cut.Height() > closeUpShare*d.sheet.W*d.sheet.H {
		return all
	}
	cut = cut.Expand(0.12 * max(cut.Width(), cut.Height()))
	cut.Min.X, cut.Min.Y = max(cut.Min.X, 0), max(cut.Min.Y, 0)
	cut.Max.X, cut.Max.Y = min(cut.Max.X, all.Max.X), min(cut.Max.Y, all.Max.Y)
	return cut
}

// closeUp reports whether only a part of the sheet is shown.
func (d *sheetDrawing) closeUp() bool {
	return d.part.Width() < d.sheet.W || d.part.Height() < d.sheet.H
}

func (d *sheetDrawing) highlight(cut int) {
	d.marked = cut
	d.Refresh()
}

// CreateRenderer implements [fyne.Widget].
func (d *sheetDrawing) CreateRenderer() fyne.WidgetRenderer { return &sheetRenderer{d: d} }

// Tapped implements [fyne.Tappable].
func (d *sheetDrawing) Tapped(e *fyne.PointEvent) {
	if i := d.placeAt(e.Position); i >= 0 && d.onPiece != nil {
		d.onPiece(d.sheet.Places[i].Blank)
	}
}

// MouseIn implements [desktop.Hoverable].
func (d *sheetDrawing) MouseIn(e *desktop.MouseEvent) { d.MouseMoved(e) }

// MouseMoved implements [desktop.Hoverable].
func (d *sheetDrawing) MouseMoved(e *desktop.MouseEvent) {
	if i := d.placeAt(e.Position); i != d.hover {
		d.hover = i
		d.tell()
		d.Refresh()
	}
}

// MouseOut implements [desktop.Hoverable].
func (d *sheetDrawing) MouseOut() {
	d.hover = -1
	d.tell()
	d.Refresh()
}

// tell says which piece lies under the pointer: small ones carry no label.
func (d *sheetDrawing) tell() {
	if d.onHover == nil {
		return
	}
	words := ""
	if d.hover >= 0 {
		p := d.sheet.Places[d.hover]
		words = t("Piece %s: %s. Press to see it on its leaf.", p.Blank, d.units.Size(p.H, p.W))
	}
	d.onHover(words)
}

func (d *sheetDrawing) placeAt(p fyne.Position) int {
	for i, pl := range d.sheet.Places {
		pos, size := d.rect(pl.X, pl.Y, pl.W, pl.H)
		if p.X >= pos.X && p.Y >= pos.Y && p.X <= pos.X+size.Width && p.Y <= pos.Y+size.Height {
			return i
		}
	}
	return -1
}

// rect maps a rectangle of the sheet to the widget, cut to what is shown.
func (d *sheetDrawing) rect(x, y, w, h float64) (fyne.Position, fyne.Size) {
	x0, y0 := max(x, d.part.Min.X), max(y, d.part.Min.Y)
	w, h = max(min(x+w, d.part.Max.X)-x0, 0), max(min(y+h, d.part.Max.Y)-y0, 0)
	x, y = x0-d.part.Min.X, y0-d.part.Min.Y
	return fyne.NewPos(d.at.X+float32(x)*d.k, d.at.Y+float32(y)*d.k), fyne.NewSize(float32(w)*d.k, float32(h)*d.k)
}

// line maps a cut of the sheet to the widget, cut to what is shown; false when
// nothing of it is.
func (d *sheetDrawing) line(c nest.Cut) (a, b fyne.Position, seen bool) {
	pos, size := d.rect(c.X1, c.Y1, c.X2-c.X1, c.Y2-c.Y1)
	in := c.X2 >= d.part.Min.X && c.X1 <= d.part.Max.X && c.Y2 >= d.part.Min.Y && c.Y1 <= d.part.Max.Y
	return pos, pos.AddXY(size.Width, size.Height), in
}

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
func (r *sheetRenderer) MinSize() fyne.Size           { return fyne.NewSize(200, 120) }
func (r *sheetRenderer) Objects() []fyne.CanvasObject { return r.objects }
func (r *sheetRenderer) Layout(fyne.Size)             { r.Refresh() }

// margin is the room round the sheet for its measures.
const sheetMargin = 26

func (r *sheetRenderer) Refresh() {
	d := r.d
	r.objects, r.taken = nil, nil
	s := d.sheet
	if s.W <= 0 || s.H <= 0 || d.Size().Width < 60 || d.Size().Height < 60 {
		return
	}
	roomW, roomH := d.Size().Width-2*sheetMargin, d.Size().Height-2*sheetMargin
	partW, partH := float32(max(d.part.Width(), 1)), float32(max(d.part.Height(), 1))
	d.k = min(roomW/partW, roomH/partH)
	w, h := partW*d.k, partH*d.k
	d.at = fyne.NewPos((d.Size().Width-w)/2, (d.Size().Height-h)/2)
	r.ground()
	r.remnants()
	r.pieces()
	r.cuts()
	r.measures(w, h)
	if d.closeUp() {
		r.inset()
	}
	canvas.Refresh(d)
}

func (r *sheetRenderer) add(o fyne.CanvasObject) { r.objects = append(r.objects, o) }

func (r *sheetRenderer) box(x, y, w, h float64, fill, line fyne.ThemeColorName, width float32) *canvas.Rectangle {
	box := canvas.NewRectangle(nil)
	if fill != "" {
		box.FillColor = shade(fill)
	}
	if line != "" {
		box.StrokeColor, box.StrokeWidth = shade(line), width
	}
	pos, size := r.d.rect(x, y, w, h)
	box.Move(pos)
	box.Resize(size)
	r.add(box)
	return box
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
	for _, rem := range r.d.sheet.Remnants {
		if !rem.Keep {
			continue
		}
		r.box(rem.X, rem.Y, rem.W, rem.H, theme.ColorNameHover, "", 0)
		r.words(rem.X, rem.Y, rem.W, rem.H, t("keep")+"  "+r.d.units.Size(rem.H, rem.W), theme.ColorNameSuccess, theme.CaptionTextSize(), false)
	}
}

func (r *sheetRenderer) pieces() {
	for i, p := range r.d.sheet.Places {
		fill := colourTissue
		if i == r.d.hover {
			fill = colourChosen
		}
		r.box(p.X, p.Y, p.W, p.H, fill, colourTissueOn, 1)
		r.words(p.X, p.Y, p.W, p.H, p.Blank, colourTissueOn, theme.TextSize(), true)
	}
}

// words writes in the middle of a rectangle, smaller where there is little
// room, and not at all where it could not be read.
func (r *sheetRenderer) words(x, y, w, h float64, text string, colour fyne.ThemeColorName, size float32, bold bool) {
	pos, room := r.d.rect(x, y, w, h)
	label := canvas.NewText(text, shade(colour))
	label.TextStyle.Bold = bold
	for label.TextSize = size; label.TextSize >= 8; label.TextSize-- {
		min := label.MinSize()
		if min.Width <= room.Width-2 && min.Height*0.8 <= room.Height {
			label.Move(fyne.NewPos(pos.X+(room.Width-min.Width)/2, pos.Y+(room.Height-min.Height)/2))
			label.Resize(min)
			r.add(label)
			r.claim(label.Position(), min)
			return
		}
	}
}

// cuts draws the lines with their numbers, in the order to make them.
func (r *sheetRenderer) cuts() {
	for i, c := range r.d.sheet.Cuts {
		a, b, seen := r.d.line(c)
		if !seen {
			continue
		}
		line := canvas.NewLine(shade(theme.ColorNamePrimary))
		line.StrokeWidth = 1
		if i == r.d.marked {
			line.StrokeColor, line.StrokeWidth = shade(theme.ColorNameError), 3
		}
		line.Position1, line.Position2 = a, b
		r.add(line)
		r.number(c.Step, a, b, i == r.d.marked)
	}
}

// number writes the number of a cut on a small ground on its line, where it
// hides no label and no other number; where there is no such place it is left
// to the list, unless it must be shown.
func (r *sheetRenderer) number(n int, a, b fyne.Position, must bool) {
	text := canvas.NewText(fmt.Sprint(n), shade(theme.ColorNameForegroundOnPrimary))
	text.TextSize, text.TextStyle.Bold = 9, true
	min := text.MinSize()
	var at fyne.Position
	free := false
	for _, share := range []float32{0.1, 0.3, 0.5, 0.7, 0.9} {
		at = fyne.NewPos(a.X+(b.X-a.X)*share, a.Y+(b.Y-a.Y)*share)
		if free = r.claim(at.SubtractXY(min.Width/2+3, 6), fyne.NewSize(min.Width+6, 12)); free {
			break
		}
	}
	if !free && !must {
		return
	}
	ground := canvas.NewRectangle(shade(theme.ColorNamePrimary))
	ground.CornerRadius = 6
	ground.Resize(fyne.NewSize(min.Width+6, 12))
	ground.Move(fyne.NewPos(at.X-min.Width/2-3, at.Y-6))
	text.Move(fyne.NewPos(at.X-min.Width/2, at.Y-min.Height/2))
	text.Resize(min)
	r.add(ground)
	r.add(text)
}

// measures writes the sheet's size and draws which way the grain runs.
func (r *sheetRenderer) measures(w, h float32) {
	d := r.d
	words := t("grain up and down; the sheet is %s", d.units.Size(d.sheet.H, d.sheet.W))
	if d.closeUp() {
		words = t("Close-up. ") + words
	}
	foot := canvas.NewText(words, shade(colourQuiet))
	foot.TextSize = theme.CaptionTextSize()
	foot.Move(fyne.NewPos(max((d.Size().Width-foot.MinSize().Width)/2, 24), d.at.Y+h+6))
	foot.Resize(foot.MinSize())
	r.add(foot)
	mid := fyne.NewPos(foot.Position().X-12, foot.Position().Y+foot.MinSize().Height/2)
	r.arrow(mid.AddXY(0, -9), mid.AddXY(0, 9))
}

// arrow draws a line with a head at both ends.
func (r *sheetRenderer) arrow(a, b fyne.Position) {
	along := fyne.NewPos((b.X-a.X)/4, (b.Y-a.Y)/4)
	across := fyne.NewPos(along.Y*0.7, along.X*0.7)
	for _, l := range [][2]fyne.Position{{a, b}, {a, a.Add(along).Add(across)}, {a, a.Add(along).Subtract(across)},
		{b, b.Subtract(along).Add(across)}, {b, b.Subtract(along).Subtract(across)}} {
		line := canvas.NewLine(shade(theme.ColorNameForeground))
		line.StrokeWidth, line.Position1, line.Position2 = 1.5, l[0], l[1]
		r.add(line)
	}
}

// inset draws the whole sheet small in the corner, with the part shown.
func (r *sheetRenderer) inset() {
	d := r.d
	const side = 64
	k := side / float32(max(d.sheet.W, d.sheet.H))
	at := fyne.NewPos(4, 4)
	draw := func(x, y, w, h float64, fill, line fyne.ThemeColorName) {
		box := canvas.NewRectangle(shade(fill))
		box.StrokeColor, box.StrokeWidth = shade(line), 1
		box.Move(at.AddXY(float32(x)*k, float32(y)*k))
		box.Resize(fyne.NewSize(max(float32(w)*k, 3), max(float32(h)*k, 3)))
		r.add(box)
	}
	draw(0, 0, d.sheet.W, d.sheet.H, theme.ColorNameInputBackground, theme.ColorNameForeground)
	draw(d.part.Min.X, d.part.Min.Y, d.part.Width(), d.part.Height(), theme.ColorNamePrimary, theme.ColorNamePrimary)
}
