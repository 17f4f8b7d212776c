package scan

import (
	"image"
	"image/color"
	"math/rand/v2"
	"testing"
)

// An index beyond the palette makes imaging libraries panic; here it is black.
func TestAPaletteTooShortForItsPixelsIsBlackThere(t *testing.T) {
	m := image.NewPaletted(image.Rect(0, 0, 20, 10), color.Palette{color.White, color.Gray{100}})
	for i := range m.Pix {
		m.Pix[i] = byte(i)
	}
	r := fromImage(m)
	for x, want := range []byte{255, 100, 0, 0} {
		if got, _, _ := r.at(x, 0); got != want {
			t.Errorf("at %d: got %d, want %d", x, got, want)
		}
	}
}

// subsampled makes a YCbCr picture of random values in one of the layouts.
func subsampled(r *rand.Rand, w, h int, ratio image.YCbCrSubsampleRatio) *image.YCbCr {
	m := image.NewYCbCr(image.Rect(0, 0, w, h), ratio)
	for _, p := range [][]byte{m.Y, m.Cb, m.Cr} {
		for i := range p {
			p[i] = byte(r.Uint32())
		}
	}
	return m
}

// Luma and chroma are read as the standard library reads them, to one step.
func TestLumaAndChromaAreReadAsTheStandardLibraryDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for ratio := range subsampling {
		m := subsampled(r, 37, 23, ratio)
		a := fromImage(m)
		row := make([]byte, 4*37)
		for y := range 23 {
			for x0 := range 5 {
				a.row(row, x0, y, 37-x0)
				for x := x0; x < 37; x++ {
					want := color.RGBAModel.Convert(m.YCbCrAt(x, y)).(color.RGBA)
					for i, w := range [4]byte{want.R, want.G, want.B, 255} {
						if d := int(row[4*(x-x0)+i]) - int(w); d > 1 || d < -1 {
							t.Fatalf("%v at %d,%d from %d: got %v, want %v", ratio, x, y, x0, row[4*(x-x0):][:4], want)
						}
					}
				}
			}
		}
	}
}

// turned gives where a shown pixel is stored, as TIFF 6.0 lists it for tag
// 274: which visual side the stored rows and columns begin at.
func turned(orientation, x, y, w, h int) (sx, sy int) {
	switch orientation {
	case 2: // row top, column right
		return w - 1 - x, y
	case 3: // row bottom, column right
		return w - 1 - x, h - 1 - y
	case 4: // row bottom, column left
		return x, h - 1 - y
	case 5: // row left, column top
		return y, x
	case 6: // row right, column top
		return y, w - 1 - x
	case 7: // row right, column bottom
		return h - 1 - y, w - 1 - x
	case 8: // row left, column bottom
		return h - 1 - y, x
	}
	return x, y
}

func TestEveryLayoutTurnsByEveryOrientation(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	grey := image.NewGray(image.Rect(0, 0, 37, 22))
	rgba := image.NewRGBA(grey.Rect)
	for i := range grey.Pix {
		grey.Pix[i] = byte(r.Uint32())
	}
	for i := range rgba.Pix {
		rgba.Pix[i] = byte(r.Uint32()) | 255*byte(i&3/3)
	}
	pictures := []image.Image{grey, rgba}
	for _, size := range [][2]int{{37, 22}, {36, 23}, {35, 21}} {
		for _, ratio := range []image.YCbCrSubsampleRatio{0, 1, 2, 3, 4, 5} {
			pictures = append(pictures, subsampled(r, size[0], size[1], ratio))
		}
	}
	for _, m := range pictures {
		for o := 1; o <= 8; o++ {
			a := fromImage(m)
			b := a.turn(o)
			if swap := o >= 5; swap && (b.w != a.h || b.h != a.w) || !swap && (b.w != a.w || b.h != a.h) {
				t.Fatalf("orientation %d: %d × %d became %d × %d", o, a.w, a.h, b.w, b.h)
			}
			row := make([]byte, 4*b.w)
			for y := range b.h {
				b.row(row, 0, y, b.w)
				for x := range b.w {
					// w, h of the shown picture name the side counted from
					w, h := b.w, b.h
					sx, sy := turned(o, x, y, w, h)
					r1, g1, b1 := a.at(sx, sy)
					if row[4*x] != r1 || row[4*x+1] != g1 || row[4*x+2] != b1 {
						t.Fatalf("%T, orientation %d at %d,%d: got %v, want %v", m, o, x, y, row[4*x:4*x+3], []byte{r1, g1, b1})
					}
				}
			}
		}
	}
}

// A level is the mean of the pixels it covers, to the rounding of each step.
func TestALevelIsTheMeanOfWhatItCovers(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for _, m := range []image.Image{subsampled(r, 61, 43, image.YCbCrSubsampleRatio420), subsampled(r, 61, 43, image.YCbCrSubsampleRatio444), calm(61, 43)} {
		a := fromImage(m)
		if y, ok := m.(*image.YCbCr); ok { // keep clear of clamping, where means differ
			for i := range y.Y {
				y.Y[i] = 100 + y.Y[i]/8
			}
			for i := range y.Cb {
				y.Cb[i], y.Cr[i] = 112+y.Cb[i]/8, 112+y.Cr[i]/8
			}
		}
		half := halve(a, func(n int) []byte { return make([]byte, n) })
		for y := range half.h {
			for x := range half.w {
				sum, n := 0, 0
				for _, d := range [4][2]int{{0, 0}, {1, 0}, {0, 1}, {1, 1}} {
					if sx, sy := 2*x+d[0], 2*y+d[1]; sx < a.w && sy < a.h {
						_, g, _ := a.at(sx, sy)
						sum, n = sum+int(g), n+1
					}
				}
				_, g, _ := half.at(x, y)
				if d := float64(g) - float64(sum)/float64(n); d > 1.5 || d < -1.5 {
					t.Fatalf("%T at %d,%d: got %d, want %.2f", m, x, y, g, float64(sum)/float64(n))
				}
			}
		}
	}
}

func calm(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for i := range m.Pix {
		m.Pix[i] = byte(i*7) | 255*byte(i&3/3)
	}
	return m
}
