package leafview

import (
	"image"
	"image/color"
	"testing"
)

// flat returns a picture of one colour.
func flat(w, h int, c color.RGBA) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	fillRect(img, img.Rect, c)
	return img
}

func TestFilters(t *testing.T) {
	ground := color.RGBA{200, 100, 50, 255}
	for _, c := range []struct {
		name string
		f    Filter
		ok   func(p color.RGBA) bool
	}{
		{"the zero filter changes nothing", Filter{}, func(p color.RGBA) bool { return p == ground }},
		{"red alone", Filter{Channel: Red}, func(p color.RGBA) bool { return p == color.RGBA{200, 200, 200, 255} }},
		{"blue alone", Filter{Channel: Blue}, func(p color.RGBA) bool { return p == color.RGBA{50, 50, 50, 255} }},
		// 0.299·200 + 0.587·100 + 0.114·50 = 124.2, the weights of ITU-R BT.601
		{"grey", Filter{Channel: Grey}, func(p color.RGBA) bool { return p == color.RGBA{124, 124, 124, 255} }},
		{"brighter", Filter{Brightness: 0.2}, func(p color.RGBA) bool { return p.R > 200 && p.G > 100 && p.B > 50 }},
		{"more contrast spreads", Filter{Contrast: 0.4}, func(p color.RGBA) bool { return p.R > 200 && p.B < 50 }},
		{"less contrast draws together", Filter{Contrast: -0.4}, func(p color.RGBA) bool { return p.R < 200 && p.B > 50 }},
		{"local contrast leaves what is even", Filter{Local: 1}, func(p color.RGBA) bool { return p == ground }},
		{"beyond the bounds is bounded", Filter{Brightness: 9, Contrast: 9, Local: 9}, func(p color.RGBA) bool { return p.A == 255 }},
	} {
		img := flat(40, 30, ground)
		new(shader).apply(img, image.Rect(5, 5, 35, 25), c.f, 1)
		if p := img.RGBAAt(20, 15); !c.ok(p) {
			t.Errorf("%s: %v becomes %v", c.name, ground, p)
		}
		if p := img.RGBAAt(2, 2); p != ground {
			t.Errorf("%s: %v outside the part became %v", c.name, ground, p)
		}
	}
}

func TestLocalContrastBringsOutAFaintTear(t *testing.T) {
	img := flat(120, 120, color.RGBA{200, 195, 185, 255})
	for y := range 120 { // four levels darker, hardly to be seen
		img.SetRGBA(60, y, color.RGBA{196, 191, 181, 255})
	}
	new(shader).apply(img, img.Rect, Filter{Local: 1}, 1)
	line, paper := img.RGBAAt(60, 60), img.RGBAAt(30, 60)
	if d := int(paper.R) - int(line.R); d < 16 {
		t.Errorf("the line is %d levels darker than the paper, want at least 16", d)
	}
}

func TestSurroundingsAreTheMeanOfTheirBox(t *testing.T) {
	const w, h, reach = 23, 17, 3
	l, b := make([]int32, w*h), make([]int32, w*h)
	for i := range l {
		l[i] = int32(i * 37 % 251)
	}
	boxRows(l, b, w, h, reach)
	boxColumns(b, w, h, reach)
	for y := range h {
		for x := range w { // slow and obvious
			sum, n := 0.0, 0.0
			for v := max(0, y-reach); v <= min(h-1, y+reach); v++ {
				for u := max(0, x-reach); u <= min(w-1, x+reach); u++ {
					sum, n = sum+float64(l[v*w+u]), n+1
				}
			}
			if d := float64(b[y*w+x])/16 - sum/n; d > 0.2 || d < -0.2 {
				t.Fatalf("at %d,%d: %g, want %g", x, y, float64(b[y*w+x])/16, sum/n)
			}
		}
	}
}
