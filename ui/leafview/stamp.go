package leafview

import (
	"image"
	"image/color"

	"leafmend/mendplan/geom"
)

// stamp keeps the lines of many damages that are dragged together, drawn once
// and laid on wherever the pointer takes them: drawing thousands of lines for
// every frame would be felt. It holds half a window more on every side, so
// that what is dragged into sight is there. The zero value is empty.
type stamp struct {
	mask mask
	view View    // through which it was drawn
	px   float64 // device pixels per unit then
	by   geom.Pt // how far the damages were dragged then, scan pixels
	room image.Point
}

// has reports whether the stamp can show the damages dragged by a way, and
// where its corner then lies on the canvas.
func (st *stamp) has(c *canvas, by geom.Pt) (at image.Point, ok bool) {
	if st.mask.w == 0 || st.view.Scale != c.view.Scale || st.px != c.px ||
		st.mask.w != c.mask.w+2*st.room.X || st.mask.h != c.mask.h+2*st.room.Y {
		return at, false
	}
	d := c.view.ToDevice(by).Sub(st.view.ToDevice(st.by))
	x, y := iround(d.X), iround(d.Y)
	return image.Pt(x-st.room.X, y-st.room.Y), max(x, -x) <= st.room.X && max(y, -y) <= st.room.Y
}

// draw makes the stamp of shapes dragged by a way, lines one unit wide.
func (st *stamp) draw(c *canvas, shapes []Shape, by geom.Pt) {
	st.room = image.Pt(c.mask.w/2, c.mask.h/2)
	st.view, st.px, st.by = c.view, c.px, by
	st.mask = mask{}
	st.mask.resize(c.mask.w+2*st.room.X, c.mask.h+2*st.room.Y)
	to := *c
	to.mask, to.buf = &st.mask, nil
	moved := c.view.ToDevice(by).Sub(c.view.ToDevice(geom.Pt{}))
	to.view = c.view.Panned(moved.Add(geom.Pt{X: float64(st.room.X), Y: float64(st.room.Y)}))
	for _, sh := range shapes {
		b := sh.bounds()
		if !(Rect{to.view.ToDevice(b.Min), to.view.ToDevice(b.Max)}).Meets(to.window()) {
			continue
		}
		for k, line := range sh.paths() {
			to.line(line, sh.Closed && k == 0, 1, nil)
		}
	}
}

// layAt blends the colour over dst where the mask, its corner at a place,
// covers; the mask is kept.
func (m *mask) layAt(dst *image.RGBA, at image.Point, c color.RGBA) {
	for y := max(m.top, dst.Rect.Min.Y-at.Y); y < min(m.end, dst.Rect.Max.Y-at.Y); y++ {
		lo, hi := max(m.lo[y], dst.Rect.Min.X-at.X), min(m.hi[y], dst.Rect.Max.X-at.X)
		if lo < hi {
			m.layRow(dst, m.pix[y*m.w+lo:y*m.w+hi], lo+at.X, y+at.Y, c, uint32(c.A), nil)
		}
	}
}
