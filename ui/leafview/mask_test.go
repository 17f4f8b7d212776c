package leafview

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/geom"
)

// ink sums the coverage of the mask in whole pixels.
func (m *mask) ink() float64 {
	sum := 0.0
	for _, c := range m.pix {
		sum += float64(c) / 255
	}
	return sum
}

func newMask(w, h int) *mask {
	m := new(mask)
	m.resize(w, h)
	return m
}

func TestInkOfALineIsItsLengthTimesItsWidth(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		m := newMask(200, 200)
		a := geom.Pt{X: 20 + 160*rng.Float64(), Y: 20 + 160*rng.Float64()}
		b := geom.Pt{X: 20 + 160*rng.Float64(), Y: 20 + 160*rng.Float64()}
		width := 1 + 4*rng.Float64()
		m.line(a, b, width)
		want := a.Dist(b) * width // closed form: a rectangle
		if got := m.ink(); math.Abs(got-want) > 0.04*want+2 {
			t.Fatalf("line %v–%v, %.2f wide: ink %.1f, want %.1f", a, b, width, got, want)
		}
	}
}

func TestInkOfAFillIsThePolygonsArea(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 100 {
		m := newMask(220, 220)
		var ring []geom.Pt
		n := 3 + rng.IntN(20)
		for i := range n { // star-shaped about the middle, so it cannot cross itself
			r := 20 + 80*rng.Float64()
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			ring = append(ring, geom.Pt{X: 110 + r*cos, Y: 110 + r*sin})
		}
		m.fill([][]geom.Pt{ring})
		want := ringArea(ring) // closed form: the shoelace sum
		if got := m.ink(); math.Abs(got-want) > 0.01*want+8 {
			t.Fatalf("fill of %d points: ink %.1f, want %.1f", n, got, want)
		}
	}
}

func TestHolesAreLeftOutOfAFill(t *testing.T) {
	m := newMask(100, 100)
	m.fill([][]geom.Pt{square(10, 10, 90), square(30, 30, 70)})
	if got, want := m.ink(), 80.0*80-40*40; math.Abs(got-want) > 1 {
		t.Errorf("ink %.1f, want %.1f", got, want)
	}
}

func square(x, y, z float64) []geom.Pt {
	return []geom.Pt{{X: x, Y: y}, {X: z, Y: y}, {X: z, Y: z}, {X: x, Y: z}}
}

func TestMaskBearsLinesFarOutsideAndNotNumbers(t *testing.T) {
	m := newMask(50, 40)
	nan := math.NaN()
	for _, p := range [][2]geom.Pt{
		{{X: -1e12, Y: -1e12}, {X: 1e12, Y: 1e12}}, {{X: nan, Y: 0}, {X: 10, Y: 10}},
		{{X: 0, Y: 0}, {X: math.Inf(1), Y: 3}}, {{X: 5, Y: 5}, {X: 5, Y: 5}},
		{{X: 1e300, Y: 1}, {X: -1e300, Y: 2}},
	} {
		m.line(p[0], p[1], 3)
		m.fill([][]geom.Pt{{p[0], p[1], {X: 20, Y: 30}}})
		m.disc(p[0], 4)
	}
	dst := image.NewRGBA(image.Rect(0, 0, 50, 40))
	m.lay(dst, color.RGBA{255, 255, 255, 255}, 1, nil)
	if m.ink() != 0 {
		t.Error("the mask is not clean after laying on")
	}
}

func TestTranslucentLinesDoNotDarkenWhereTheyCross(t *testing.T) {
	m := newMask(60, 60)
	m.line(geom.Pt{X: 5, Y: 30}, geom.Pt{X: 55, Y: 30}, 6)
	m.line(geom.Pt{X: 30, Y: 5}, geom.Pt{X: 30, Y: 55}, 6)
	dst := image.NewRGBA(image.Rect(0, 0, 60, 60))
	fillRect(dst, dst.Rect, color.RGBA{255, 255, 255, 255})
	m.lay(dst, color.RGBA{A: 255}, 0.5, nil)
	if a, b := dst.RGBAAt(30, 30), dst.RGBAAt(15, 30); a != b {
		t.Errorf("crossing %v differs from line %v", a, b)
	}
}

func TestPatternsKeepTheirShare(t *testing.T) {
	for _, c := range []struct {
		name string
		p    pattern
		want float64
	}{
		{"hatch of 2 in 10", hatch(geom.Pt{X: 3, Y: 1}, 30, 10, 2), 0.2},
		{"dots of radius 2 in cells of 8", dots(geom.Pt{}, 8, 2), math.Pi * 4 / 64},
		{"strokes of 6×2 in cells of 12", strokes(geom.Pt{X: -5}, 12, 6, 2), 12.0 / 144},
	} {
		sum := 0.0
		for y := range 240 {
			for x := range 240 {
				sum += float64(c.p(x, y)) / 255
			}
		}
		if got := sum / 240 / 240; math.Abs(got-c.want) > 0.1*c.want {
			t.Errorf("%s: share %.4f, want %.4f", c.name, got, c.want)
		}
	}
}

func TestAHatchRunsAlongItsDirection(t *testing.T) {
	for _, deg := range []float64{0, 20, 45, 90, 135} {
		p := hatch(geom.Pt{X: 7, Y: 3}, deg, 12, 4)
		sin, cos := math.Sincos(deg * math.Pi / 180)
		along, across := 0, 0 // changes of ink on walks both ways
		for k := range 400 {
			d := float64(k) / 2
			// Counter-clockwise as seen, with y down: (cos, −sin).
			at := func(u, v float64) uint8 { return p(300+int(math.Round(u)), 300+int(math.Round(v))) }
			if int(at(d*cos, -d*sin))-int(at((d+0.5)*cos, -(d+0.5)*sin)) > 128 {
				along++
			}
			if int(at(d*sin, d*cos))-int(at((d+0.5)*sin, (d+0.5)*cos)) > 128 {
				across++
			}
		}
		if along > 2 || across < 10 {
			t.Errorf("%g°: the ink ends %d times along and %d times across", deg, along, across)
		}
	}
}
