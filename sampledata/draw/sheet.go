package draw

import (
	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/gofont/gosmallcaps"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"strings"
	"sync"
)

// Sheet is one page to print on: millimetres from its head-left corner.
// Inks are put down in the order of the calls.
type Sheet struct {
	W, H  float64
	left  float64 // of the page in the side frame
	frame frame
	inks  [2]mask // key, spot
	spot  bool
}

// print runs both pages of a side through the press.
func (l *leaf) print(f *face) {
	f.key, f.spot = newMask(f.w, f.h), newMask(f.w, f.h)
	for i, page := range f.Pages {
		if page == nil {
			continue
		}
		w := l.spec.WidthMM / 2
		page(&Sheet{W: w, H: l.spec.HeightMM, left: float64(i) * w, frame: f.frame, inks: [2]mask{f.key, f.spot}})
	}
}

// inSpot prints what follows in the second ink, and back.
func (p *Sheet) inSpot(on bool) { p.spot = on }

func (p *Sheet) ink() mask {
	if p.spot {
		return p.inks[1]
	}
	return p.inks[0]
}

func (p *Sheet) px(q Pt) Pt { return p.frame.side(Pt{q.X + p.left, q.Y}) }

func (p *Sheet) pxAll(path []Pt) []Pt {
	out := make([]Pt, len(path))
	for i, q := range path {
		out[i] = p.px(q)
	}
	return out
}

// line prints a stroke of a width in millimetres.
func (p *Sheet) line(width float64, path ...Pt) {
	p.ink().stroke(p.pxAll(path), width*p.frame.scale)
}

// solid prints the inside of rings.
func (p *Sheet) solid(rings ...[]Pt) {
	px := make([][]Pt, len(rings))
	for i, r := range rings {
		px[i] = p.pxAll(r)
	}
	p.ink().fill(px...)
}

// face of type, one of those that come with golang.org/x/image.
type typeface int

const (
	roman typeface = iota
	bold
	italic
	smallCaps
)

var faces = sync.OnceValue(func() [4]*sfnt.Font {
	var out [4]*sfnt.Font
	for i, data := range [][]byte{goregular.TTF, gobold.TTF, goitalic.TTF, gosmallcaps.TTF} {
		f, err := sfnt.Parse(data)
		if err != nil {
			panic("draw: a font of the module golang.org/x/image is damaged: " + err.Error())
		}
		out[i] = f
	}
	return out
})

// em is the size glyph outlines are read at; they are scaled afterwards.
const em = 1024

// style of lettering; size in points, tracking in per mille of the size.
type style struct {
	face     typeface
	size     float64
	tracking float64
}

const mmPerPoint = 25.4 / 72

// width of a line in millimetres.
func (s style) width(words string) float64 {
	x := 0.0
	s.walk(words, func(_ sfnt.GlyphIndex, at float64) { x = at })
	return x
}

// walk calls visit with each glyph and where it begins, and at the end once
// with glyph 0 and the width.
func (s style) walk(words string, visit func(g sfnt.GlyphIndex, at float64)) {
	f := faces()[s.face]
	var buf sfnt.Buffer
	k := s.size * mmPerPoint / em
	x, prev := 0.0, sfnt.GlyphIndex(0)
	for _, r := range words {
		g, err := f.GlyphIndex(&buf, r)
		if err != nil || g == 0 {
			continue
		}
		if prev != 0 {
			if kern, err := f.Kern(&buf, prev, g, fixed.I(em), font.HintingNone); err == nil {
				x += float64(kern) / 64 * k
			}
			x += s.tracking / 1000 * s.size * mmPerPoint
		}
		visit(g, x)
		if adv, err := f.GlyphAdvance(&buf, g, fixed.I(em), font.HintingNone); err == nil {
			x += float64(adv) / 64 * k
		}
		prev = g
	}
	visit(0, x)
}

// set prints a line; align is where x lies in it: 0 left, 0.5 middle, 1 right.
func (p *Sheet) set(s style, x, y, align float64, words string) {
	x -= align * s.width(words)
	var buf sfnt.Buffer
	s.walk(words, func(g sfnt.GlyphIndex, at float64) {
		if g == 0 {
			return
		}
		segs, err := faces()[s.face].LoadGlyph(&buf, g, fixed.I(em), nil)
		if err != nil {
			return
		}
		p.solid(outlines(segs, Pt{x + at, y}, s.size*mmPerPoint/em)...)
	})
}

// outlines turns a glyph's curves into rings.
func outlines(segs sfnt.Segments, at Pt, k float64) [][]Pt {
	var rings [][]Pt
	pt := func(q fixed.Point26_6) Pt { return at.add(Pt{float64(q.X) / 64 * k, float64(q.Y) / 64 * k}) }
	for _, s := range segs {
		last := len(rings) - 1
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			rings = append(rings, []Pt{pt(s.Args[0])})
		case sfnt.SegmentOpLineTo:
			rings[last] = append(rings[last], pt(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			a, b, c := rings[last][len(rings[last])-1], pt(s.Args[0]), pt(s.Args[1])
			rings[last] = append(rings[last], bezier(a, a.to(b, 2.0/3), c.to(b, 2.0/3), c, 5)[1:]...)
		case sfnt.SegmentOpCubeTo:
			a := rings[last][len(rings[last])-1]
			rings[last] = append(rings[last], bezier(a, pt(s.Args[0]), pt(s.Args[1]), pt(s.Args[2]), 6)[1:]...)
		}
	}
	return rings
}

// centred prints a line in the middle of the page.
func (p *Sheet) centred(s style, y float64, words string) { p.set(s, p.W/2, y, 0.5, words) }

// block prints a justified paragraph from the baseline y and returns the
// baseline after it.
func (p *Sheet) block(s style, x, y, w, leading float64, words string) float64 {
	var row []string
	room, space := 0.0, s.space()
	for _, word := range strings.Fields(words) {
		ww := s.width(word)
		if len(row) > 0 && room+space+ww > w {
			p.spread(s, x, y, w, row)
			row, room, y = nil, 0, y+leading
		}
		if len(row) > 0 {
			room += space
		}
		room += ww
		row = append(row, word)
	}
	p.set(s, x, y, 0, strings.Join(row, " "))
	return y + leading
}

// space is the width of a word space.
func (s style) space() float64 { return s.width("n n") - s.width("nn") }

// spread prints words over the whole width of a line.
func (p *Sheet) spread(s style, x, y, w float64, words []string) {
	sum := 0.0
	for _, word := range words {
		sum += s.width(word)
	}
	gap := (w - sum) / float64(max(1, len(words)-1))
	for _, word := range words {
		p.set(s, x, y, 0, word)
		x += s.width(word) + gap
	}
}
