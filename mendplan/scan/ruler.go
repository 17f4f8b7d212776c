package scan

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
)

// Graduation is the regular spacing of marks found along a line drawn on a
// ruler.
type Graduation struct {
	Spacing    float64 // full scan pixels from mark to mark
	Offset     float64 // full scan pixels from the line's start to its first mark
	Marks      int     // how many fit on the line
	Confidence float64 // 0 to 1; below ½ rather no graduation
}

// FindGraduation looks for marks at a regular spacing along the line a–b
// (full scan pixels), which the user has drawn along a ruler's edge, by the
// autocorrelation of the picture along it. It finds the finest spacing that
// repeats; whether that is a millimetre, its half or a sixteenth of an inch
// is for the user to say. img is a level of the pyramid whose pixels measure
// scale full scan pixels. It reports false when nothing repeats, or the line
// is shorter than some forty pixels.
func FindGraduation(img *image.RGBA, scale float64, a, b geom.Pt) (Graduation, bool) {
	if !(scale > 0) || math.IsInf(scale, 0) || !a.Finite() || !b.Finite() || img.Bounds().Empty() {
		return Graduation{}, false
	}
	const fine = 0.5 // samples are half a pixel apart
	a, b = a.Mul(1/scale), b.Mul(1/scale)
	n := int(a.Dist(b)/fine) + 1
	if n < 80 || n > 1<<18 {
		return Graduation{}, false
	}
	v := alongLine(img, a, b, n)
	highPass(v, max(8, n/25))
	lag, r := bestLag(v)
	if lag == 0 {
		return Graduation{}, false
	}
	period, phase := comb(v, lag)
	g := Graduation{Spacing: period * fine * scale, Offset: phase * fine * scale}
	g.Marks = 1 + int((float64(n-1)-phase)/period)
	g.Confidence = math.Round(100*max(0, min(1, r*min(1, float64(g.Marks)/8)))) / 100
	return g, g.Confidence > 0.2
}

// alongLine samples the lightness at n places from a to b, each the mean of a
// few samples across the line.
func alongLine(img *image.RGBA, a, b geom.Pt, n int) []float64 {
	across := b.Sub(a).Unit()
	across = geom.Pt{X: -across.Y, Y: across.X}
	v := make([]float64, n)
	for i := range v {
		p := a.Lerp(b, float64(i)/float64(n-1))
		for k := -2; k <= 2; k++ {
			v[i] += lightAt(img, p.Add(across.Mul(float64(k)*0.7))) / 5
		}
	}
	return v
}

// lightAt is the lightness at p, pixel centres at half-whole places, between
// pixels interpolated and beyond the border repeated.
func lightAt(img *image.RGBA, p geom.Pt) float64 {
	x, y := p.X-0.5, p.Y-0.5
	x0, y0 := math.Floor(x), math.Floor(y)
	fx, fy := x-x0, y-y0
	r := img.Bounds()
	at := func(dx, dy float64) float64 {
		o := img.PixOffset(r.Min.X+clampInt(x0+dx, 0, r.Dx()-1), r.Min.Y+clampInt(y0+dy, 0, r.Dy()-1))
		return 0.2126*float64(img.Pix[o]) + 0.7152*float64(img.Pix[o+1]) + 0.0722*float64(img.Pix[o+2])
	}
	return (at(0, 0)*(1-fx)+at(1, 0)*fx)*(1-fy) + (at(0, 1)*(1-fx)+at(1, 1)*fx)*fy
}

// highPass takes the running mean over 2r+1 samples away.
func highPass(v []float64, r int) {
	sum := make([]float64, len(v)+1)
	for i, x := range v {
		sum[i+1] = sum[i] + x
	}
	for i := range v {
		lo, hi := max(0, i-r), min(len(v), i+r+1)
		v[i] -= (sum[hi] - sum[lo]) / float64(hi-lo)
	}
}

// bestLag is the shortest lag, in samples, at which v repeats nearly as well
// as at any, and how well: 0 not at all, 1 fully. Lag 0 means none.
func bestLag(v []float64) (int, float64) {
	top := len(v) / 4
	power := 0.0
	for _, x := range v {
		power += x * x
	}
	if power < 1e-9 {
		return 0, 0
	}
	c := make([]float64, top+2)
	for lag := range c {
		for i := 0; i+lag < len(v); i++ {
			c[lag] += v[i] * v[i+lag]
		}
		c[lag] /= power * float64(len(v)-lag) / float64(len(v))
	}
	lag := 1
	for lag < top && c[lag] > 0 { // leave the peak at nought
		lag++
	}
	best := 0.0
	for k := lag; k < top; k++ {
		best = max(best, c[k])
	}
	for k := lag; k < top; k++ {
		if c[k] >= c[k-1] && c[k] >= c[k+1] && c[k] > 0.25 && c[k] > 0.55*best {
			return k, c[k]
		}
	}
	return 0, 0
}

// comb sharpens the period near lag, and finds where the marks (darker or
// lighter than between) fall, by laying waves of that period and its first
// two overtones along the whole line.
func comb(v []float64, lag int) (period, phase float64) {
	best := -1.0
	steps := 400
	reach := 0.8 / float64(lag) // a lag is right to within half a sample or so
	for s := -steps; s <= steps; s++ {
		p := float64(lag) * (1 + reach*float64(s)/float64(steps))
		e := 0.0
		for k := 1; k <= 3; k++ {
			re, im := wave(v, p/float64(k))
			e += re*re + im*im
		}
		if e > best {
			best, period = e, p
		}
	}
	return period, markPhase(v, period)
}

func wave(v []float64, period float64) (re, im float64) {
	s, c := math.Sincos(2 * math.Pi / period)
	x, y := 1.0, 0.0
	for _, q := range v {
		re, im = re+q*x, im+q*y
		x, y = x*c-y*s, x*s+y*c
	}
	return re, im
}

// markPhase is where in the period the narrow deviation from the mean, the
// mark, stands.
func markPhase(v []float64, period float64) float64 {
	const bins = 48
	var sum, n [bins]float64
	for i, q := range v {
		t := math.Mod(float64(i), period) / period
		k := min(bins-1, int(t*bins))
		sum[k] += q
		n[k]++
	}
	at, far := 0, 0.0
	for k := range sum {
		m, w := 0.0, 0.0
		for d := -1; d <= 1; d++ {
			j := (k + d + bins) % bins
			m, w = m+sum[j], w+n[j]
		}
		if w > 0 && math.Abs(m/w) > far {
			at, far = k, math.Abs(m/w)
		}
	}
	return (float64(at) + 0.5) / bins * period
}
