package scan

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand"
	"testing"

	"leafmend/mendplan/geom"
)

// drawnSpec says what leaf to draw and on what; drawnLeaf is the picture with
// what is true of it. Everything follows from the seed.
type drawnSpec struct {
	seed    int64
	backing string // black, white, grey, felt, coloured
	extra   string // one of drawnExtras
}

type drawnLeaf struct {
	img     *image.RGBA
	mm      float64 // pixels per millimetre
	leaf    *bitmap
	outline []geom.Pt
	corner  [4]geom.Pt
	losses  [][]geom.Pt
	tears   [][]geom.Pt
	gape    []float64 // how wide each tear stands open at its mouth, mm
	ink     *bitmap   // written or printed
	stained *bitmap   // browned by a stain of some size
	turn    float64   // degrees counter-clockwise
}

// drawer is the leaf while it is drawn: planes of sRGB values 0 to 255.
type drawer struct {
	*rand.Rand
	spec     drawnSpec
	w, h     int
	mm       float64
	px       [3][]float32
	back     [3]float32 // colour of the backing
	paper    [3]float32
	lining   [3]float32
	ideal    *bitmap
	leaf     *bitmap
	behind   *bitmap // where a lining lies
	corner   [4]geom.Pt
	gone     []*bitmap
	fromGone [][]float32 // squared distances to each
	torn     [][]geom.Pt
	gape     []float64
	ink      *bitmap
	stained  *bitmap
	turnDeg  float64
}

func drawLeaf(s drawnSpec) drawnLeaf {
	d := &drawer{Rand: rand.New(rand.NewSource(s.seed)), spec: s, w: 1060, h: 1400, mm: 6}
	for k := range d.px {
		d.px[k] = make([]float32, d.w*d.h)
	}
	d.ink, d.stained = newBitmap(d.w, d.h), newBitmap(d.w, d.h)
	d.chooseColours()
	d.shape()
	d.damage()
	d.paintBacking()
	d.paintBeside()
	d.paintShadow()
	d.paintLeaf()
	d.light()
	return drawnLeaf{img: d.picture(), mm: d.mm, leaf: d.leaf, outline: leafRing(d.outlineMask()),
		corner: d.corner, losses: d.lossRings(), tears: d.torn, gape: d.gape, ink: d.ink, stained: d.stained, turn: d.turnDeg}
}

// outlineMask is the leaf with the lining it lies on and holes filled.
func (d *drawer) outlineMask() *bitmap {
	m := newBitmap(d.w, d.h)
	for i := range m.on {
		m.on[i] = d.leaf.on[i] || d.behind != nil && d.behind.on[i]
	}
	return m.keepLargest().fillHoles()
}

func (d *drawer) lossRings() [][]geom.Pt {
	var out [][]geom.Pt
	for _, g := range d.gone {
		if m := g.and(d.ideal).keepLargest(); m.count() > 0 {
			out = append(out, leafRing(m))
		}
	}
	return out
}

func (d *drawer) between(lo, hi float64) float64 { return lo + (hi-lo)*d.Float64() }

func (d *drawer) chooseColours() {
	j := func(v, r float64) float32 { return float32(v + d.between(-r, r)) }
	grey := func(v, r, tint float64) [3]float32 {
		g := float64(j(v, r))
		return [3]float32{j(g, tint), j(g, tint), j(g, tint)}
	}
	switch d.spec.backing {
	case "black":
		d.back = grey(16, 10, 3)
	case "white":
		d.back = grey(244, 6, 2)
	case "grey":
		d.back = grey(128, 45, 4)
	case "felt":
		d.back = grey(95, 40, 5)
	default:
		c := [][3]float32{{40, 70, 130}, {50, 110, 70}, {130, 50, 45}, {95, 75, 55}, {35, 90, 110}}
		d.back = c[d.Intn(len(c))]
	}
	papers := [][3]float64{{238, 228, 206}, {225, 205, 170}, {210, 186, 146}, {232, 214, 186}, {200, 196, 184}, {226, 224, 214}, {190, 165, 128}}
	for {
		p := papers[d.Intn(len(papers))]
		for k := range d.paper {
			d.paper[k] = j(p[k], 6)
		}
		if far(d.paper, d.back) > 9 {
			break
		}
	}
	if d.spec.extra == "close" { // paper hardly lighter, darker or warmer than the backing
		for tries := 0; tries == 0 || far(d.paper, d.back) < 7 || far(d.paper, d.back) > 12; tries++ {
			for k := range d.paper {
				d.paper[k] = max(0, min(252, d.back[k]+float32(d.between(-30, 30))))
			}
		}
	}
	linings := [][3]float32{{120, 125, 138}, {245, 244, 240}, {150, 165, 160}, {236, 236, 236}}
	d.lining = linings[d.Intn(len(linings))]
	if far(d.lining, d.paper) < 14 {
		d.lining = linings[0]
	}
}

