package leafview

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
)

// The loupe: radius in units, and how much closer it looks.
const (
	loupeRadius = 96.0
	loupeTimes  = 4.0
)

// drawLoupe draws a round closer look at the pointer, with the scene in it
// and a fine cross at the very place.
func (s *Surface) drawLoupe(c *canvas) {
	r := iround(loupeRadius * c.px)
	at := s.hand.last.dev
	side := 2*r + 1
	glass := image.NewRGBA(image.Rect(0, 0, side, side))
	mid := geom.Pt{X: float64(r) + 0.5, Y: float64(r) + 0.5}
	v := View{}.withScale(s.view.Scale * loupeTimes)
	v = v.CentredOn(s.hand.last.at, float64(side), float64(side))
	s.paintBase(glass, v, true)
	in := newCanvas(glass, &s.layers.small, v, c.px, c.look, c.text)
	in.look.Grid, in.look.Labels = false, false
	s.drawScene(in, drawn{})
	s.tool.draw(in)
	for _, d := range []geom.Pt{{X: 9}, {Y: 9}} {
		d = d.Mul(c.px)
		in.mask.line(mid.Sub(d), mid.Sub(d.Mul(0.25)), c.px)
		in.mask.line(mid.Add(d), mid.Add(d.Mul(0.25)), c.px)
	}
	in.ink(grabbed, 1, nil)
	blitDisc(c.dst, glass, at, r)
	c.mask.ring(at, float64(r)+3*c.px, 5*c.px)
	c.ink(casingColour, 1, nil)
	c.mask.ring(at, float64(r)+1.6*c.px, 2*c.px)
	c.ink(white, 1, nil)
}

// blitDisc copies the round middle of src, radius r, to dst about a device
// position.
func blitDisc(dst, src *image.RGBA, at geom.Pt, r int) {
	x0, y0 := int(math.Floor(at.X))-r, int(math.Floor(at.Y))-r
	for y := range 2*r + 1 {
		dy := y - r
		half := int(math.Sqrt(float64(r*r - dy*dy)))
		a, z := max(x0+r-half, 0), min(x0+r+half+1, dst.Rect.Dx())
		if yy := y0 + y; yy >= 0 && yy < dst.Rect.Dy() && a < z {
			copy(dst.Pix[dst.PixOffset(a, yy):dst.PixOffset(a, yy)+4*(z-a)], src.Pix[src.PixOffset(a-x0, y):])
		}
	}
}
