package ui

import (
	"fmt"
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// swellCell is how many pixels a cell of the map of swell is drawn wide.
const swellCell = 6

// swellShades are the steps of the map, from little to much: each darker than
// the one before, so that they are told apart without colour too.
var swellShades = []color.RGBA{{255, 246, 214, 255}, {250, 214, 140, 255}, {232, 158, 82, 255}, {186, 92, 52, 255}, {112, 36, 36, 255}}

// showSwell shows how much thicker the mends make each gathering when it is
// nested and closed again: a map and the figures that matter.
func (w *Window) showSwell() {
	var body []fyne.CanvasObject
	for _, s := range mendplan.Swells(w.session.Job(), w.session.Plan().Pieces) {
		if s.Cols == 0 || s.Rows == 0 {
			continue
		}
		body = append(body, w.swellOf(s))
	}
	if len(body) == 0 {
		w.status.say(t("There is no swell to tell: no folded leaf has a scale."))
		return
	}
	w.showSized(t("Swell of the gatherings"), container.NewVScroll(inScroll(body...)), fyne.NewSize(640, 560))
}

// swellOf shows one gathering.
func (w *Window) swellOf(s mendplan.Swell) fyne.CanvasObject {
	name := t("All bifolia as one gathering")
	for i, g := range w.session.Job().Gatherings {
		if g.ID == s.Gathering {
			if name = t("Gathering %s", g.Signature); g.Signature == "" {
				name = t("Gathering %s", fmt.Sprint(i+1))
			}
			if g.Cover {
				name = sentenceCase(t("cover"))
			}
		}
	}
	u := unitsOf(w.session.Job())
	corner := t("worst corner, at the tail: %s", thickness(s.Corner))
	if s.CornerHead {
		corner = t("worst corner, at the head: %s", thickness(s.Corner))
	}
	words := tight(heading(name), widget.NewLabel(t("at the fold: %s", thickness(s.Fold))), widget.NewLabel(corner),
		widget.NewLabel(t("most: %s, %s from the fold and %s from the head", thickness(s.Worst), u.Length(s.WorstAt.X), u.Length(s.WorstAt.Y))))
	for _, o := range words.Objects[1:] {
		o.(*widget.Label).Wrapping = fyne.TextWrapWord
	}
	if s.Worst > 0 {
		for k, c := range swellShades {
			swatch := canvas.NewRectangle(c)
			swatch.StrokeColor, swatch.StrokeWidth = shade("foreground"), 1
			swatch.SetMinSize(fyne.NewSize(28, 16))
			lo, hi := s.Worst*float64(k)/float64(len(swellShades)), s.Worst*float64(k+1)/float64(len(swellShades))
			words.Add(container.NewHBox(container.NewCenter(swatch), widget.NewLabel(fmt.Sprintf("%s – %s", thickness(lo), thickness(hi)))))
		}
	}
	if s.Estimated {
		words.Add(small(t("Some tissue's thickness is not measured and was worked out from its weight.")))
	}
	picture := canvas.NewImageFromImage(swellMap(s))
	picture.FillMode, picture.ScaleMode = canvas.ImageFillContain, canvas.ImageScaleFastest
	picture.SetMinSize(fyne.NewSize(240, 320))
	left := container.NewBorder(nil, small(t("Left the fold, right the fore-edge; a cross where it is most.")), nil, nil, picture)
	return container.NewGridWithColumns(2, left, words)
}

// thickness writes something small to a hundredth of a millimetre, whatever
// the units: tissue is told in millimetres everywhere.
func thickness(mm float64) string { return figures("%.2f mm", mm) }

// swellMap draws the map of a gathering: steps of shade with a line where one
// step meets the next, and a cross where it is most.
func swellMap(s mendplan.Swell) image.Image {
	img := image.NewRGBA(image.Rect(0, 0, s.Cols*swellCell+2, s.Rows*swellCell+2))
	line := color.RGBA{40, 34, 28, 255}
	step := func(c, r int) int {
		if c < 0 || r < 0 || c >= s.Cols || r >= s.Rows || s.Worst <= 0 {
			return -1
		}
		mm := s.MM[r*s.Cols+c]
		if mm <= 0 {
			return -1
		}
		return min(len(swellShades)-1, int(mm/s.Worst*float64(len(swellShades))))
	}
	b := img.Rect
	for y := range b.Dy() {
		for x := range b.Dx() {
			c, r := (x-1)/swellCell, (y-1)/swellCell
			k := step(c, r)
			col := color.RGBA{252, 250, 244, 255}
			if k >= 0 {
				col = swellShades[k]
			}
			border := x == 0 || y == 0 || x == b.Dx()-1 || y == b.Dy()-1
			meets := (x-1)%swellCell == 0 && step(c-1, r) != k || (y-1)%swellCell == 0 && step(c, r-1) != k
			if border || meets {
				col = line
			}
			img.SetRGBA(x, y, col)
		}
	}
	if s.Worst > 0 {
		x, y := int(s.WorstAt.X/mendplan.SwellCell*swellCell), int(s.WorstAt.Y/mendplan.SwellCell*swellCell)
		for d := -9; d <= 9; d++ {
			for _, p := range []image.Point{{x + d, y}, {x, y + d}, {x + d, y + 1}, {x + 1, y + d}} {
				if p.In(b) {
					img.SetRGBA(p.X, p.Y, color.RGBA{255, 255, 255, 255})
				}
			}
		}
		for d := -7; d <= 7; d++ {
			for _, p := range []image.Point{{x + d, y}, {x, y + d}} {
				if p.In(b) {
					img.SetRGBA(p.X, p.Y, line)
				}
			}
		}
	}
	return img
}