// far is the CIELAB difference of two sRGB colours.
func far(a, b [3]float32) float32 {
	t := labTable()
	var p, q lab
	p.l, p.a, p.b = t.lab(a[0], a[1], a[2])
	q.l, q.a, q.b = t.lab(b[0], b[1], b[2])
	return p.dist(q)
}

// wavy is smooth noise along a line: a few octaves about nought.
func (d *drawer) wavy(n int, step float64, amp float64) []float64 {
	out := make([]float64, n)
	for o, a := step, amp; o >= 1.5 && a > 0.02; o, a = o/2.3, a/1.8 {
		k := int(float64(n)/o) + 3
		v := make([]float64, k)
		for i := range v {
			v[i] = d.between(-a, a)
		}
		for i := range out {
			x := float64(i) / o
			j := int(x)
			t := x - float64(j)
			t = t * t * (3 - 2*t)
			out[i] += v[j]*(1-t) + v[j+1]*t
		}
	}
	return out
}

// shape lays the leaf as it was: a turned rectangle, its sides a little bowed
// and, on some leaves, deckled.
func (d *drawer) shape() {
	d.turnDeg = d.between(-3, 3)
	if d.spec.extra == "skew" {
		d.turnDeg = math.Copysign(d.between(3, 5.5), d.turnDeg)
	}
	c := geom.Pt{X: float64(d.w) * d.between(0.48, 0.52), Y: float64(d.h) * d.between(0.48, 0.52)}
	hw, hh := d.mm*d.between(55, 74), d.mm*d.between(75, 98)
	if d.spec.extra == "target" {
		hw *= 0.82
		c.X -= 0.06 * float64(d.w)
		hh *= 0.88
	}
	if d.spec.extra == "cut" {
		c.Y += float64(d.h)/2 - hh*0.9
	}
	s, k := math.Sincos(-d.turnDeg * math.Pi / 180)
	at := func(x, y float64) geom.Pt { return c.Add(geom.Pt{X: x*k - y*s, Y: x*s + y*k}) }
	d.corner = [4]geom.Pt{at(-hw, -hh), at(hw, -hh), at(hw, hh), at(-hw, hh)}
	deckle := 0.15 * d.mm
	if d.Intn(3) == 0 {
		deckle = d.between(0.3, 0.6) * d.mm
	}
	if d.spec.extra == "deckle" {
		deckle = d.between(0.6, 1.1) * d.mm
	}
	var ring []geom.Pt
	for i := range d.corner {
		a, b := d.corner[i], d.corner[(i+1)%4]
		n := int(a.Dist(b) / 2)
		e := b.Sub(a).Unit()
		rag := d.wavy(n, 60, deckle)
		bow := d.between(-0.5, 0.5) * d.mm
		for k, r := range rag {
			t := float64(k) / float64(n)
			off := r + bow*math.Sin(math.Pi*t)
			ring = append(ring, a.Lerp(b, t).Add(geom.Pt{X: e.Y, Y: -e.X}.Mul(off)))
		}
	}
	d.ideal = rasterise(ring, d.w, d.h, 1).keepLargest()
	d.leaf = d.ideal.and(d.ideal)
}

// ragged is a torn patch about c of the given radii, turned along e.
func (d *drawer) ragged(c, e geom.Pt, ra, rb float64) *bitmap {
	n := 90
	w := d.wavy(n+30, 18, 0.28)
	var ring []geom.Pt
	for i := range n {
		s, k := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		t := 1.0 // the wave is drawn back to its start over the last stretch
		if i > n-20 {
			t = float64(n-i) / 20
		}
		f := 1 + w[i]*t
		ring = append(ring, c.Add(e.Mul(k*ra*f)).Add(geom.Pt{X: -e.Y, Y: e.X}.Mul(s*rb*f)))
	}
	return rasterise(ring, d.w, d.h, 1)
}

