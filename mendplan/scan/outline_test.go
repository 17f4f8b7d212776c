package scan

import (
	"errors"
	"image"
	"image/color"
	"image/draw"
	"math"
	"reflect"
	"testing"

	"leafmend/mendplan/geom"
)

// A few of the drawn leaves whose table TestManyDrawnLeavesTable prints; the
// truth comes from the drawing, the limits are the ones asked of real scans.
func TestDrawnLeaves(t *testing.T) {
	var all tally
	for i, s := range []drawnSpec{
		{1001, "black", ""}, {1009, "white", "target"}, {1017, "grey", "sheet"},
		{1027, "felt", "shadow"}, {1032, "coloured", "lining"}, {1007, "black", "heavy"},
	} {
		got := scoreLeaf(drawLeaf(s))
		if got.iou < 0.97 {
			t.Errorf("leaf %d on %s backing (%s): outline IoU is %.3f, want 0.97", i, s.backing, s.extra, got.iou)
		}
		all = all.plus(got)
	}
	if all.precision() < 0.8 || all.recall() < 0.8 {
		t.Errorf("losses: precision %.2f and recall %.2f, want 0.8 of both", all.precision(), all.recall())
	}
	if px, cov := all.tearPx/all.tears, all.covered/all.tears; px > 3 || cov < 0.9 {
		t.Errorf("tears: %.2f px off and %.2f covered, want at most 3 px and 0.9", px, cov)
	}
	if all.turn > 0.6 {
		t.Errorf("rotation is off by %.2f°, want at most 0.6°", all.turn)
	}
}

// plainLeaf is a light rectangle on a dark ground: its outline is known by
// construction.
func plainLeaf(w, h int, leaf image.Rectangle) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(img, img.Rect, image.NewUniform(color.RGBA{20, 20, 22, 255}), image.Point{}, draw.Src)
	draw.Draw(img, leaf, image.NewUniform(color.RGBA{228, 214, 190, 255}), image.Point{}, draw.Src)
	return img
}

func TestAPlainRectangleIsFoundToThePixel(t *testing.T) {
	img := plainLeaf(300, 400, image.Rect(40, 60, 250, 350))
	o, err := FindOutline(img, 4, OutlineOptions{})
	if err != nil {
		t.Fatal(err)
	}
	want := [4]geom.Pt{{X: 160, Y: 240}, {X: 1000, Y: 240}, {X: 1000, Y: 1400}, {X: 160, Y: 1400}}
	for i, p := range o.TrueEdge {
		if p.Dist(want[i]) > 4 {
			t.Errorf("corner %d of the true edge is at %v, want %v within one pixel of the level", i, p, want[i])
		}
	}
	if a := geom.Ring(o.Polygon).SignedArea(); math.Abs(a-840*1160) > 0.01*840*1160 {
		t.Errorf("the outline's area is %.0f, want %d, positive being clockwise as seen", a, 840*1160)
	}
	if o.Backing != "dark" || math.Abs(o.RotationDeg) > 0.1 {
		t.Errorf("backing %q turned by %v°, want dark and 0", o.Backing, o.RotationDeg)
	}
	if p := ProposeLosses(img, 4, o, LossOptions{}); len(p) != 0 {
		t.Errorf("a whole leaf has %d proposals, want none: %+v", len(p), p[0])
	}
}

func TestAPictureWithoutALeafSaysSo(t *testing.T) {
	for name, img := range map[string]*image.RGBA{
		"one colour": plainLeaf(200, 200, image.Rectangle{}), "empty": image.NewRGBA(image.Rectangle{}),
		"one pixel": plainLeaf(1, 1, image.Rectangle{}), "all leaf": plainLeaf(200, 200, image.Rect(0, 0, 200, 200)),
	} {
		if o, err := FindOutline(img, 1, OutlineOptions{}); !errors.Is(err, ErrNoLeaf) {
			t.Errorf("%s: outline %v and error %v, want ErrNoLeaf", name, o, err)
		}
	}
	if _, err := FindOutline(plainLeaf(200, 200, image.Rect(50, 50, 150, 150)), math.NaN(), OutlineOptions{}); err == nil {
		t.Error("a scale that is no number was taken")
	}
}

