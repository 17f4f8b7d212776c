package scan

import (
	"math"

	"leafmend/mendplan/geom"
)

func (d *drawer) put(i int, c [3]float32) {
	for k := range d.px {
		d.px[k][i] = c[k]
	}
}

func (d *drawer) scale(i int, f float32) {
	for k := range d.px {
		d.px[k][i] *= f
	}
}

func (d *drawer) mix(i int, c [3]float32, t float32) {
	for k := range d.px {
		d.px[k][i] += (c[k] - d.px[k][i]) * t
	}
}

// cloud is smooth noise over the picture, −1 to 1, of the given grain.
func (d *drawer) cloud(grain float64) []float32 {
	gw, gh := int(float64(d.w)/grain)+3, int(float64(d.h)/grain)+3
	v := make([]float32, gw*gh)
	for i := range v {
		v[i] = float32(d.between(-1, 1))
	}
	out := make([]float32, d.w*d.h)
	for y := range d.h {
		fy := float64(y) / grain
		y0 := int(fy)
		ty := float32(fy - float64(y0))
		for x := range d.w {
			fx := float64(x) / grain
			x0 := int(fx)
			tx := float32(fx - float64(x0))
			a := v[y0*gw+x0]*(1-tx) + v[y0*gw+x0+1]*tx
			b := v[(y0+1)*gw+x0]*(1-tx) + v[(y0+1)*gw+x0+1]*tx
			out[y*d.w+x] = a*(1-ty) + b*ty
		}
	}
	return out
}

func (d *drawer) paintBacking() {
	weave := float32(0)
	var fine, coarse []float32
	if d.spec.backing == "felt" {
		weave = 12
		fine, coarse = d.cloud(2.2), d.cloud(7)
	}
	for i := range d.px[0] {
		d.put(i, d.back)
		if weave > 0 {
			n := weave * (fine[i]*0.8 + coarse[i]*0.5)
			for k := range d.px {
				d.px[k][i] += n
			}
		}
	}
}

// box fills a turned rectangle.
func (d *drawer) box(c geom.Pt, w, h, deg float64, col [3]float32) {
	s, k := math.Sincos(deg * math.Pi / 180)
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x*k - y*s, Y: x*s + y*k}) }
	m := rasterise([]geom.Pt{at(-w/2, -h/2), at(w/2, -h/2), at(w/2, h/2), at(-w/2, h/2)}, d.w, d.h, 1)
	for i, v := range m.on {
		if v {
			d.put(i, col)
		}
	}
}

// paintBeside lays what often lies beside or behind a leaf.
func (d *drawer) paintBeside() {
	switch d.spec.extra {
	case "target":
		x := float64(d.w) - 9*d.mm
		deg := d.between(-1, 1)
		for k := range 12 {
			c := [3]float32{float32(d.Intn(256)), float32(d.Intn(256)), float32(d.Intn(256))}
			d.box(geom.Pt{X: x, Y: float64(d.h)*0.2 + float64(k)*9*d.mm}, 9*d.mm, 9*d.mm, deg, c)
		}
		y := float64(d.h) - 8*d.mm
		d.box(geom.Pt{X: float64(d.w) * 0.45, Y: y}, 140*d.mm, 8*d.mm, deg, [3]float32{235, 235, 225})
		for k := range 130 {
			long := 2.0
			if k%5 == 0 {
				long = 4
			}
			d.box(geom.Pt{X: float64(d.w)*0.45 + (float64(k)-65)*d.mm, Y: y - 4*d.mm + long*d.mm/2}, 0.25*d.mm, long*d.mm, deg, [3]float32{20, 20, 20})
		}
	case "beneath": // the next leaf of the same paper peeks out
		c := d.corner[0].Lerp(d.corner[2], 0.5).Add(geom.Pt{X: d.mm * d.between(-9, 9), Y: d.mm * d.between(-6, 6)})
		w, h := d.corner[0].Dist(d.corner[1]), d.corner[0].Dist(d.corner[3])
		var col [3]float32
		for k := range col {
			col[k] = d.paper[k] * float32(d.between(0.8, 0.95))
		}
		d.box(c, w, h, -d.turnDeg+d.between(-2, 2), col)
	case "sheet":
		col := [3]float32{235, 232, 226}
		if far(col, d.paper) < 8 {
			col = [3]float32{205, 190, 160}
		}
		deg := d.between(-2, 2)
		d.box(geom.Pt{X: float64(d.w) * d.between(0.3, 0.7), Y: d.corner[0].Y - 30*d.mm}, float64(d.w)*1.3, 2*d.mm*d.between(32, 50), deg, col)
		for range 60 {
			d.box(geom.Pt{X: d.between(0, float64(d.w)), Y: d.between(0, d.corner[0].Y)}, d.mm*d.between(1, 6), d.mm*0.4, d.between(-10, 90), [3]float32{60, 50, 45})
		}
	}
}

