package scan_test

import (
	"bytes"
	"context"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"

	"leafmend/mendplan/scan"
)

// drawn is a picture whose every pixel tells its place.
func drawn(w, h int) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			m.SetRGBA(x, y, color.RGBA{byte(x * 255 / max(1, w-1)), byte(y * 255 / max(1, h-1)), byte(128 + 64*(x/16%2)), 255})
		}
	}
	return m
}

func pngBytes(t testing.TB, m image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, m); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func jpegBytes(t testing.TB, m image.Image, quality int) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, m, &jpeg.Options{Quality: quality}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func write(t testing.TB, name string, p []byte) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, p, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func open(t testing.TB, path string) *scan.Picture {
	t.Helper()
	p, err := scan.Open(context.Background(), path, scan.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(p.Close)
	return p
}

func TestAPictureOpensWithItsPixels(t *testing.T) {
	m := drawn(301, 203)
	p := open(t, write(t, "a.png", pngBytes(t, m)))
	got := p.Region(p.Bounds(), 0)
	if !bytes.Equal(got.Pix, m.Pix) {
		t.Error("the pixels differ from those written")
	}
	if n := p.NumLevels(); n != 2 {
		t.Errorf("levels: got %d, want 2", n)
	}
	if l := p.Level(1); l != (scan.Level{Width: 151, Height: 102, Per: 2}) {
		t.Errorf("level 1: got %+v", l)
	}
}

func TestPaintingAtScaleOneCopiesPixels(t *testing.T) {
	m := drawn(301, 203)
	p := open(t, write(t, "a.png", pngBytes(t, m)))
	for _, q := range []scan.Quality{scan.Moving, scan.Best} {
		dst := image.NewRGBA(image.Rect(0, 0, 100, 80))
		p.Paint(dst, scan.View{Scale: 1, X: -10, Y: 20, Around: color.RGBA{1, 2, 3, 255}}, q)
		for y := range 80 {
			for x := range 100 {
				want := color.RGBA{1, 2, 3, 255}
				if x >= 10 {
					want = m.RGBAAt(x-10, y+20)
				}
				if got := dst.RGBAAt(x, y); got != want {
					t.Fatalf("quality %d at %d,%d: got %v, want %v", q, x, y, got, want)
				}
			}
		}
	}
}
