package scan

import (
	"image"
	"image/color"
	"testing"

	"leafmend/mendplan/geom"
)

// TestTheTextMaskTellsPrintFromStainAndShadow scores the mask on drawn leaves,
// pixel by pixel, half a tenth of a millimetre of a stroke's soft rim allowed.
func TestTheTextMaskTellsPrintFromStainAndShadow(t *testing.T) {
	var said, right, want, found, stain, taken float64
	for _, s := range []drawnSpec{{3001, "black", ""}, {3002, "white", "shadow"}, {3003, "grey", "heavy"},
		{3004, "felt", "worn"}, {3005, "coloured", "target"}, {3006, "black", "lining"}} {
		d := drawLeaf(s)
		o, err := FindOutline(d.img, 1, OutlineOptions{})
		if err != nil {
			t.Fatalf("%v: %v", s, err)
		}
		m := TextMask(d.img, 1, o)
		on := newBitmap(d.img.Rect.Dx(), d.img.Rect.Dy())
		for i := range on.on {
			on.on[i] = m.At(geom.Pt{X: float64(i%on.w) + 0.5, Y: float64(i/on.w) + 0.5})
		}
		// what an edge makes of its surroundings is not counted either way
		inner := d.leaf.shrinkBy(1.5 * d.mm)
		ink, near := d.ink.grow(2), on.grow(2)
		var a, b, p, q float64
		for i, v := range inner.on {
			if !v {
				continue
			}
			if on.on[i] {
				p++
				if ink.on[i] {
					a++
				}
			}
			if d.ink.on[i] {
				q++
				if near.on[i] {
					b++
				}
			}
			if d.stained.on[i] && !ink.on[i] {
				stain++
				if on.on[i] {
					taken++
				}
			}
		}
		t.Logf("%v: precision %.3f recall %.3f", s, a/p, b/q)
		said, right, want, found = said+p, right+a, want+q, found+b
	}
	t.Logf("all: precision %.3f recall %.3f; %.4f of the stained paper taken for print", right/said, found/want, taken/stain)
	if right/said < 0.95 || found/want < 0.95 || taken/stain > 0.02 {
		t.Errorf("precision %.3f, recall %.3f, %.4f of the stained paper taken for print; want 0.95, 0.95 and at most 0.02", right/said, found/want, taken/stain)
	}
}

func TestTheMaskIsPaintedWhereItCovers(t *testing.T) {
	m := &Mask{Width: 4, Height: 4, Step: 10, on: make([]bool, 16)}
	m.on[5] = true // scan pixels 10 to 20, both ways
	red := color.RGBA{200, 0, 0, 255}
	for _, c := range []struct {
		name string
		v    View
		in   image.Rectangle
	}{
		{"at full size", View{Scale: 1}, image.Rect(10, 10, 20, 20)},
		{"twice as large and moved", View{Scale: 2, X: 5, Y: 10}, image.Rect(10, 0, 30, 20)},
		{"beyond the picture", View{Scale: 1, X: 90, Y: 90}, image.Rectangle{}},
		{"without a scale", View{}, image.Rectangle{}},
	} {
		dst := image.NewRGBA(image.Rect(0, 0, 40, 40))
		m.Paint(dst, c.v, red)
		n := 0
		for y := range 40 {
			for x := range 40 {
				if dst.RGBAAt(x, y) == (color.RGBA{}) {
					continue
				}
				n++
				if !(image.Pt(x, y).In(c.in)) {
					t.Fatalf("%s: painted at %d,%d, outside %v", c.name, x, y, c.in)
				}
			}
		}
		if a := c.in.Dx() * c.in.Dy(); n < a*3/10 || n > a*6/10 {
			t.Errorf("%s: %d of %d pixels painted, want under half", c.name, n, a)
		}
	}
	new(Mask).Paint(image.NewRGBA(image.Rect(0, 0, 4, 4)), View{Scale: 1}, red)
}
