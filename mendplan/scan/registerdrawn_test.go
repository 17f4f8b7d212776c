package scan

import (
	"image"
	"image/color"
	"math"
	"math/rand"
	"testing"

	"leafmend/mendplan/geom"
)

// backOf is the scan of the back of a drawn leaf: the same material mirrored,
// turned, at another scale, in another light and with its own noise. The map
// leads from its pixels to the front's.
func backOf(d drawnLeaf, scale, deg float64, r *rand.Rand) (*image.RGBA, geom.Affine) {
	w, h := int(float64(d.img.Rect.Dx())*scale), int(float64(d.img.Rect.Dy())*scale)
	fc, bc := geom.Pt{X: float64(d.img.Rect.Dx()) / 2, Y: float64(d.img.Rect.Dy()) / 2}, geom.Pt{X: float64(w) / 2, Y: float64(h) / 2}
	toFront := geom.Translate(bc.Mul(-1)).Then(geom.Scale(-1/scale, 1/scale)).Then(geom.Rotate(deg)).Then(geom.Translate(fc))
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	kx, ky := r.Float64()*0.16-0.08, r.Float64()*0.16-0.08
	for y := range h {
		for x := range w {
			q := toFront.Apply(geom.Pt{X: float64(x) + 0.5, Y: float64(y) + 0.5}).Sub(geom.Pt{X: 0.5, Y: 0.5})
			light := 1 + kx*(float64(x)/float64(w)-0.5) + ky*(float64(y)/float64(h)-0.5)
			c := between(d.img, q)
			for k := range c {
				c[k] = max(0, min(255, c[k]*light+2*r.NormFloat64()))
			}
			img.SetRGBA(x, y, color.RGBA{uint8(c[0]), uint8(c[1]), uint8(c[2]), 255})
		}
	}
	return img, toFront
}

// between is the picture read between its pixels; beyond it, its border.
func between(img *image.RGBA, q geom.Pt) (c [3]float64) {
	x, y := math.Floor(q.X), math.Floor(q.Y)
	for _, o := range [4][2]float64{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
		wt := (1 - math.Abs(q.X-x-o[0])) * (1 - math.Abs(q.Y-y-o[1]))
		p := img.RGBAAt(clampInt(x+o[0], 0, img.Rect.Dx()-1), clampInt(y+o[1], 0, img.Rect.Dy()-1))
		c[0], c[1], c[2] = c[0]+wt*float64(p.R), c[1]+wt*float64(p.G), c[2]+wt*float64(p.B)
	}
	return c
}

func TestDrawnPairsAreRegisteredWithinHalfAMillimetre(t *testing.T) {
	pairs, near, told, overall := 0, 0, 0, 0.0
	for i, s := range []drawnSpec{
		{2001, "black", ""}, {2002, "white", ""}, {2003, "grey", "worn"}, {2004, "felt", "worn"},
		{2005, "coloured", ""}, {2006, "black", "worn"}, {2007, "white", "worn"}, {2008, "grey", "heavy"},
		{2009, "felt", ""}, {2010, "black", "shadow"}, {2011, "grey", "target"}, {2012, "coloured", "worn"},
	} {
		r := rand.New(rand.NewSource(s.seed))
		d := drawLeaf(s)
		back, want := backOf(d, []float64{1, 0.83, 1.17, 0.97}[i%4], 8*r.Float64()-4, r)
		fo, err := FindOutline(d.img, 1, OutlineOptions{})
		if err != nil {
			t.Fatalf("%v: front: %v", s, err)
		}
		bo, err := FindOutline(back, 1, OutlineOptions{})
		if err != nil {
			t.Fatalf("%v: back: %v", s, err)
		}
		reg, err := RegisterSides(fo, bo)
		if err != nil || reg.Upside {
			t.Fatalf("%v: %v, head down %v", s, err, reg.Upside)
		}
		worst := 0.0 // over the whole leaf
		inv, _ := want.Inverse()
		for u := 0.0; u <= 1; u += 0.1 {
			for v := 0.0; v <= 1; v += 0.1 {
				p := d.corner[0].Lerp(d.corner[1], u).Lerp(d.corner[3].Lerp(d.corner[2], u), v)
				worst = max(worst, reg.BackToFront.Apply(inv.Apply(p)).Dist(p)/d.mm)
			}
		}
		pairs, overall = pairs+1, max(overall, worst)
		if worst <= 0.5 {
			near++
		}
		if worst*d.mm <= 3*max(reg.Doubt, 0.5) {
			told++
		}
		t.Logf("%v: off by at most %.2f mm, doubt %.2f mm", s, worst, reg.Doubt/d.mm)
	}
	t.Logf("%d of %d pairs within half a millimetre, the worst %.2f mm; %d within thrice their doubt", near, pairs, overall, told)
	if near != pairs || told < pairs-1 {
		t.Errorf("%d of %d pairs lie within half a millimetre, %d within thrice their doubt", near, pairs, told)
	}
}

func TestACorrectionByHandTurnsAndShiftsTheBack(t *testing.T) {
	r := Registration{BackToFront: geom.Affine{A: -1, C: 100, E: 1}, Residual: 1, Doubt: 2}
	c := r.Corrected(geom.Pt{X: 5, Y: -2}, 90, geom.Pt{X: 50, Y: 50})
	// back (40,50) lay at front (60,50): turned about (50,50) it comes to
	// (50,40), then shifted
	if p := c.BackToFront.Apply(geom.Pt{X: 40, Y: 50}); p.Dist(geom.Pt{X: 55, Y: 38}) > 1e-9 {
		t.Errorf("the place comes to lie at %v, want (55,38)", p)
	}
	if c.Residual != 1 || c.Doubt != 2 || r.BackToFront.C != 100 {
		t.Error("a correction changed what the outlines say, or its original")
	}
	if c.BackToFront.Det() >= 0 {
		t.Error("a correction lost the mirror")
	}
}