func TestTheSamePictureGivesTheSameAnswer(t *testing.T) {
	d := drawLeaf(drawnSpec{1002, "black", "target"})
	a, _ := FindOutline(d.img, 1, OutlineOptions{})
	b, _ := FindOutline(d.img, 1, OutlineOptions{})
	if !reflect.DeepEqual(a, b) {
		t.Error("two outlines of one picture differ")
	}
	la, lb := ProposeLosses(d.img, 1, a, LossOptions{}), ProposeLosses(d.img, 1, a, LossOptions{})
	if !reflect.DeepEqual(la, lb) {
		t.Error("two sets of proposals of one picture differ")
	}
}

func TestContourAndRasterAreInverse(t *testing.T) {
	d := drawLeaf(drawnSpec{3, "grey", ""})
	m := d.leaf.keepLargest().fillHoles()
	back := rasterise(leafRing(m), m.w, m.h, 1)
	diff := 0
	for i := range m.on {
		if m.on[i] != back.on[i] {
			diff++
		}
	}
	// the contour cuts corners at edge middles: half a pixel per turn at most
	if diff > len(leafRing(m))/2 {
		t.Errorf("%d pixels differ after tracing and filling again", diff)
	}
}

// The distances are checked against the definition, pixel by pixel.
func TestDistancesMatchTheDefinition(t *testing.T) {
	m := newBitmap(23, 17)
	for _, i := range []int{5, 40, 41, 200, 390} {
		m.on[i] = true
	}
	for i, v := range m.sqDist() {
		want := math.Inf(1)
		for j, on := range m.on {
			if on {
				dx, dy := float64(i%23-j%23), float64(i/23-j/23)
				want = min(want, dx*dx+dy*dy)
			}
		}
		if float64(v) != want {
			t.Fatalf("pixel %d is %v from the set, want %v", i, v, want)
		}
	}
}

// CIELAB values of sRGB colours, D65, as published with the ColorChecker's
// and the CSS Color 4 sample conversions.
func TestLabOfKnownColours(t *testing.T) {
	for _, c := range []struct{ r, g, b, l, a, bb float32 }{
		{255, 255, 255, 100, 0, 0}, {0, 0, 0, 0, 0, 0}, {255, 0, 0, 53.24, 80.09, 67.20},
		{0, 128, 0, 46.23, -51.70, 49.90}, {0, 0, 255, 32.30, 79.19, -107.86}, {128, 128, 128, 53.59, 0, 0},
	} {
		l, a, b := labTable().lab(c.r, c.g, c.b)
		if (lab{l, a, b}).dist(lab{c.l, c.a, c.bb}) > 0.4 {
			t.Errorf("sRGB %v %v %v is L*a*b* %.2f %.2f %.2f, want %.2f %.2f %.2f", c.r, c.g, c.b, l, a, b, c.l, c.a, c.bb)
		}
	}
}

func FuzzOutlineOfTinyPictures(f *testing.F) {
	f.Add(uint8(9), uint8(12), []byte("leafleafleaf"))
	f.Add(uint8(1), uint8(30), []byte{0})
	f.Add(uint8(31), uint8(31), []byte{255, 0, 255, 0, 1})
	f.Fuzz(func(t *testing.T, w, h uint8, px []byte) {
		img := image.NewRGBA(image.Rect(0, 0, int(w%48), int(h%48)))
		for i := range img.Pix {
			if len(px) > 0 {
				img.Pix[i] = px[(i/3)%len(px)] ^ byte(i/97)
			}
		}
		o, err := FindOutline(img, 1, OutlineOptions{})
		if err == nil && len(o.Polygon) < 3 {
			t.Fatal("an outline of fewer than three points without an error")
		}
		for _, p := range append(o.Polygon, o.TrueEdge[:]...) {
			if !p.Finite() {
				t.Fatal("a place that is no number")
			}
		}
		ProposeLosses(img, 1, o, LossOptions{PxPerMM: 1})
		TextMask(img, 1, o)
		Follow(img, []geom.Pt{{X: 1, Y: 2}, {X: float64(w), Y: -3}}, FollowOptions{})
		FindGraduation(img, 1, geom.Pt{}, geom.Pt{X: 60, Y: 3})
	})
}
