package scan

import (
	"image"
	"image/color"
)

// TextMask is [TextMask] on the level of p that suits it: for either side, as
// long as o is that side's outline.
func (p *Picture) TextMask(o Outline) *Mask {
	img, per := p.AtLeast(textLongest)
	return TextMask(img, per, o)
}

// Paint lays the mask over dst, which shows the part of the scan that v says,
// as slanting lines of colour c, opaque: hatching is told from the print itself
// without seeing colour, and leaves it legible. The lines stand still on the
// scan when v.X and v.Y change by whole target pixels. It is quick enough for
// every frame. The zero mask and a view without scale paint nothing.
func (m *Mask) Paint(dst *image.RGBA, v View, c color.RGBA) {
	if m == nil || m.Step <= 0 {
		return
	}
	whole := image.Rect(0, 0, int(float64(m.Width)*m.Step), int(float64(m.Height)*m.Step))
	in := inside(dst.Rect, v, whole)
	if in.Empty() {
		return
	}
	column := make([]int, in.Dx())
	for i := range column {
		column[i] = clampTo((v.X+(float64(in.Min.X-dst.Rect.Min.X+i)+0.5)/v.Scale)/m.Step, m.Width)
	}
	phase := int(v.X*v.Scale) + int(v.Y*v.Scale)
	bands(in.Dy(), func(y0, y1 int) {
		for y := in.Min.Y + y0; y < in.Min.Y+y1; y++ {
			row := m.on[m.Width*clampTo((v.Y+(float64(y-dst.Rect.Min.Y)+0.5)/v.Scale)/m.Step, m.Height):][:m.Width]
			out := dst.Pix[dst.PixOffset(in.Min.X, y):]
			for i, x := range column {
				if row[x] && (in.Min.X+i+y+phase)&hatch < hatch/2 {
					out[4*i], out[4*i+1], out[4*i+2], out[4*i+3] = c.R, c.G, c.B, c.A
				}
			}
		}
	})
}

const hatch = 7 // one less than the distance of two lines, target pixels; a power of two less one
