package scan

import (
	"image"
	"image/color"
	"math"
)

// View says which part of a picture is painted where: the pixel (i, j) of the
// target, counted from its own top left corner, shows the scan at
// X + (i+½)/Scale, Y + (j+½)/Scale. Scan pixel 0,0 covers 0 to 1.
type View struct {
	Scale  float64    // target pixels per scan pixel; must be above 0
	X, Y   float64    // scan position of the target's top left corner
	Around color.RGBA // painted where the picture is not
}

// Quality chooses between speed and looks.
type Quality int

// Qualities.
const (
	Moving Quality = iota // nearest pixel of the nearest level: for panning and zooming
	Best                  // smooth: for a picture at rest
)

// Fit returns the view that shows all of bounds centred in a target of w × h.
func Fit(bounds image.Rectangle, w, h int) View {
	if bounds.Empty() || w <= 0 || h <= 0 {
		return View{Scale: 1}
	}
	bw, bh := float64(bounds.Dx()), float64(bounds.Dy())
	s := math.Min(float64(w)/bw, float64(h)/bh)
	return View{Scale: s, X: (bw - float64(w)/s) / 2, Y: (bh - float64(h)/s) / 2}
}

// Paint fills dst with the part of the picture that v shows. It may be called
// from any goroutine, also while the finer levels are still on their way:
// then the finest level that is there is shown. A closed picture paints
// v.Around.
func (p *Picture) Paint(dst *image.RGBA, v View, q Quality) {
	levels := p.hold()
	defer p.release(levels)
	in := image.Rectangle{}
	if levels != nil {
		in = inside(dst.Rect, v, p.Bounds())
	}
	around(dst, in, v.Around)
	if in.Empty() {
		return
	}
	n, wanted := levels.pick(v.Scale, q)
	if n != wanted {
		p.wantFine()
	}
	r := levels.at[n]
	per := math.Ldexp(1, -n)
	m := mapping{step: per / v.Scale, x: v.X * per, y: v.Y * per, origin: dst.Rect.Min}
	if q == Best && m.step != 1 {
		paintSmooth(dst, in, r, m)
		return
	}
	paintNearest(dst, in, r, m)
}

// mapping leads from target pixels to level pixels.
type mapping struct {
	step   float64 // level pixels per target pixel
	x, y   float64 // level position of the target's corner
	origin image.Point
}

// inside returns the target pixels whose centres lie on the picture.
func inside(dst image.Rectangle, v View, b image.Rectangle) image.Rectangle {
	if !(v.Scale > 0) || math.IsInf(v.Scale, 0) || math.IsNaN(v.X+v.Y) || math.IsInf(v.X+v.Y, 0) {
		return image.Rectangle{}
	}
	span := func(lo, hi int, at float64, n int) (int, int) {
		from := math.Ceil((0-at)*v.Scale - 0.5)
		to := math.Ceil((float64(n)-at)*v.Scale - 0.5)
		limit := float64(hi - lo)
		return lo + int(max(0, min(limit, from))), lo + int(max(0, min(limit, to)))
	}
	x0, x1 := span(dst.Min.X, dst.Max.X, v.X, b.Dx())
	y0, y1 := span(dst.Min.Y, dst.Max.Y, v.Y, b.Dy())
	return image.Rect(x0, y0, x1, y1)
}

// around paints what lies outside in.
func around(dst *image.RGBA, in image.Rectangle, c color.RGBA) {
	b := dst.Rect
	if in.Empty() {
		fill(dst, b, c)
		return
	}
	fill(dst, image.Rect(b.Min.X, b.Min.Y, b.Max.X, in.Min.Y), c)
	fill(dst, image.Rect(b.Min.X, in.Max.Y, b.Max.X, b.Max.Y), c)
	fill(dst, image.Rect(b.Min.X, in.Min.Y, in.Min.X, in.Max.Y), c)
	fill(dst, image.Rect(in.Max.X, in.Min.Y, b.Max.X, in.Max.Y), c)
}

func fill(dst *image.RGBA, r image.Rectangle, c color.RGBA) {
	if r.Empty() {
		return
	}
	first := dst.Pix[dst.PixOffset(r.Min.X, r.Min.Y):][:4*r.Dx()]
	for i := 0; i < len(first); i += 4 {
		first[i], first[i+1], first[i+2], first[i+3] = c.R, c.G, c.B, c.A
	}
	for y := r.Min.Y + 1; y < r.Max.Y; y++ {
		copy(dst.Pix[dst.PixOffset(r.Min.X, y):], first)
	}
}

// pick chooses the level for a scale. Moving takes one about the screen's size,
// Best the one that is just not coarser than the screen. A level wanted that
// is not there yet is replaced by the next coarser.
func (l *levels) pick(scale float64, q Quality) (n, wanted int) {
	if scale > 0 && scale < 1 {
		down := -math.Log2(scale)
		if q == Moving {
			down += 0.85 // only above a scale of 0.9 the finer level, which costs more
		}
		n = int(min(down, float64(len(l.at)-1)))
	}
	for wanted = n; n < len(l.at)-1 && l.at[n] == nil; {
		n++
	}
	return n, wanted
}

// paintNearest copies the nearest pixels. Each source row is fetched once,
// however often it is shown.
func paintNearest(dst *image.RGBA, in image.Rectangle, r *raster, m mapping) {
	columns := make([]int32, in.Dx())
	for i := range columns {
		columns[i] = int32(clampTo(m.x+(float64(in.Min.X-m.origin.X+i)+0.5)*m.step, r.w))
	}
	from, to := int(columns[0]), int(columns[len(columns)-1])+1
	for i := range columns {
		columns[i] -= int32(from)
	}
	bands(in.Dy(), func(y0, y1 int) {
		var line []byte
		if r.rgba == nil {
			line = make([]byte, 4*(to-from))
		}
		last, lastRow := -1, []byte(nil)
		for y := in.Min.Y + y0; y < in.Min.Y+y1; y++ {
			out := dst.Pix[dst.PixOffset(in.Min.X, y):][:4*in.Dx()]
			sy := clampTo(m.y+(float64(y-m.origin.Y)+0.5)*m.step, r.h)
			if sy == last {
				copy(out, lastRow)
				continue
			}
			last, lastRow = sy, out
			if m.step == 1 {
				r.row(out, from, sy, to-from)
				continue
			}
			src := line
			if r.rgba != nil {
				src = r.rgba[4*(sy*r.w+from):][:4*(to-from)]
			} else {
				r.row(line, from, sy, to-from)
			}
			gather(out, src, columns)
		}
	})
}

func clampTo(v float64, n int) int { return max(0, min(n-1, int(math.Floor(v)))) }
