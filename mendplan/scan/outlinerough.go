package scan

import "math"

// candidate is one way to part the leaf from the backing, with what speaks
// for it.
type candidate struct {
	mask    *bitmap
	backing string
	score   float64 // 0 to 1
}

// seekLeaf tries every set of the colours along the border as the backing, at
// several thresholds, and keeps the parting whose part near the middle looks
// most like a leaf: nearly fills a rectangle, has an edge all round, and does
// not hang on the border of the picture.
func seekLeaf(p *labPlane) (candidate, bool) {
	band := max(2, min(p.w, p.h)/50)
	colours := hues(p, borderBand(p, band), 5, 6, 0.03)
	grad := gradient(p)
	dist := make([][]float32, len(colours))
	for c, h := range colours {
		dist[c] = distances(p, h)
	}
	best := candidate{}
	near := make([]float32, p.w*p.h)
	for set := 1; set < 1<<len(colours); set++ {
		for i := range near {
			near[i] = float32(math.Inf(1))
		}
		share, major := 0.0, -1
		for c := range colours {
			if set>>c&1 == 0 {
				continue
			}
			if major < 0 {
				major = c
			}
			share += colours[c].share
			for i, d := range dist[c] {
				near[i] = min(near[i], d)
			}
		}
		for _, t := range [...]float32{3.5, 6, 10, 16} {
			m := partLeaf(p, near, t)
			if m == nil {
				continue
			}
			s := rate(m, grad) * (0.7 + 0.3*min(1, share))
			if s > best.score {
				best = candidate{m, colourWord(colours[major].mean), s}
			}
		}
	}
	if best.score > 0.2 {
		best = peel(p, best, grad)
	}
	return best, best.score > 0.2
}

// distances is the distance of every pixel from one backing colour, its light
// allowed to fall off evenly over the picture.
func distances(p *labPlane, h hue) []float32 {
	kx, ky := tilt(p, h)
	d := make([]float32, p.w*p.h)
	soft := max(1, h.sl/2) // a coarse cloth is allowed its weave
	for y := 0; y < p.h; y++ {
		for x := 0; x < p.w; x++ {
			i := y*p.w + x
			m := h.mean
			m.l += kx*(float32(x)/float32(p.w)-0.5) + ky*(float32(y)/float32(p.h)-0.5)
			d[i] = veiled(p.at(i), m, 22) / soft
		}
	}
	return d
}

// tilt fits how the lightness of h's members changes across the picture, in
// units of L* per width and per height, held to ±15.
func tilt(p *labPlane, h hue) (kx, ky float32) {
	var sxx, sxy, syy, sxl, syl float64
	var mx, my, ml, n float64
	for _, i := range h.member {
		mx += float64(i%p.w) / float64(p.w)
		my += float64(i/p.w) / float64(p.h)
		ml += float64(p.l[i])
		n++
	}
	mx, my, ml = mx/n, my/n, ml/n
	for _, i := range h.member {
		x, y, l := float64(i%p.w)/float64(p.w)-mx, float64(i/p.w)/float64(p.h)-my, float64(p.l[i])-ml
		sxx, sxy, syy = sxx+x*x, sxy+x*y, syy+y*y
		sxl, syl = sxl+x*l, syl+y*l
	}
	det := sxx*syy - sxy*sxy
	if det < 1e-3*n*n {
		return 0, 0
	}
	clamp := func(v float64) float32 { return float32(max(-15, min(15, v))) }
	return clamp((sxl*syy - syl*sxy) / det), clamp((syl*sxx - sxl*sxy) / det)
}

// partLeaf floods the backing (nearer than t) from the border and returns the
// best part of what is left, holes filled, or nil.
func partLeaf(p *labPlane, near []float32, t float32) *bitmap {
	bg := newBitmap(p.w, p.h)
	for i, d := range near {
		bg.on[i] = d < t
	}
	fg := bg.flood(bg.rim()).not()
	r := max(1.5, float64(max(p.w, p.h))/110)
	core := fg.shrinkBy(r)
	lab, parts := core.parts()
	best, bestV := part{}, 0.0
	for _, b := range parts {
		dx := (b.cx - float64(p.w)/2) / float64(p.w)
		dy := (b.cy - float64(p.h)/2) / float64(p.h)
		if v := float64(b.n) * math.Exp(-6*(dx*dx+dy*dy)); v > bestV {
			best, bestV = b, v
		}
	}
	if float64(best.n) < 0.01*float64(p.w*p.h) {
		return nil
	}
	return only(lab, p.w, p.h, best.id).grow(r + 1.5).and(fg).fillHoles()
}

// rate says how much m looks like a leaf, 0 to 1.
func rate(m *bitmap, grad []float32) float64 {
	lab, parts := m.parts()
	_ = lab
	big := part{}
	for _, b := range parts {
		if b.n > big.n {
			big = b
		}
	}
	if big.n == 0 {
		return 0
	}
	ring := m.contour(big.first)
	_, area := boxOf(hull(ring))
	fill := min(1, float64(big.n)/max(1, area))
	var edge, firm, free, n float64
	for _, q := range ring {
		x, y := int(q.X), int(q.Y)
		n++
		if q.X <= 1 || q.Y <= 1 || q.X >= float64(m.w-1) || q.Y >= float64(m.h-1) {
			continue
		}
		free++
		g := float64(grad[min(y, m.h-1)*m.w+min(x, m.w-1)])
		edge += min(1, g/16)
		if g > 2.5 {
			firm++
		}
	}
	if free == 0 || n == 0 {
		return 0
	}
	edge, firm = edge/free, firm/free
	share := float64(big.n) / float64(m.w*m.h)
	return fill * fill * fill * (0.45 + 0.2*edge + 0.35*firm) * math.Sqrt(free/n) * min(1, math.Sqrt(share/0.2))
}

// gradient is the colour step over two pixels, in CIELAB units.
func gradient(p *labPlane) []float32 {
	g := make([]float32, p.w*p.h)
	for y := 0; y < p.h; y++ {
		for x := 0; x < p.w; x++ {
			xa, xb := max(0, x-1), min(p.w-1, x+1)
			ya, yb := max(0, y-1), min(p.h-1, y+1)
			dx := p.at(y*p.w + xa).dist(p.at(y*p.w + xb))
			dy := p.at(ya*p.w + x).dist(p.at(yb*p.w + x))
			g[y*p.w+x] = float32(math.Sqrt(float64(dx*dx + dy*dy)))
		}
	}
	return g
}
