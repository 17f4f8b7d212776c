package scan

import (
	"image"
	"math"
)

// followCost is what it costs to cross each pixel: little on a dark or light
// line and on a sudden step, much on plain paper. Lines are read at two widths
// (about a tenth and a fifth of a millimetre), as the eigenvalues of the
// second derivatives; steps as the gradient. Each is measured against how
// much of it plain paper shows on this window.
func followCost(img *image.RGBA, pxPerMM, strength float64) []uint8 {
	l, w, h := lightness(img)
	best := make([]float32, len(l))
	for k, share := range [...]float32{1, 0.9} {
		sigma := max(0.9, 0.09*pxPerMM) * float64(k+1)
		g := gaussBlur(l, w, h, sigma)
		dark, light, grad := derivatives(g, w, h)
		raise(best, dark, share)
		raise(best, light, 0.85*share)
		if k == 0 {
			raise(best, grad, 0.7)
		}
	}
	cost := make([]uint8, len(l))
	// towards strength 0 a tear costs as much as paper, and the straight way is
	// the cheapest
	floor := 4 + 246*math.Pow(1-strength, 2.8)
	for i, v := range best {
		d := float64(1 - v)
		cost[i] = uint8(min(255, floor+(250-floor)*d*d))
	}
	return cost
}

// lightness is a plane of approximate L*, 0 to 100.
func lightness(img *image.RGBA) ([]float32, int, int) {
	r := img.Bounds()
	w, h := r.Dx(), r.Dy()
	l := make([]float32, w*h)
	for y := 0; y < h; y++ {
		row := img.Pix[img.PixOffset(r.Min.X, r.Min.Y+y):]
		for x := 0; x < w; x++ {
			q := row[4*x:]
			l[y*w+x] = (0.2126*float32(q[0]) + 0.7152*float32(q[1]) + 0.0722*float32(q[2])) / 2.55
		}
	}
	return l, w, h
}

// derivatives returns, per pixel, how strongly it lies on a dark line, on a
// light line, and on a step.
func derivatives(g []float32, w, h int) (dark, light, grad []float32) {
	n := w * h
	dark, light, grad = make([]float32, n), make([]float32, n), make([]float32, n)
	for y := 0; y < h; y++ {
		up, down := max(0, y-1)*w, min(h-1, y+1)*w
		for x := 0; x < w; x++ {
			a, b, m := max(0, x-1), min(w-1, x+1), y*w
			c := g[m+x]
			xx := g[m+a] + g[m+b] - 2*c
			yy := g[up+x] + g[down+x] - 2*c
			xy := (g[down+b] + g[up+a] - g[down+a] - g[up+b]) / 4
			mid := (xx + yy) / 2
			d := (xx - yy) / 2
			r := float32(math.Sqrt(float64(d*d + xy*xy)))
			// a blob is no line: what bends both ways alike counts less
			hi, lo := mid+r, mid-r
			dark[m+x] = max(0, hi-0.5*max(0, lo))
			light[m+x] = max(0, -lo-0.5*max(0, -hi))
			gx, gy := (g[m+b]-g[m+a])/2, (g[down+x]-g[up+x])/2
			grad[m+x] = float32(math.Sqrt(float64(gx*gx + gy*gy)))
		}
	}
	return dark, light, grad
}

// raise lifts best to the share of a response: 0 at what plain paper shows,
// nearing one at some five times that.
func raise(best, v []float32, share float32) {
	var some []float32
	step := 1 + len(v)/20000
	for i := 0; i < len(v); i += step {
		some = append(some, v[i])
	}
	noise := max(quantile(some, 0.6), 0.02)
	for i, x := range v {
		t := x/noise - 1.2
		if t > 0 {
			best[i] = max(best[i], share*(t/(t+3)))
		}
	}
}

// gaussBlur smooths by a Gaussian of the given sigma, the border repeated.
func gaussBlur(v []float32, w, h int, sigma float64) []float32 {
	r := int(math.Ceil(2.6 * sigma))
	k := make([]float32, r+1)
	sum := float32(0)
	for i := range k {
		k[i] = float32(math.Exp(-float64(i*i) / (2 * sigma * sigma)))
		sum += k[i]
		if i > 0 {
			sum += k[i]
		}
	}
	for i := range k {
		k[i] /= sum
	}
	tmp, out := make([]float32, len(v)), make([]float32, len(v))
	for y := 0; y < h; y++ {
		row, dst := v[y*w:(y+1)*w], tmp[y*w:(y+1)*w]
		for x := range dst {
			s := k[0] * row[x]
			for i := 1; i <= r; i++ {
				s += k[i] * (row[max(0, x-i)] + row[min(w-1, x+i)])
			}
			dst[x] = s
		}
	}
	for y := 0; y < h; y++ {
		dst := out[y*w : (y+1)*w]
		for x, q := range tmp[y*w : (y+1)*w] {
			dst[x] = k[0] * q
		}
		for i := 1; i <= r; i++ {
			a, b := tmp[max(0, y-i)*w:], tmp[min(h-1, y+i)*w:]
			for x := range dst {
				dst[x] += k[i] * (a[x] + b[x])
			}
		}
	}
	return out
}
