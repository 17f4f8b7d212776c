package scan

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"math/rand"
	"testing"

	"leafmend/mendplan/geom"
)

// mirrored is the back of a leaf whose front is o, scanned at another scale
// and turned, its outline a little uncertain. It returns the true map.
func mirrored(o Outline, scale, deg float64, upside bool, r *rand.Rand) (Outline, geom.Affine) {
	if upside {
		deg += 180
	}
	s, c := math.Sincos(deg * math.Pi / 180)
	m := geom.Affine{A: -scale * c, B: scale * s, C: 3000, D: scale * s, E: scale * c, F: 400}
	back := Outline{}
	for i := len(o.Polygon) - 1; i >= 0; i-- {
		q := m.Apply(o.Polygon[i])
		back.Polygon = append(back.Polygon, q.Add(geom.Pt{X: r.NormFloat64(), Y: r.NormFloat64()}))
	}
	te := fitTrueEdge(back.Polygon, 0, 0)
	back.TrueEdge = te.corner
	inv, _ := m.Inverse()
	return back, inv
}

func TestBothSidesAreLaidOverOneAnother(t *testing.T) {
	d := drawLeaf(drawnSpec{1001, "black", ""})
	front, err := FindOutline(d.img, 1, OutlineOptions{})
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewSource(5))
	for _, c := range []struct {
		scale, deg float64
		upside     bool
	}{{1, 0, false}, {1.02, 2.5, false}, {0.5, -3, false}, {1, 1, true}} {
		back, want := mirrored(front, c.scale, c.deg, c.upside, r)
		reg, err := RegisterSides(front, back)
		if err != nil {
			t.Fatal(err)
		}
		if reg.Upside != c.upside {
			t.Errorf("scale %v turned %v°: head down is %v", c.scale, c.deg, reg.Upside)
		}
		worst := 0.0
		for _, p := range back.Polygon {
			worst = max(worst, reg.BackToFront.Apply(p).Dist(want.Apply(p)))
		}
		if worst > 0.5*d.mm { // half a millimetre
			t.Errorf("scale %v turned %v°: the sides lie %.2f mm apart, want 0.5", c.scale, c.deg, worst/d.mm)
		}
	}
}

func TestSidesWithoutOutlinesAreRefused(t *testing.T) {
	if _, err := RegisterSides(Outline{}, Outline{}); err == nil {
		t.Error("two empty outlines were registered")
	}
	line := Outline{Polygon: []geom.Pt{{}, {X: 1}, {X: 2}}}
	if r, err := RegisterSides(line, line); err == nil {
		t.Errorf("two lines were registered: %+v", r)
	}
}

func TestARulersGraduationIsFound(t *testing.T) {
	for _, c := range []struct {
		name    string
		spacing float64
		deg     float64
	}{{"a millimetre at 300 dpi", 11.811, 0}, {"a millimetre at 600 dpi, turned", 23.622, 7}, {"a sixteenth of an inch at 300 dpi", 18.75, -3}} {
		img := image.NewRGBA(image.Rect(0, 0, 1400, 500))
		draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{230, 226, 210, 255}), image.Point{}, draw.Src)
		s, k := math.Sincos(c.deg * math.Pi / 180)
		e, n := geom.Pt{X: k, Y: s}, geom.Pt{X: -s, Y: k}
		o := geom.Pt{X: 60, Y: 220}
		for y := range 500 {
			for x := range 1400 {
				p := geom.Pt{X: float64(x) + 0.5, Y: float64(y) + 0.5}.Sub(o)
				u, v := p.Dot(e), p.Dot(n)
				i := math.Round(u / c.spacing)
				long := 20.0
				if int(i)%10 == 0 {
					long = 45
				} else if int(i)%5 == 0 {
					long = 32
				}
				if u > -3 && v > 0 && v < long && math.Abs(u-i*c.spacing) < 1.3 {
					img.SetRGBA(x, y, color.RGBA{30, 30, 30, 255})
				}
			}
		}
		a := o.Add(n.Mul(10)).Sub(e.Mul(4))
		g, ok := FindGraduation(img, 2, a.Mul(2), a.Add(e.Mul(1100)).Mul(2))
		if !ok || g.Confidence < 0.5 {
			t.Errorf("%s: found %v, %+v", c.name, ok, g)
			continue
		}
		if math.Abs(g.Spacing-2*c.spacing) > 0.002*2*c.spacing {
			t.Errorf("%s: the spacing is %.3f, want %.3f within two in a thousand", c.name, g.Spacing, 2*c.spacing)
		}
		if off := math.Mod(g.Offset-8+20*g.Spacing, g.Spacing); min(off, g.Spacing-off) > 3 {
			t.Errorf("%s: the first mark is %.1f from the start, want 8", c.name, g.Offset)
		}
	}
}

func TestPlainPaperHasNoGraduation(t *testing.T) {
	img := plainLeaf(800, 100, image.Rect(0, 0, 800, 100))
	if g, ok := FindGraduation(img, 1, geom.Pt{X: 10, Y: 50}, geom.Pt{X: 780, Y: 50}); ok {
		t.Errorf("plain paper is graduated: %+v", g)
	}
	if _, ok := FindGraduation(img, 1, geom.Pt{X: math.NaN()}, geom.Pt{}); ok {
		t.Error("a line that is no number is graduated")
	}
	if g, ok := FindGraduation(drawLeaf(drawnSpec{1001, "black", ""}).img, 1, geom.Pt{X: 200, Y: 700}, geom.Pt{X: 800, Y: 705}); ok && g.Confidence > 0.5 {
		t.Errorf("a page of writing is surely graduated: %+v", g)
	}
}
