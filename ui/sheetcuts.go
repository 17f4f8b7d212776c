package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// cuts draws the lines with their numbers, in the order to make them; those
// that are made are thin and quiet.
func (r *sheetRenderer) cuts() {
	for i, c := range r.d.sheet.Cuts {
		a, b, seen := r.d.view.line(c)
		if !seen {
			continue
		}
		line := canvas.NewLine(shade(theme.ColorNamePrimary))
		line.StrokeWidth = 1
		switch {
		case i == r.d.marked:
			line.StrokeColor, line.StrokeWidth = shade(theme.ColorNameError), 3
		case r.d.off[i]:
			line.StrokeColor = shade(theme.ColorNameDisabled)
		}
		line.Position1, line.Position2 = a, b
		r.add(line)
		if !r.d.off[i] || i == r.d.marked {
			r.number(c.Step, a, b, i == r.d.marked)
		}
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
	if must {
		ground.FillColor = shade(theme.ColorNameError)
	}
	ground.CornerRadius = 6
	ground.Resize(fyne.NewSize(min.Width+6, 12))
	ground.Move(fyne.NewPos(at.X-min.Width/2-3, at.Y-6))
	text.Move(fyne.NewPos(at.X-min.Width/2, at.Y-min.Height/2))
	text.Resize(min)
	r.add(ground)
	r.add(text)
}

// measures writes the sheet's size and draws which way the grain runs, along
// the foot of the drawing.
func (r *sheetRenderer) measures() {
	d := r.d
	words := t("grain up and down; the sheet is %s", d.units.Size(d.sheet.H, d.sheet.W))
	if d.closeUp() {
		words = t("Close-up. ") + words
	}
	foot := canvas.NewText(words, shade(colourQuiet))
	foot.TextSize = theme.CaptionTextSize()
	min := foot.MinSize()
	y := d.Size().Height - min.Height - 3
	ground := canvas.NewRectangle(shade(theme.ColorNameBackground))
	x := max((d.Size().Width-min.Width)/2, 24)
	ground.Move(fyne.NewPos(x-22, y-2))
	ground.Resize(fyne.NewSize(min.Width+28, min.Height+4))
	r.add(ground)
	foot.Move(fyne.NewPos(x, y))
	foot.Resize(min)
	r.add(foot)
	mid := fyne.NewPos(x-12, y+min.Height/2)
	r.arrow(mid.AddXY(0, -8), mid.AddXY(0, 8))
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

// inset draws the whole sheet small in the corner, with the part in sight.
func (r *sheetRenderer) inset() {
	d := r.d
	const side = 64
	k := side / float32(max(d.sheet.W, d.sheet.H))
	at := fyne.NewPos(6, 6)
	draw := func(x, y, w, h float64, fill, line fyne.ThemeColorName) {
		box := canvas.NewRectangle(shade(fill))
		box.StrokeColor, box.StrokeWidth = shade(line), 1
		box.Move(at.AddXY(float32(x)*k, float32(y)*k))
		box.Resize(fyne.NewSize(max(float32(w)*k, 3), max(float32(h)*k, 3)))
		r.add(box)
	}
	draw(0, 0, d.sheet.W, d.sheet.H, theme.ColorNameInputBackground, theme.ColorNameForeground)
	a := d.view.toSheet(fyne.NewPos(0, 0))
	b := d.view.toSheet(fyne.NewPos(d.Size().Width, d.Size().Height))
	x0, y0 := min(max(a.X, 0), d.sheet.W), min(max(a.Y, 0), d.sheet.H)
	x1, y1 := min(max(b.X, 0), d.sheet.W), min(max(b.Y, 0), d.sheet.H)
	draw(x0, y0, x1-x0, y1-y0, theme.ColorNamePrimary, theme.ColorNamePrimary)
}
