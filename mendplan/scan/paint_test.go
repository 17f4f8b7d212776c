package scan_test

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"testing"

	"golang.org/x/image/draw"
	"golang.org/x/image/math/f64"

	"leafmend/mendplan/scan"
)

var aroundColour = color.RGBA{1, 2, 3, 255}

// Every target pixel of a moving frame shows the level's pixel its centre
// falls on, by the formula of View.
func TestMovingFramesShowTheNearestPixel(t *testing.T) {
	m := drawn(701, 503)
	p := open(t, write(t, "a.png", pngBytes(t, m)))
	r := rand.New(rand.NewPCG(11, 12))
	for range 60 {
		v := scan.View{Scale: math.Exp(r.Float64()*4 - 0.1), X: r.Float64()*900 - 150, Y: r.Float64()*700 - 150, Around: aroundColour}
		dst := image.NewRGBA(image.Rect(5, 7, 5+120, 7+90))
		p.Paint(dst, v, scan.Moving)
		for j := range 90 {
			for i := range 120 {
				x, y := v.X+(float64(i)+0.5)/v.Scale, v.Y+(float64(j)+0.5)/v.Scale
				if nearWhole(x) || nearWhole(y) {
					continue // either neighbour is right
				}
				want := aroundColour
				if x >= 0 && y >= 0 && x < 701 && y < 503 {
					want = m.RGBAAt(int(x), int(y))
				}
				if got := dst.RGBAAt(5+i, 7+j); got != want {
					t.Fatalf("%+v at %d,%d: got %v, want %v", v, i, j, got, want)
				}
			}
		}
	}
}

func nearWhole(x float64) bool { return math.Abs(x-math.Round(x)) < 1e-9 }

// Enlarged, a picture at rest is that of an independent resampler with the
// same cubic, away from its edges, where the two treat the outside apart.
func TestEnlargingAgreesWithAnotherResampler(t *testing.T) {
	m := drawn(90, 70)
	p := open(t, write(t, "a.png", pngBytes(t, m)))
	for _, v := range []scan.View{{Scale: 2.5, X: 10.3, Y: 8.8}, {Scale: 1.2, X: 4, Y: 5.5}, {Scale: 7, X: 30, Y: 30}} {
		got := image.NewRGBA(image.Rect(0, 0, 60, 50))
		want := image.NewRGBA(got.Rect)
		p.Paint(got, v, scan.Best)
		draw.CatmullRom.Transform(want, f64.Aff3{v.Scale, 0, -v.X * v.Scale, 0, v.Scale, -v.Y * v.Scale}, m, m.Rect, draw.Src, nil)
		for i := range got.Pix {
			if d := int(got.Pix[i]) - int(want.Pix[i]); d > 2 || d < -2 {
				t.Fatalf("%+v, byte %d: got %d, want %d", v, i, got.Pix[i], want.Pix[i])
			}
		}
	}
}

// Reduced, a ramp stays a ramp: the mean of what a pixel covers is the value
// at its middle (closed form).
func TestReducingKeepsARamp(t *testing.T) {
	m := image.NewGray(image.Rect(0, 0, 1000, 600))
	for y := range 600 {
		for x := range 1000 {
			m.Pix[y*m.Stride+x] = byte(x/8 + y/8)
		}
	}
	p := open(t, write(t, "a.png", pngBytes(t, m)))
	for _, s := range []float64{0.9, 0.5, 0.37, 0.2, 0.11} {
		dst := image.NewRGBA(image.Rect(0, 0, int(1000*s), int(600*s)))
		p.Paint(dst, scan.View{Scale: s}, scan.Best)
		for j := 4; j < dst.Rect.Dy()-4; j++ {
			for i := 4; i < dst.Rect.Dx()-4; i++ {
				x, y := (float64(i)+0.5)/s-0.5, (float64(j)+0.5)/s-0.5
				want := (x-3.5)/8 + (y-3.5)/8
				if got := float64(dst.RGBAAt(i, j).R); math.Abs(got-want) > 2 {
					t.Fatalf("scale %v at %d,%d: got %v, want %.2f", s, i, j, got, want)
				}
			}
		}
	}
}

func TestStrangeViewsPaintWhatIsAroundAndNothingElse(t *testing.T) {
	p := open(t, write(t, "a.png", pngBytes(t, drawn(300, 200))))
	for _, v := range []scan.View{{}, {Scale: -1}, {Scale: math.NaN()}, {Scale: math.Inf(1)}, {Scale: 1, X: math.Inf(-1)}, {Scale: 1, Y: math.NaN()},
		{Scale: 1, X: 1e18}, {Scale: 1e-12, X: 5}, {Scale: 1e12, X: -1}, {Scale: 1, X: 300}, {Scale: 1, Y: -10}} {
		for _, q := range []scan.Quality{scan.Moving, scan.Best} {
			whole := image.NewRGBA(image.Rect(0, 0, 40, 30))
			dst := whole.SubImage(image.Rect(10, 10, 20, 20)).(*image.RGBA)
			v.Around = aroundColour
			p.Paint(dst, v, q)
			if got := dst.RGBAAt(10, 10); got != aroundColour {
				t.Errorf("%+v: painted %v", v, got)
			}
			if whole.RGBAAt(9, 15) != (color.RGBA{}) || whole.RGBAAt(20, 15) != (color.RGBA{}) {
				t.Errorf("%+v: painted outside its target", v)
			}
			p.Paint(image.NewRGBA(image.Rectangle{}), v, q)
		}
	}
}

func TestFitShowsAllOfThePictureInTheMiddle(t *testing.T) {
	v := scan.Fit(image.Rect(0, 0, 1000, 2000), 300, 400)
	if v.Scale != 0.2 || v.X != -250 || v.Y != 0 {
		t.Errorf("got %+v, want scale 0.2 from -250, 0", v)
	}
}

func TestAThumbnailKeepsProportions(t *testing.T) {
	p := open(t, write(t, "a.jpg", jpegBytes(t, drawn(700, 350), 90)))
	if got := p.Thumbnail(100).Bounds(); got != image.Rect(0, 0, 100, 50) {
		t.Errorf("got %v", got)
	}
	small := open(t, write(t, "b.jpg", jpegBytes(t, drawn(20, 10), 90)))
	if got := small.Thumbnail(100).Bounds(); got != image.Rect(0, 0, 20, 10) {
		t.Errorf("a small picture is not enlarged: got %v", got)
	}
}

func TestARegionIsCutToItsLevel(t *testing.T) {
	m := drawn(700, 350)
	p := open(t, write(t, "a.png", pngBytes(t, m)))
	got := p.Region(image.Rect(690, 340, 900, 900), 0)
	if got.Rect != image.Rect(690, 340, 700, 350) || got.RGBAAt(695, 345) != m.RGBAAt(695, 345) {
		t.Errorf("got %v", got.Rect)
	}
	if got := p.Region(image.Rect(0, 0, 10, 10), 99).Rect; got != image.Rect(0, 0, 10, 10) {
		t.Errorf("a level too high is the last: got %v", got)
	}
	if got := p.Region(image.Rect(-50, -50, -10, -10), 0); !got.Rect.Empty() {
		t.Errorf("outside: got %v", got.Rect)
	}
}
