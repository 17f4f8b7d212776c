package leafview

import (
	"image"
	"image/color"
	"math"

	"leafmend/mendplan/geom"
)

// Painter paints a picture. Implementations need not be safe for use from
// several goroutines.
type Painter interface {
	// Size returns the picture's size in scan pixels.
	Size() (w, h int)
	// Paint paints what of the picture falls on dst, whose Rect.Min is (0,0)
	// and whose pixels are device pixels of the view; pixels that the
	// picture does not cover are left as they are. With best the view will
	// stand still for a while: take the time for the finest resampling.
	Paint(dst *image.RGBA, view View, best bool)
}

// Blank is a picture of plain paper, for a side that has no scan.
type Blank struct {
	W, H  int        // scan pixels
	Paper color.RGBA // the zero value is a light warm grey
}

// Size implements [Painter].
func (b Blank) Size() (w, h int) { return b.W, b.H }

// Paint implements [Painter].
func (b Blank) Paint(dst *image.RGBA, view View, _ bool) {
	c := b.Paper
	if c.A == 0 {
		c = color.RGBA{226, 223, 216, 255}
	}
	fillRect(dst, pictureRect(b.W, b.H, view).Intersect(dst.Rect), c)
}

// pictureRect returns the device pixels that a picture of w×h covers.
func pictureRect(w, h int, view View) image.Rectangle {
	a, z := view.ToDevice(geom.Pt{}), view.ToDevice(geom.Pt{X: float64(w), Y: float64(h)})
	return image.Rect(iround(a.X), iround(a.Y), iround(z.X), iround(z.Y))
}

// iround rounds to the nearest whole number, halves up, so that what slides
// by whole pixels rounds alike; bounded so that far-off device positions
// cannot overflow.
func iround(v float64) int { return int(math.Floor(math.Max(-1e8, math.Min(1e8, v)) + 0.5)) }

// fillRect paints r, which must lie in dst, in one opaque colour.
func fillRect(dst *image.RGBA, r image.Rectangle, c color.RGBA) {
	if r.Empty() {
		return
	}
	first := dst.Pix[dst.PixOffset(r.Min.X, r.Min.Y):][: 4*r.Dx() : 4*r.Dx()]
	for i := 0; i < len(first); i += 4 {
		first[i], first[i+1], first[i+2], first[i+3] = c.R, c.G, c.B, c.A
	}
	for y := r.Min.Y + 1; y < r.Max.Y; y++ {
		copy(dst.Pix[dst.PixOffset(r.Min.X, y):], first)
	}
}
