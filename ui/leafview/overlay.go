package leafview

import (
	"image"

	"leafmend/mendplan/geom"
)

// Overlay paints marks over a picture seen at a view, such as where there is
// print. The marks must lie still on the scan while the view moves by whole
// device pixels.
type Overlay func(dst *image.RGBA, view View)

// SetOverlay shows marks over the picture; nil shows none.
func (s *Surface) SetOverlay(o Overlay) {
	if s.overlay != nil || o != nil {
		s.overlay = o
		s.Refresh()
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
