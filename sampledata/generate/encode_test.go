package main

import (
	"bytes"
	"image"
	"image/png"
	"math/rand/v2"
	"testing"

	"golang.org/x/image/tiff"
)

// speckled is a small picture of few colours.
func speckled() *pixels {
	rng := rand.New(rand.NewPCG(7, 8))
	img := image.NewRGBA(image.Rect(0, 0, 31, 23))
	for i := 0; i < len(img.Pix); i += 4 {
		v := uint8(40 * rng.IntN(6))
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = v, v/2, 255-v, 255
	}
	return img
}

func TestAPictureOfFewColoursKeepsThem(t *testing.T) {
	img := speckled()
	small := fewColours(img)
	for i := range small.Pix {
		r, g, b, _ := small.At(i%31, i/31).RGBA()
		if uint8(r>>8) != img.Pix[4*i] || uint8(g>>8) != img.Pix[4*i+1] || uint8(b>>8) != img.Pix[4*i+2] {
			t.Fatalf("pixel %d changed its colour", i)
		}
	}
}

// The outside readers are image/png of the standard library and
// golang.org/x/image/tiff.
func TestWhatIsWrittenReadsBack(t *testing.T) {
	small := fewColours(speckled())
	asPNG, err := pngWith(small, 300)
	if err != nil {
		t.Fatal(err)
	}
	asTIFF, err := tiffWith(small, 300)
	if err != nil {
		t.Fatal(err)
	}
	fromPNG, err := png.Decode(bytes.NewReader(asPNG))
	if err != nil {
		t.Fatal(err)
	}
	fromTIFF, err := tiff.Decode(bytes.NewReader(asTIFF))
	if err != nil {
		t.Fatal(err)
	}
	for i := range small.Pix {
		x, y := i%31, i/31
		r, g, b, _ := small.At(x, y).RGBA()
		for name, img := range map[string]image.Image{"PNG": fromPNG, "TIFF": fromTIFF} {
			if cr, cg, cb, _ := img.At(x, y).RGBA(); cr != r || cg != g || cb != b {
				t.Fatalf("%s: pixel %d, %d differs", name, x, y)
			}
		}
	}
}

func TestHalfATurnTwiceIsNone(t *testing.T) {
	img := speckled()
	once := upsideDown(img)
	if bytes.Equal(once.Pix, img.Pix) {
		t.Error("half a turn changed nothing")
	}
	if !bytes.Equal(upsideDown(once).Pix, img.Pix) {
		t.Error("two half turns are not none")
	}
}
