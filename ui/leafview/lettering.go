package leafview

import (
	"image"
	"image/color"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gomedium"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"leafmend/mendplan/geom"
)

// lettering draws short labels on device pixels. Faces and glyphs are kept,
// because labels are drawn anew for each view.
type lettering struct {
	faces map[int]*face // by size in quarter pixels
}

// face is one size of the letters.
type face struct {
	f      font.Face
	glyphs map[rune]glyph
	ascent int // above the line, pixels
	height int
}

// glyph is the coverage of one letter, its box relative to the pen.
type glyph struct {
	mask    *image.Alpha
	advance fixed.Int26_6
}

// letterFont is parsed once; the bytes are part of the program, so it cannot
// fail but by a broken build, and then labels are left out.
var letterFont, letterErr = opentype.Parse(gomedium.TTF)

// face returns the letters of a size in device pixels; nil when there are none.
func (l *lettering) face(size float64) *face {
	key := int(math.Round(size * 4))
	if f, ok := l.faces[key]; ok {
		return f
	}
	if letterErr != nil {
		return nil
	}
	f, err := opentype.NewFace(letterFont, &opentype.FaceOptions{Size: float64(key) / 4, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		return nil
	}
	if l.faces == nil {
		l.faces = map[int]*face{}
	}
	m := f.Metrics()
	l.faces[key] = &face{f: f, glyphs: map[rune]glyph{}, ascent: m.Ascent.Ceil(), height: m.Ascent.Ceil() + m.Descent.Ceil()}
	return l.faces[key]
}

// glyph returns the letter for r, or that for what the font does not have.
func (f *face) glyph(r rune) glyph {
	if g, ok := f.glyphs[r]; ok {
		return g
	}
	var g glyph
	dr, m, at, adv, ok := f.f.Glyph(fixed.Point26_6{}, r)
	g.advance = adv
	if ok && !dr.Empty() {
		g.mask = image.NewAlpha(dr)
		for y := dr.Min.Y; y < dr.Max.Y; y++ {
			for x := dr.Min.X; x < dr.Max.X; x++ {
				_, _, _, a := m.At(at.X+x-dr.Min.X, at.Y+y-dr.Min.Y).RGBA()
				g.mask.SetAlpha(x, y, color.Alpha{A: uint8(a >> 8)})
			}
		}
	}
	f.glyphs[r] = g
	return g
}

// width returns the width of words in pixels.
func (f *face) width(words string) float64 {
	sum := fixed.Int26_6(0)
	for _, r := range words {
		sum += f.glyph(r).advance
	}
	return float64(sum) / 64
}

// draw writes words with the pen starting at x on the baseline y.
func (f *face) draw(dst *image.RGBA, x, y int, words string, col color.RGBA) {
	pen := fixed.I(x)
	for _, r := range words {
		g := f.glyph(r)
		if g.mask != nil {
			drawGlyph(dst, g.mask, pen.Round(), y, col)
		}
		pen += g.advance
	}
}

func drawGlyph(dst *image.RGBA, m *image.Alpha, dx, dy int, col color.RGBA) {
	r := m.Rect.Add(image.Pt(dx, dy)).Intersect(dst.Rect)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			if a := m.AlphaAt(x-dx, y-dy).A; a > 0 {
				i := dst.PixOffset(x, y)
				blend(dst.Pix[i:i+3:i+3], col, uint32(a))
			}
		}
	}
}

// Sizes of letters, units.
const (
	labelSize = 12.0
	rulerSize = 10.0
)

// label writes words on a rounded plate with its middle at a device
// position, kept whole inside the canvas, and returns the plate.
func (c *canvas) label(at geom.Pt, words string, ink, plate color.RGBA) Rect {
	f := c.text.face(labelSize * c.px)
	b, ok := c.plate(at, words)
	if !ok {
		return Rect{}
	}
	c.box(b, 4*c.px)
	c.ink(plate, 0.88, nil)
	f.draw(c.dst, iround(b.Min.X+4*c.px), iround(b.Min.Y+1.5*c.px)+f.ascent, words, ink)
	return b
}

// plate returns where label would put its plate.
func (c *canvas) plate(at geom.Pt, words string) (Rect, bool) {
	f := c.text.face(labelSize * c.px)
	if f == nil || words == "" {
		return Rect{}, false
	}
	w, h := f.width(words)+8*c.px, float64(f.height)+3*c.px
	win := c.window()
	x := math.Min(math.Max(at.X-w/2, win.Min.X+1), math.Max(win.Max.X-w-1, 0))
	y := math.Min(math.Max(at.Y-h/2, win.Min.Y+1), math.Max(win.Max.Y-h-1, 0))
	return Rect{geom.Pt{X: x, Y: y}, geom.Pt{X: x + w, Y: y + h}}, true
}
