package scan

import (
	"math"

	"leafmend/mendplan/geom"
)

// drawnMore are the extras that came later: how real scans differ from a flat
// leaf in an even light. Each draws its chances only when asked for, so that
// the older leaves stay as they were.
var drawnMore = []string{"vignette", "lid", "gutter", "staples", "halftone", "dark", "tape", "edgestain", "skew", "core", "deckle", "flare", "sharpened", "blackink"}

// more is called once all colours, shapes and damage are settled and the leaf
// is painted and written on.
func (d *drawer) more() {
	switch d.spec.extra {
	case "staples":
		d.staples()
	case "halftone":
		d.halftone()
	case "dark":
		d.darkCover()
	case "tape":
		d.tapes()
	case "edgestain":
		for range 2 + d.Intn(3) {
			k := d.Intn(4)
			p := d.corner[k].Lerp(d.corner[(k+1)%4], d.between(0.05, 0.95))
			for range 3 {
				d.stain(p.Add(geom.Pt{X: d.between(-5, 5) * d.mm, Y: d.between(-5, 5) * d.mm}), d.mm*d.between(4, 18))
			}
		}
	case "core":
		d.core()
	case "blackink":
		d.blackInk()
	}
}

// flare adds the light that a lens and the glass spread about a bright leaf.
func (d *drawer) flare() {
	k := d.between(0.01, 0.035)
	for c := range d.px {
		lin := make([]float32, len(d.px[c]))
		for i, v := range d.px[c] {
			lin[i] = float32(math.Pow(float64(max(0, v))/255, 2.2))
		}
		near := boxBlurIn(boxBlurIn(lin, d.w, d.h, int(2*d.mm)), d.w, d.h, int(3*d.mm))
		wide := boxBlurIn(near, d.w, d.h, int(15*d.mm))
		for i, v := range lin {
			d.px[c][i] = float32(255 * math.Pow(float64(v)*(1-k)+k*float64(0.6*near[i]+0.4*wide[i]), 1/2.2))
		}
	}
}

// sharpen is what scanners do to look crisp: light and dark rims at every edge.
func (d *drawer) sharpen() {
	amount, sigma := float32(d.between(0.5, 1.4)), d.between(0.8, 1.6)
	for c := range d.px {
		soft := gaussBlur(d.px[c], d.w, d.h, sigma)
		for i, v := range d.px[c] {
			d.px[c][i] = max(0, min(255, v+amount*(v-soft[i])))
		}
	}
}

// staples leaves two pairs of rusted holes too small to be filled.
func (d *drawer) staples() {
	u := d.between(0.3, 0.7)
	for _, v := range []float64{0.27, 0.33, 0.68, 0.74} {
		p := d.onLeaf(u, v)
		d.stain(p, d.mm*d.between(1, 2.5))
		r := d.between(0.25, 0.5) * d.mm
		for y := int(p.Y - r); y <= int(p.Y+r); y++ {
			for x := int(p.X - r); x <= int(p.X+r); x++ {
				if d.leaf.get(x, y) && math.Hypot(float64(x)+0.5-p.X, float64(y)+0.5-p.Y) < r {
					d.put(y*d.w+x, d.back)
					d.scale(y*d.w+x, 0.8)
				}
			}
		}
	}
}

// blackInk writes broadly in an ink as dark as a black backing, strokes
// swelling and running dry, with blots.
func (d *drawer) blackInk() {
	dark := float32(d.between(4, 26))
	ink := [3]float32{dark + float32(d.between(0, 8)), dark + float32(d.between(0, 4)), dark}
	for range 5 + d.Intn(12) {
		p := d.onLeaf(d.between(0.1, 0.85), d.between(0.08, 0.92))
		turn, bend := d.between(0, 2*math.Pi), d.between(-0.05, 0.05)
		most, n := d.between(0.35, 1.1)*d.mm, int(d.between(5, 45)*d.mm)
		for k := range n {
			s, c := math.Sincos(turn)
			p, turn = p.Add(geom.Pt{X: c, Y: s}), turn+bend
			r := most * (0.25 + 0.75*math.Pow(math.Sin(math.Pi*float64(k)/float64(n)), 2))
			if k%2 == 0 {
				d.inked(p, 2*r, 2*r, float64(k*7%90), ink, 0.97)
			}
		}
	}
	for range d.Intn(6) {
		p, r := d.onLeaf(d.between(0.1, 0.9), d.between(0.1, 0.9)), d.between(0.6, 1.6)*d.mm
		for a := 0.0; a < 180; a += 22 {
			d.inked(p, 2*r, 1.1*r, a, ink, 0.97)
		}
	}
}

