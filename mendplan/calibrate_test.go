package mendplan_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// Pixel sizes worked from 25.4 mm to the inch; the figures are those printed
// in tables of scanning guides.
func TestResolutionGivesTheSizeOfAPixel(t *testing.T) {
	for _, c := range []struct{ ppi, mm float64 }{{150, 0.1693}, {200, 0.1270}, {300, 0.0847}, {400, 0.0635}, {600, 0.0423}, {1200, 0.0212}} {
		got := mendplan.FileCalibration(c.ppi, c.ppi, 2, "JFIF")
		if !near(got.MMPerPxX, c.mm, 0.00005) || got.MMPerPxX != got.MMPerPxY || !got.Known() {
			t.Errorf("%v ppi: %v mm per pixel, want %v", c.ppi, got.MMPerPxX, c.mm)
		}
	}
}

func TestTwoPointsOnARulerGiveScaleAndDoubt(t *testing.T) {
	// 100 mm at 300 ppi with a pixel's doubt at each end: 0.17 %.
	px := 100 / 25.4 * 300
	c, err := mendplan.CalibrateByPoints(geom.Pt{X: 50, Y: 80}, geom.Pt{X: 50, Y: 80 + px}, 100, 1)
	if err != nil || !near(c.MMPerPxY, 25.4/300, 1e-12) || !near(c.DoubtPercent, 0.17, 0.005) {
		t.Errorf("got %+v, %v", c, err)
	}
}

func TestPointsThatTellNoScaleAreRefused(t *testing.T) {
	a := geom.Pt{X: 1, Y: 1}
	for _, c := range []struct {
		name   string
		b      geom.Pt
		length float64
		ratio  float64
	}{
		{"the same point", a, 100, 1}, {"no length", geom.Pt{X: 500}, 0, 1}, {"a length below nothing", geom.Pt{X: 500}, -3, 1},
		{"no number", geom.Pt{X: 500}, math.NaN(), 1}, {"without end", geom.Pt{X: 500}, math.Inf(1), 1}, {"a point that is none", geom.Pt{X: math.NaN()}, 100, 1},
	} {
		if got, err := mendplan.CalibrateByPoints(a, c.b, c.length, c.ratio); err == nil {
			t.Errorf("%s: got %+v, want an error", c.name, got)
		}
	}
}

// A leaf of known size, laid turned on a scanner whose scales differ: the
// size must lead back to both scales.
func TestTheLeafsSizeGivesBothScalesAtAnyTurn(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 500 {
		sx, sy := 0.02+rng.Float64()*0.2, 0.0
		sy = sx * (0.95 + rng.Float64()*0.1)
		w, h := 100+rng.Float64()*300, 100+rng.Float64()*300
		turn := (rng.Float64() - 0.5) * 0.6
		sin, cos := math.Sincos(turn)
		edge := make([]geom.Pt, 4)
		for i, m := range []geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}} {
			edge[i] = geom.Pt{X: 300 + (m.X*cos-m.Y*sin)/sx, Y: 200 + (m.X*sin+m.Y*cos)/sy}
		}
		c, err := mendplan.CalibrateBySize(edge, w, h)
		if err != nil || !near(c.MMPerPxX/sx, 1, 1e-9) || !near(c.MMPerPxY/sy, 1, 1e-9) {
			t.Fatalf("turn %.2f, scales %v %v: got %v %v, %v", turn, sx, sy, c.MMPerPxX, c.MMPerPxY, err)
		}
	}
	if _, err := mendplan.CalibrateBySize(nil, 100, 100); err == nil {
		t.Error("a leaf without corners gave a scale")
	}
}