// paintShadow darkens the backing near the leaf, more on one side.
func (d *drawer) paintShadow() {
	deep, wide := float32(d.between(0, 0.2)), d.mm*d.between(0.5, 1.5)
	if d.spec.extra == "shadow" {
		deep, wide = float32(d.between(0.25, 0.5)), d.mm*d.between(1.5, 4)
	}
	ox, oy := int(d.mm*d.between(-0.8, 0.8)), int(d.mm*d.between(-0.8, 0.8))
	dist := d.outlineMask().sqDist()
	for y := range d.h {
		for x := range d.w {
			sx, sy := min(max(x-ox, 0), d.w-1), min(max(y-oy, 0), d.h-1)
			r := math.Sqrt(float64(dist[sy*d.w+sx]))
			d.scale(y*d.w+x, 1-deep*float32(math.Exp(-r/wide)))
		}
	}
}

func (d *drawer) paintLeaf() {
	rim := d.leaf.not().sqDist()
	fibre := d.cloud(1.6)
	tone, fine := d.cloud(60), d.cloud(2)
	brown := float32(d.between(0, 0.16))
	for i := range d.leaf.on {
		if d.behind != nil && d.behind.on[i] && !d.leaf.on[i] {
			d.put(i, d.lining)
			for k := range d.px {
				d.px[k][i] += 4 * fine[i]
			}
		}
		if !d.leaf.on[i] {
			continue
		}
		d.put(i, d.paper)
		r := math.Sqrt(float64(rim[i])) / d.mm
		f := 1 + 0.02*tone[i] + 0.02*fine[i]
		edge := brown * float32(math.Exp(-r/6))
		d.px[0][i] *= f * (1 - 0.6*edge)
		d.px[1][i] *= f * (1 - edge)
		d.px[2][i] *= f * (1 - 1.6*edge)
		if r < 0.35 { // torn paper shows light fibres, or dirt
			d.mix(i, [3]float32{248, 245, 238}, 0.4*max(0, fibre[i]))
		}
	}
	d.content()
	d.more()
	d.closedTears()
}

// closedTears draws what shows of a tear whose edges lie together: a fine
// dark line with light fibres beside it.
func (d *drawer) closedTears() {
	for _, t := range d.torn {
		for i, q := range t {
			if i == 0 {
				continue
			}
			e := q.Sub(t[i-1]).Unit()
			n := geom.Pt{X: -e.Y, Y: e.X}
			for s := -1.2; s <= 1.2; s += 0.25 {
				p := q.Add(n.Mul(s * 2))
				if !d.leaf.get(int(p.X), int(p.Y)) {
					continue
				}
				j := int(p.Y)*d.w + int(p.X)
				if math.Abs(s) < 0.4 {
					d.mix(j, [3]float32{70, 60, 50}, 0.5)
				} else {
					d.mix(j, [3]float32{250, 248, 240}, float32(0.1*d.between(0, 1)))
				}
			}
		}
	}
}

// inked changes leaf pixels only.
func (d *drawer) inked(c geom.Pt, w, h, deg float64, ink [3]float32, t float32) {
	s, k := math.Sincos(deg * math.Pi / 180)
	r := math.Hypot(w, h)/2 + 1
	for y := int(c.Y - r); y <= int(c.Y+r); y++ {
		for x := int(c.X - r); x <= int(c.X+r); x++ {
			p := geom.Pt{X: float64(x) + 0.5, Y: float64(y) + 0.5}.Sub(c)
			if math.Abs(p.X*k+p.Y*s) <= w/2 && math.Abs(p.Y*k-p.X*s) <= h/2 && d.leaf.get(x, y) {
				d.mix(y*d.w+x, ink, t)
				d.ink.on[y*d.w+x] = true
			}
		}
	}
}

func (d *drawer) onLeaf(u, v float64) geom.Pt {
	return d.corner[0].Lerp(d.corner[1], u).Lerp(d.corner[3].Lerp(d.corner[2], u), v)
}