// halftone prints a picture with straight sides in the dots of a screen.
func (d *drawer) halftone() {
	tone := d.cloud(40)
	ink := [3]float32{38, 34, 34}
	if d.Intn(2) == 0 {
		ink = [3]float32{70, 48, 32}
	}
	pitch := d.mm * d.between(0.25, 0.55)
	u0, v0 := d.between(0.1, 0.4), d.between(0.1, 0.5)
	u1, v1 := u0+d.between(0.25, 0.45), v0+d.between(0.2, 0.4)
	a, b := d.corner[0], d.corner[1].Sub(d.corner[0])
	c := d.corner[3].Sub(d.corner[0])
	for i, in := range d.leaf.on {
		p := geom.Pt{X: float64(i%d.w) + 0.5, Y: float64(i/d.w) + 0.5}.Sub(a)
		u, v := p.Dot(b)/b.Dot(b), p.Dot(c)/c.Dot(c)
		if !in || u < u0 || u > u1 || v < v0 || v > v1 {
			continue
		}
		s := math.Cos(2*math.Pi*(p.X+p.Y)/pitch/1.4142) + math.Cos(2*math.Pi*(p.X-p.Y)/pitch/1.4142)
		cover := 1 / (1 + math.Exp(-(s-2.2*float64(tone[i]))*3))
		d.mix(i, ink, float32(0.9*(1-cover)))
		d.ink.on[i] = true
	}
}

// darkCover prints the whole leaf dark; where it is torn the paper shows.
func (d *drawer) darkCover() {
	c := [3]float32{float32(d.between(25, 95)), float32(d.between(25, 85)), float32(d.between(25, 95))}
	for far(c, d.back) < 11 {
		for k := range c {
			c[k] = min(150, c[k]+float32(d.between(0, 25)))
		}
	}
	fine := d.cloud(3)
	bare := newBitmap(d.w, d.h)
	for _, g := range d.gone {
		for i, v := range g.on {
			bare.on[i] = bare.on[i] || v
		}
	}
	dist := bare.sqDist()
	rag := d.cloud(8)
	for i, v := range d.leaf.on {
		if !v {
			continue
		}
		d.ink.on[i] = true
		if r := math.Sqrt(float64(dist[i])) / d.mm; r > 0.3+0.3*float64(rag[i]) {
			d.mix(i, [3]float32{c[0] + 8*fine[i], c[1] + 8*fine[i], c[2] + 8*fine[i]}, 0.93)
		}
	}
	for range 4 { // a title in light letters
		d.letter(d.onLeaf(d.between(0.2, 0.8), d.between(0.1, 0.4)), 8*d.mm, 1.5*d.mm, [3]float32{215, 205, 180})
	}
}

// tapes are what old tape leaves: straight yellow bands, some over the edge.
func (d *drawer) tapes() {
	for range 2 + d.Intn(3) {
		c := [3]float32{float32(d.between(150, 200)), float32(d.between(105, 150)), float32(d.between(50, 90))}
		d.inked(d.onLeaf(d.between(0, 1), d.between(0, 1)), d.between(20, 60)*d.mm, d.between(10, 19)*d.mm, d.between(-8, 98), c, float32(d.between(0.25, 0.65)))
	}
}

// core bares the white middle of the paper along torn edges, in bands of
// changing width.
func (d *drawer) core() {
	bare := newBitmap(d.w, d.h)
	for _, g := range d.gone {
		for i, v := range g.on {
			bare.on[i] = bare.on[i] || v
		}
	}
	dist := bare.sqDist()
	wide, fine := d.cloud(25), d.cloud(3)
	most := d.between(0.4, 1.2)
	for i, v := range d.leaf.on {
		if r := math.Sqrt(float64(dist[i])) / d.mm; v && r < most*(0.5+0.5*float64(wide[i]))+0.12*float64(fine[i]) {
			d.mix(i, [3]float32{246, 243, 234}, 0.85)
		}
	}
}

// moreLight is what light does to the whole picture.
func (d *drawer) moreLight() {
	switch d.spec.extra {
	case "vignette":
		k, cx, cy := d.between(0.12, 0.35), d.between(0.4, 0.6), d.between(0.4, 0.6)
		for i := range d.px[0] {
			x, y := float64(i%d.w)/float64(d.w)-cx, float64(i/d.w)/float64(d.h)-cy
			d.scale(i, float32(1-k*(x*x+y*y)/0.5))
		}
	case "lid": // the lid stands open on one side: the backing falls into the dark or the bright there
		bright := d.Intn(2) == 0
		wide := d.between(0.1, 0.3) * float64(d.w)
		for i := range d.px[0] {
			if d.leaf.on[i] {
				continue
			}
			t := float32(0.55 * math.Exp(-float64(i%d.w)/wide))
			if bright {
				d.mix(i, [3]float32{200, 203, 208}, t)
			} else {
				d.scale(i, 1-t)
			}
		}
	case "flare":
		d.flare()
	case "gutter": // one side dips into the fold of a book
		deep, wide := d.between(0.3, 0.65), d.between(5, 14)*d.mm
		x0 := min(d.corner[0].X, d.corner[3].X)
		for i := range d.px[0] {
			x := float64(i%d.w) - x0
			d.scale(i, 1-float32(deep*math.Exp(-math.Abs(x)/wide)))
		}
	}
}