// damage takes losses, holes and tears out of the leaf.
func (d *drawer) damage() {
	for range 1 + d.Intn(4) {
		k := d.Intn(4)
		a, b := d.corner[k], d.corner[(k+1)%4]
		d.lose(d.ragged(a.Lerp(b, d.between(0.08, 0.92)), b.Sub(a).Unit(), d.mm*d.between(1.8, 14), d.mm*d.between(1.6, 7)))
	}
	if d.Intn(2) == 0 {
		d.lose(d.ragged(d.corner[d.Intn(4)], geom.Pt{X: 1}, d.mm*d.between(3, 14), d.mm*d.between(3, 14)))
	}
	if d.spec.extra == "worn" { // half of one edge is gone
		k := d.Intn(4)
		a, b := d.corner[k], d.corner[(k+1)%4]
		d.lose(d.ragged(a.Lerp(b, d.between(0.2, 0.8)), b.Sub(a).Unit(), a.Dist(b)*d.between(0.15, 0.28), d.mm*d.between(6, 22)))
		for range 6 {
			k := d.Intn(4)
			a, b := d.corner[k], d.corner[(k+1)%4]
			d.lose(d.ragged(a.Lerp(b, d.between(0.05, 0.95)), b.Sub(a).Unit(), d.mm*d.between(1.5, 5), d.mm*d.between(1.5, 4)))
		}
	}
	for range d.Intn(4) {
		p := d.corner[0].Lerp(d.corner[1], d.between(0.12, 0.88)).Lerp(d.corner[3].Lerp(d.corner[2], d.between(0.12, 0.88)), d.between(0.12, 0.88))
		d.lose(d.ragged(p, geom.Pt{X: 1}, d.mm*d.between(1, 4.5), d.mm*d.between(1, 4.5)))
	}
	for range 1 + d.Intn(3) {
		d.tear()
	}
	if d.spec.extra == "lining" {
		d.behind = d.ideal.shrinkBy(d.mm * 0.15)
	}
}

// lose takes m away, if it would not run into another loss or off the picture.
func (d *drawer) lose(m *bitmap) {
	for _, far := range d.fromGone {
		for i, v := range m.on {
			if v && float64(far[i]) <= 6.25*d.mm*d.mm {
				return
			}
		}
	}
	m = m.and(d.ideal)
	for _, i := range m.rim() {
		if m.on[i] {
			return
		}
	}
	if m = m.keepLargest(); float64(m.count()) < 3.5*d.mm*d.mm {
		return
	}
	// what is left must hang together
	d.gone = append(d.gone, m)
	d.fromGone = append(d.fromGone, m.sqDist())
	d.leaf = d.leaf.minus(m)
}

// tear runs a wandering slit from an edge inwards, widest at the mouth.
func (d *drawer) tear() {
	k := d.Intn(4)
	a, b := d.corner[k], d.corner[(k+1)%4]
	p := a.Lerp(b, d.between(0.1, 0.9))
	e := b.Sub(a).Unit()
	in := geom.Pt{X: -e.Y, Y: e.X}
	n := int(d.mm * d.between(5, 28))
	side := d.wavy(n, 25, 0.8*d.mm)
	lean := d.between(-0.4, 0.4)
	var path []geom.Pt
	for i := range n {
		path = append(path, p.Add(in.Mul(float64(i))).Add(e.Mul(side[i]+lean*float64(i))))
	}
	for _, far := range d.fromGone {
		for _, q := range path {
			x, y := int(q.X), int(q.Y)
			if x >= 0 && y >= 0 && x < d.w && y < d.h && float64(far[y*d.w+x]) <= 9*d.mm*d.mm {
				return
			}
		}
	}
	for _, q := range path {
		if !d.ideal.get(int(q.X), int(q.Y)) && q.Dist(p) > 2*d.mm {
			return
		}
	}
	d.torn = append(d.torn, path)
	open := d.between(0, 0.35) * d.mm
	d.gape = append(d.gape, 2*open/d.mm)
	for i, q := range path {
		r := open * (1 - float64(i)/float64(n))
		for y := int(q.Y - r); y <= int(q.Y+r); y++ {
			for x := int(q.X - r); x <= int(q.X+r); x++ {
				if d.leaf.get(x, y) && math.Hypot(float64(x)+0.5-q.X, float64(y)+0.5-q.Y) < r {
					d.leaf.on[y*d.w+x] = false
				}
			}
		}
	}
}

// picture rounds the planes, saves them as a JPEG and reads it again.
func (d *drawer) picture() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, d.w, d.h))
	for i := range d.px[0] {
		for k := range d.px {
			img.Pix[4*i+k] = uint8(max(0, min(255, d.px[k][i]+0.5)))
		}
		img.Pix[4*i+3] = 255
	}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, img, &jpeg.Options{Quality: 55 + d.Intn(41)}); err != nil {
		panic(err)
	}
	back, err := jpeg.Decode(&buf)
	if err != nil {
		panic(err)
	}
	for y := range d.h {
		for x := range d.w {
			img.Set(x, y, back.At(x, y))
		}
	}
	return img
}

func TestADrawnLeafIsTheSameForTheSameSeed(t *testing.T) {
	a, b := drawLeaf(drawnSpec{7, "felt", "target"}), drawLeaf(drawnSpec{7, "felt", "target"})
	if !bytes.Equal(a.img.Pix, b.img.Pix) || len(a.losses) != len(b.losses) {
		t.Fatal("two drawings from one seed differ")
	}
	if c := drawLeaf(drawnSpec{8, "felt", "target"}); bytes.Equal(a.img.Pix, c.img.Pix) {
		t.Fatal("drawings from two seeds are the same")
	}
}
