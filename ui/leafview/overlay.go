package leafview

import (
	"image"

	"leafmend/mendplan/geom"
)

// Overlay marks places of the picture, such as where there is print: a set of
// squares of the scan, shown as slanted strokes over the picture.
type Overlay struct {
	Mask *image.Alpha // opaque where marked, one pixel a square, its corner at the scan's (0,0)
	Step float64      // scan pixels along one square
}

// SetOverlay shows marked places over the picture; nil shows none.
func (s *Surface) SetOverlay(o *Overlay) {
	if o != nil && (o.Mask == nil || !(o.Step > 0)) {
		o = nil
	}
	if s.overlay != o {
		s.overlay = o
		s.Refresh()
	}
}

// Overlay returns what is marked; nil for nothing.
func (s *Surface) Overlay() *Overlay { return s.overlay }

// apply draws the strokes on the part r of dst, which must lie inside it.
func (o *Overlay) apply(dst *image.RGBA, r image.Rectangle, v View, px float64) {
	if o == nil || r.Empty() || v.Scale <= 0 {
		return
	}
	dark, light := hatch(v.Offset, 60, 7*px, 3.4*px), hatch(v.Offset, 60, 7*px, 1.6*px)
	b := o.Mask.Rect
	place := func(dev int, off float64, n int) int {
		i := int((float64(dev) + 0.5 - off) / v.Scale / o.Step)
		if float64(dev)+0.5 < off || i >= n {
			return -1
		}
		return i
	}
	columns := make([]int, r.Dx())
	for x := range columns {
		columns[x] = place(r.Min.X+x, v.Offset.X, b.Dx())
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		my := place(y, v.Offset.Y, b.Dy())
		if my < 0 {
			continue
		}
		row, out := o.Mask.Pix[my*o.Mask.Stride:], dst.Pix[dst.PixOffset(r.Min.X, y):]
		for x, mx := range columns {
			if mx < 0 || row[mx] == 0 {
				continue
			}
			p := out[4*x : 4*x+3 : 4*x+3]
			if a := dark(r.Min.X+x, y); a > 0 {
				blend(p, casingColour, uint32(a)*150/255)
			}
			if a := light(r.Min.X+x, y); a > 0 {
				blend(p, overlayInk, uint32(a)*230/255)
			}
		}
	}
}

// SetMark shows a cross at a scan position, such as where the pointer is on
// the other side of the leaf; false takes it away.
func (s *Surface) SetMark(at geom.Pt, on bool) {
	if s.marked != on || s.mark != at {
		s.mark, s.marked = at, on
		s.redraw()
	}
}

// drawMark draws the cross that the owner set.
func (s *Surface) drawMark(c *canvas) {
	if at := c.view.ToDevice(s.mark); s.marked && c.window().Holds(at) {
		c.cross(at, toolCore)
	}
}
