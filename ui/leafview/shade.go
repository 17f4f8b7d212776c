package leafview

import (
	"image"
	"math"
)

// shader applies a [Filter] to painted pixels. It works on the screen's
// pixels, so its cost is that of the window, not of the scan.
type shader struct {
	luma, blur []int32
}

// apply changes the part r of dst, which must lie inside it. scale is the
// view's, in device pixels per scan pixel.
func (sh *shader) apply(dst *image.RGBA, r image.Rectangle, f Filter, scale float64) {
	if f == (Filter{}) || r.Empty() {
		return
	}
	if f.Channel != AllChannels {
		oneChannel(dst, r, f.Channel)
	}
	if f.Local > 0 {
		sh.local(dst, r, math.Min(f.Local, 1), scale)
	}
	if f.Brightness != 0 || f.Contrast != 0 {
		curve(dst, r, f)
	}
}

// rows calls do with each row of r, four bytes a pixel.
func rows(dst *image.RGBA, r image.Rectangle, do func(y int, row []uint8)) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		i := dst.PixOffset(r.Min.X, y)
		do(y-r.Min.Y, dst.Pix[i:i+4*r.Dx()])
	}
}

// oneChannel shows one channel as grey.
func oneChannel(dst *image.RGBA, r image.Rectangle, ch Channel) {
	rows(dst, r, func(_ int, row []uint8) {
		for i := 0; i+3 < len(row); i += 4 {
			var v uint8
			switch ch {
			case Red:
				v = row[i]
			case Green:
				v = row[i+1]
			case Blue:
				v = row[i+2]
			default:
				v = uint8(luma(row[i:]))
			}
			row[i], row[i+1], row[i+2] = v, v, v
		}
	})
}

// luma is the lightness of a pixel by the weights of ITU-R BT.601.
func luma(p []uint8) int32 {
	return (299*int32(p[0]) + 587*int32(p[1]) + 114*int32(p[2]) + 500) / 1000
}

// curve applies brightness and contrast through one table.
func curve(dst *image.RGBA, r image.Rectangle, f Filter) {
	gain := math.Tan((math.Max(-1, math.Min(1, f.Contrast)) + 1) * math.Pi / 4 * 0.98)
	var table [256]uint8
	for i := range table {
		v := (float64(i)/255-0.5)*gain + 0.5 + math.Max(-1, math.Min(1, f.Brightness))*0.6
		table[i] = uint8(255*math.Max(0, math.Min(1, v)) + 0.5)
	}
	rows(dst, r, func(_ int, row []uint8) {
		for i := 0; i+3 < len(row); i += 4 {
			row[i], row[i+1], row[i+2] = table[row[i]], table[row[i+1]], table[row[i+2]]
		}
	})
}

// localReach is how far surroundings reach, in scan pixels: about 1.5 mm of a
// scan of 300 pixels an inch, wider than a tear's shadow and narrower than a
// picture's own shades.
const localReach = 18.0

// local adds to each pixel its difference of lightness from its surroundings,
// up to six times over. Surroundings are a box, summed by running totals, so
// the cost does not depend on their reach.
func (sh *shader) local(dst *image.RGBA, r image.Rectangle, amount, scale float64) {
	w, h := r.Dx(), r.Dy()
	n := w * h
	if cap(sh.luma) < n {
		sh.luma, sh.blur = make([]int32, n), make([]int32, n)
	}
	l, b := sh.luma[:n], sh.blur[:n]
	rows(dst, r, func(y int, row []uint8) {
		for x := range w {
			l[y*w+x] = luma(row[4*x:])
		}
	})
	reach := max(2, min(iround(localReach*scale), 200))
	boxRows(l, b, w, h, reach)
	boxColumns(b, w, h, reach)
	gain := int32(math.Round(6 * 256 * amount))
	rows(dst, r, func(y int, row []uint8) {
		for x := range w {
			i := y*w + x
			d := (l[i]*16 - b[i]) * gain / (16 * 256)
			for k := range 3 {
				row[4*x+k] = uint8(max(0, min(255, int32(row[4*x+k])+d)))
			}
		}
	})
}

// boxRows writes to b sixteen times the mean of l over reach pixels to either
// side in its row.
func boxRows(l, b []int32, w, h, reach int) {
	for y := range h {
		row, out := l[y*w:(y+1)*w], b[y*w:(y+1)*w]
		sum, n := int32(0), int32(0)
		for x := range min(reach, w) {
			sum, n = sum+row[x], n+1
		}
		for x := range w {
			if x+reach < w {
				sum, n = sum+row[x+reach], n+1
			}
			if x-reach-1 >= 0 {
				sum, n = sum-row[x-reach-1], n-1
			}
			out[x] = sum * 16 / n
		}
	}
}

// boxColumns replaces b by its means over reach pixels up and down, row by
// row with one running total a column.
func boxColumns(b []int32, w, h, reach int) {
	src := append([]int32(nil), b...)
	sum := make([]int32, w)
	n := int32(0)
	add := func(y int, sign int32) {
		for x, v := range src[y*w : (y+1)*w] {
			sum[x] += sign * v
		}
		n += sign
	}
	for y := range min(reach, h) {
		add(y, 1)
	}
	for y := range h {
		if y+reach < h {
			add(y+reach, 1)
		}
		if y-reach-1 >= 0 {
			add(y-reach-1, -1)
		}
		for x := range w {
			b[y*w+x] = sum[x] / n
		}
	}
}
