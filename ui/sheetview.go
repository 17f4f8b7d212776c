package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/nest"
)

// sheetView maps millimetres of a sheet to a drawing of it, which can be
// zoomed and moved about.
type sheetView struct {
	sheet geom.Pt       // its size, mm
	size  fyne.Size     // of the drawing
	k     float32       // per mm
	at    fyne.Position // of the sheet's corner
}

// sheetMargin is the room round the sheet for its measures.
const sheetMargin = 26

// Zoom goes from half of what fits to a millimetre as wide as a thumb.
const (
	leastZoom = 0.5
	mostScale = 40 // per mm
)

// fitted shows a part of the sheet as large as there is room.
func fitted(sheet geom.Pt, part geom.Box, size fyne.Size) sheetView {
	v := sheetView{sheet: sheet, size: size}
	w, h := float32(max(part.Width(), 1)), float32(max(part.Height(), 1))
	v.k = min(max(size.Width-2*sheetMargin, 20)/w, max(size.Height-2*sheetMargin, 20)/h)
	v.at = fyne.NewPos((size.Width-w*v.k)/2-float32(part.Min.X)*v.k, (size.Height-h*v.k)/2-float32(part.Min.Y)*v.k)
	return v
}

// wholeScale is the scale at which the whole sheet fits.
func (v sheetView) wholeScale() float32 {
	return fitted(v.sheet, geom.Box{Max: v.sheet}, v.size).k
}

// zoomed is the view magnified about a point of the drawing.
func (v sheetView) zoomed(factor float32, about fyne.Position) sheetView {
	k := min(max(v.k*factor, v.wholeScale()*leastZoom), mostScale)
	f := k / v.k
	v.at = fyne.NewPos(about.X-(about.X-v.at.X)*f, about.Y-(about.Y-v.at.Y)*f)
	v.k = k
	return v.held()
}

// moved is the view shifted.
func (v sheetView) moved(dx, dy float32) sheetView {
	v.at = v.at.AddXY(dx, dy)
	return v.held()
}

// held keeps some of the sheet in sight.
func (v sheetView) held() sheetView {
	const rest = 40
	w, h := float32(v.sheet.X)*v.k, float32(v.sheet.Y)*v.k
	v.at.X = min(max(v.at.X, rest-w), v.size.Width-rest)
	v.at.Y = min(max(v.at.Y, rest-h), v.size.Height-rest)
	return v
}

// toSheet maps a point of the drawing to the sheet, mm.
func (v sheetView) toSheet(p fyne.Position) geom.Pt {
	return geom.Pt{X: float64((p.X - v.at.X) / v.k), Y: float64((p.Y - v.at.Y) / v.k)}
}

// rect maps a rectangle of the sheet, cut to the drawing; its size is 0 where
// nothing of it is seen.
func (v sheetView) rect(x, y, w, h float64) (fyne.Position, fyne.Size) {
	x0, y0 := v.at.X+float32(x)*v.k, v.at.Y+float32(y)*v.k
	x1, y1 := x0+float32(w)*v.k, y0+float32(h)*v.k
	x0, y0 = max(x0, 0), max(y0, 0)
	x1, y1 = min(x1, v.size.Width), min(y1, v.size.Height)
	return fyne.NewPos(x0, y0), fyne.NewSize(max(x1-x0, 0), max(y1-y0, 0))
}

// line maps a cut, cut to the drawing; false when nothing of it is seen.
func (v sheetView) line(c nest.Cut) (a, b fyne.Position, seen bool) {
	x0, y0 := v.at.X+float32(c.X1)*v.k, v.at.Y+float32(c.Y1)*v.k
	x1, y1 := v.at.X+float32(c.X2)*v.k, v.at.Y+float32(c.Y2)*v.k
	if x1 < 0 || y1 < 0 || x0 > v.size.Width || y0 > v.size.Height {
		return a, b, false
	}
	return fyne.NewPos(max(x0, 0), max(y0, 0)), fyne.NewPos(min(x1, v.size.Width), min(y1, v.size.Height)), true
}

// cutPart is the part of a sheet that holds its pieces, with a rim; the whole
// sheet where they span most of it.
func cutPart(s nest.Sheet) geom.Box {
	all := geom.Box{Max: geom.Pt{X: s.W, Y: s.H}}
	cut := geom.EmptyBox()
	for _, p := range s.Places {
		cut = cut.Union(geom.Box{Min: geom.Pt{X: p.X, Y: p.Y}, Max: geom.Pt{X: p.X + p.W, Y: p.Y + p.H}})
	}
	if cut.Empty() || cut.Width()*cut.Height() > closeUpShare*s.W*s.H {
		return all
	}
	cut = cut.Expand(0.12 * max(cut.Width(), cut.Height()))
	cut.Min.X, cut.Min.Y = max(cut.Min.X, 0), max(cut.Min.Y, 0)
	cut.Max.X, cut.Max.Y = min(cut.Max.X, all.Max.X), min(cut.Max.Y, all.Max.Y)
	return cut
}

// closeUpShare is how much of a sheet its pieces must span to be shown whole.
const closeUpShare = 0.45
