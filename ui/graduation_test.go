package ui

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// A ruler drawn with a mark every 11.81 pixels: millimetres at 300 to the
// inch (25.4 mm, by definition).
func TestTheMarksOfARulerAreProposedAsAScale(t *testing.T) {
	const step = 300 / 25.4
	img := image.NewRGBA(image.Rect(0, 0, 1600, 300))
	draw.Draw(img, img.Rect, image.White, image.Point{}, draw.Src)
	for i := range 120 {
		x := 100 + step*float64(i)
		for y := 120; y < 180; y++ {
			img.SetRGBA(int(math.Round(x)), y, color.RGBA{0, 0, 0, 255})
			img.SetRGBA(int(math.Round(x))+1, y, color.RGBA{0, 0, 0, 255})
		}
	}
	path := filepath.Join(t.TempDir(), "ruler.png")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := png.Encode(f, img); err != nil {
		t.Fatal(err)
	}
	f.Close()
	w := testWindow(t)
	w.session.Do("add leaf", w.session.Job().WithLeaf(mendplan.Leaf{ID: "L1", Front: mendplan.Side{Scan: mendplan.Scan{Path: path, Width: 1600, Height: 300}}}))
	w.session.Show("L1", mendplan.Front)
	a, b := geom.Pt{X: 100, Y: 150}, geom.Pt{X: 100 + 100*step, Y: 150}
	g, ok := w.graduation(a, b)
	if !ok || math.Abs(g.Spacing/step-1) > 0.002 {
		t.Fatalf("found %+v, %v; want a mark every %.3f pixels", g, ok, step)
	}
	if _, ok := w.graduation(geom.Pt{X: 100, Y: 20}, geom.Pt{X: 1300, Y: 20}); ok {
		t.Error("marks are proposed where there are none")
	}
}
