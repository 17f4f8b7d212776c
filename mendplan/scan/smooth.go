package scan

import (
	"image"
	"math"
)

// Smooth painting is separable: rows are resampled across, then combined
// down. Enlarging uses the cubic of Catmull and Rom, which passes through the
// pixels and keeps edges crisp; reducing a triangle as wide as a target
// pixel, which averages and does not ring.

// weightBits is the precision of the weights.
const weightBits = 13

// taps are the source pixels of one target pixel and their weights, which add
// up to 1<<weightBits.
type taps struct {
	first   int
	weights []int32
}

// tapsFor returns the taps of n target pixels from target pixel start on,
// over size source pixels. Beyond the picture its last pixel is repeated.
func tapsFor(start, n int, at, step float64, size int) []taps {
	all := make([]taps, n)
	for i := range all {
		centre := at + (float64(start+i)+0.5)*step - 0.5
		all[i] = tapsAt(centre, step, size)
	}
	return all
}

func tapsAt(centre, step float64, size int) taps {
	reach, kernel := 2.0, cubic
	if step > 1 {
		reach = step
		kernel = func(d float64) float64 { return math.Max(0, 1-math.Abs(d)/step) }
	}
	lo, hi := int(math.Floor(centre-reach))+1, int(math.Ceil(centre+reach))-1
	first, last := max(0, min(size-1, lo)), max(0, min(size-1, hi))
	t := taps{first, make([]int32, last-first+1)}
	sum := 0.0
	for k := lo; k <= hi; k++ {
		sum += kernel(float64(k) - centre)
	}
	total := int32(0)
	for k := lo; k <= hi; k++ {
		w := int32(math.Round(kernel(float64(k)-centre) / sum * (1 << weightBits)))
		t.weights[max(first, min(last, k))-first] += w
		total += w
	}
	heaviest := 0
	for i, w := range t.weights {
		if w > t.weights[heaviest] {
			heaviest = i
		}
	}
	t.weights[heaviest] += 1<<weightBits - total
	return t
}

// cubic is the kernel of Catmull and Rom.
func cubic(d float64) float64 {
	d = math.Abs(d)
	switch {
	case d < 1:
		return (1.5*d-2.5)*d*d + 1
	case d < 2:
		return ((-0.5*d+2.5)*d-4)*d + 2
	}
	return 0
}

// paintSmooth paints the target pixels in by resampling r.
func paintSmooth(dst *image.RGBA, in image.Rectangle, r *raster, m mapping) {
	across := tapsFor(in.Min.X-m.origin.X, in.Dx(), m.x, m.step, r.w)
	down := tapsFor(in.Min.Y-m.origin.Y, in.Dy(), m.y, m.step, r.h)
	from := across[0].first
	end := across[len(across)-1]
	to := end.first + len(end.weights)
	for _, t := range across {
		from, to = min(from, t.first), max(to, t.first+len(t.weights))
	}
	for i := range across {
		across[i].first -= from
	}
	deepest := 0
	for _, t := range down {
		deepest = max(deepest, len(t.weights))
	}
	bands(in.Dy(), func(y0, y1 int) {
		ring := newRowRing(r, across, from, to, deepest)
		rows := make([][]int32, deepest)
		for y := y0; y < y1; y++ {
			t := down[y]
			for k := range t.weights {
				rows[k] = ring.row(t.first + k)
			}
			blend(dst.Pix[dst.PixOffset(in.Min.X, in.Min.Y+y):][:4*in.Dx()], rows[:len(t.weights)], t.weights)
		}
	})
}

// rowRing keeps the source rows in use, resampled across.
type rowRing struct {
	r        *raster
	across   []taps
	from, to int
	line     []byte
	have     []int
	rows     [][]int32
}

func newRowRing(r *raster, across []taps, from, to, depth int) *rowRing {
	g := &rowRing{r: r, across: across, from: from, to: to, line: make([]byte, 4*(to-from))}
	for range depth {
		g.have = append(g.have, -1)
		g.rows = append(g.rows, make([]int32, 3*len(across)))
	}
	return g
}

// row returns source row y resampled across: three values a target pixel, in
// 1/8 steps.
func (g *rowRing) row(y int) []int32 {
	slot := y % len(g.have)
	if g.have[slot] == y {
		return g.rows[slot]
	}
	g.have[slot] = y
	src := g.line
	if g.r.rgba != nil {
		src = g.r.rgba[4*(y*g.r.w+g.from):][:4*(g.to-g.from)]
	} else {
		g.r.row(src, g.from, y, g.to-g.from)
	}
	out := g.rows[slot]
	for i, t := range g.across {
		var red, green, blue int32
		p := src[4*t.first:][:4*len(t.weights)]
		for k, w := range t.weights {
			q := p[4*k : 4*k+4 : 4*k+4]
			red += w * int32(q[0])
			green += w * int32(q[1])
			blue += w * int32(q[2])
		}
		o := out[3*i : 3*i+3 : 3*i+3]
		o[0], o[1], o[2] = red>>(weightBits-3), green>>(weightBits-3), blue>>(weightBits-3)
	}
	return out
}

// blend combines rows down into one of RGBA.
func blend(dst []byte, rows [][]int32, weights []int32) {
	const half = 1 << (weightBits + 2)
	for i := range len(dst) / 4 {
		red, green, blue := int32(half), int32(half), int32(half)
		for k, w := range weights {
			q := rows[k][3*i : 3*i+3 : 3*i+3]
			red += w * q[0]
			green += w * q[1]
			blue += w * q[2]
		}
		d := dst[4*i : 4*i+4 : 4*i+4]
		d[0], d[1], d[2], d[3] = clamp8(red>>(weightBits+3)), clamp8(green>>(weightBits+3)), clamp8(blue>>(weightBits+3)), 255
	}
}

func clamp8(v int32) byte { return byte(max(0, min(255, v))) }