// content writes, prints and stains the leaf.
func (d *drawer) content() {
	ink := [3]float32{45, 38, 34}
	if d.Intn(3) == 0 {
		ink = [3]float32{80, 55, 35}
	}
	high := d.corner[0].Dist(d.corner[3])
	for v := 0.12; v < 0.9; v += d.between(5, 8) * d.mm / high {
		for u := d.between(0.1, 0.14); u < d.between(0.8, 0.92); u += d.between(0.012, 0.03) {
			d.letter(d.onLeaf(u, v), d.between(1.2, 2.6)*d.mm, d.between(0.2, 0.5)*d.mm, ink)
		}
	}
	if d.spec.extra == "picture" { // a cover, printed to the edges
		a, b, fine := d.cloud(90), d.cloud(25), d.cloud(5)
		for i, v := range d.leaf.on {
			if v && 0.5*a[i]+0.4*b[i]+0.2*fine[i] > -0.1 {
				d.mix(i, [3]float32{120 + 90*b[i], 90 + 60*a[i], 60 + 60*fine[i]}, 0.85)
				d.ink.on[i] = true
			}
		}
	}
	if d.spec.extra == "heavy" {
		for k := range 12 {
			d.letter(d.onLeaf(0.15+0.06*float64(k), 0.08), 9*d.mm, d.between(1.2, 2)*d.mm, ink)
		}
		for range 6 { // blots, rules and full stops
			p := d.onLeaf(d.between(0.1, 0.9), d.between(0.1, 0.9))
			d.inked(p, d.mm*d.between(1, 2), d.mm*d.between(1, 2), d.between(0, 90), ink, 0.92)
		}
		d.inked(d.onLeaf(0.5, d.between(0.3, 0.7)), 60*d.mm, 1.2*d.mm, d.turnDeg, ink, 0.9)
	}
	for range d.Intn(5) {
		d.stain(d.onLeaf(d.between(0, 1), d.between(0, 1)), d.mm*d.between(2, 22))
	}
	for range d.Intn(40) {
		d.stain(d.onLeaf(d.between(0, 1), d.between(0, 1)), d.mm*d.between(0.2, 1))
	}
}

func (d *drawer) letter(p geom.Pt, high, thick float64, ink [3]float32) {
	for range 2 + d.Intn(2) {
		q := p.Add(geom.Pt{X: d.between(-0.3, 0.3) * high, Y: d.between(-0.2, 0.2) * high})
		d.inked(q, high*d.between(0.4, 1), thick, float64(d.Intn(4))*45, ink, float32(d.between(0.7, 0.95)))
	}
}

// stain browns a soft round place, some with a darker rim.
func (d *drawer) stain(c geom.Pt, r float64) {
	t, rim := float32(d.between(0.05, 0.35)), float32(d.between(0, 0.15))
	soft := r * d.between(0.15, 0.5)
	for y := int(c.Y - 2*r); y <= int(c.Y+2*r); y++ {
		for x := int(c.X - 2*r); x <= int(c.X+2*r); x++ {
			if !d.leaf.get(x, y) {
				continue
			}
			q := math.Hypot(float64(x)-c.X, float64(y)-c.Y)
			d.stained.on[y*d.w+x] = d.stained.on[y*d.w+x] || q < r && r > d.mm
			k := t/(1+float32(math.Exp((q-r)/soft*4))) + rim*float32(math.Exp(-(q-r)*(q-r)/(soft*soft)))
			d.mix(y*d.w+x, [3]float32{150, 105, 60}, k)
		}
	}
}

// light lets the light fall off, then blurs and adds the grain of a sensor.
func (d *drawer) light() {
	kx, ky := float32(d.between(-0.08, 0.08)), float32(d.between(-0.08, 0.08))
	d.moreLight()
	sigma, noise := d.between(0.45, 0.9), float32(d.between(0.8, 3.5))
	for k := range d.px {
		for i := range d.px[k] {
			x, y := float32(i%d.w)/float32(d.w)-0.5, float32(i/d.w)/float32(d.h)-0.5
			d.px[k][i] *= 1 + kx*x + ky*y
		}
		d.px[k] = gaussBlur(d.px[k], d.w, d.h, sigma)
		if d.spec.extra == "sharpened" && k == len(d.px)-1 {
			defer d.sharpen() // the grain of the sensor with it
		}
		for i := range d.px[k] {
			d.px[k][i] += noise * float32(d.NormFloat64())
		}
	}
}
