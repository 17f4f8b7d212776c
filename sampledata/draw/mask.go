package draw

import (
	"image"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// mask says for each pixel of a scan how much of it is covered, 0 to 255.
type mask struct{ *image.Alpha }

func newMask(w, h int) mask { return mask{image.NewAlpha(image.Rect(0, 0, w, h))} }

// fill covers the inside of the rings, in pixels. Rings of one call must turn
// the same way to add up; a ring turning the other way cuts a hole.
func (m mask) fill(rings ...[]Pt) {
	lo, hi := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, r := range rings {
		for _, p := range r {
			lo = Pt{min(lo.X, p.X), min(lo.Y, p.Y)}
			hi = Pt{max(hi.X, p.X), max(hi.Y, p.Y)}
		}
	}
	box := image.Rect(int(math.Floor(lo.X)), int(math.Floor(lo.Y)), int(math.Ceil(hi.X))+1, int(math.Ceil(hi.Y))+1)
	box = box.Intersect(m.Rect)
	if box.Empty() {
		return
	}
	z := vector.NewRasterizer(box.Dx(), box.Dy())
	at := func(p Pt) (float32, float32) {
		x := max(-1e4, min(1e6, p.X-float64(box.Min.X)))
		y := max(-1e4, min(1e6, p.Y-float64(box.Min.Y)))
		return float32(x), float32(y)
	}
	for _, r := range rings {
		if len(r) < 3 {
			continue
		}
		z.MoveTo(at(r[0]))
		for _, p := range r[1:] {
			z.LineTo(at(p))
		}
		z.ClosePath()
	}
	z.DrawOp = draw.Over
	z.Draw(m.Alpha, box, image.Opaque, image.Point{})
}

// stroke covers a line of the width along the path, round at ends and bends;
// all in pixels.
func (m mask) stroke(path []Pt, width float64) {
	if len(path) < 2 {
		return
	}
	r := width / 2
	sides := max(6, min(24, int(4*r)))
	rings := make([][]Pt, 0, 2*len(path))
	for i, p := range path {
		if i > 0 {
			a := path[i-1]
			n := p.sub(a).unit().left().times(r)
			rings = append(rings, []Pt{a.add(n), p.add(n), p.sub(n), a.sub(n)})
		}
		if width < 1.2 {
			continue // joins of hairlines show as beads, not as joins
		}
		dot := make([]Pt, sides)
		for k := range dot {
			dot[k] = p.add(polar(r, -360*float64(k)/float64(sides)))
		}
		rings = append(rings, dot)
	}
	m.fill(rings...)
}

// disc covers a round spot, in pixels.
func (m mask) disc(centre Pt, r float64) { m.fill(arc(centre, r, 0, 356)) }

// add raises one pixel's cover, staying within 255.
func (m mask) add(x, y int, a float64) {
	if !(image.Point{x, y}.In(m.Rect)) || a <= 0 {
		return
	}
	i := m.PixOffset(x, y)
	m.Pix[i] = uint8(min(255, float64(m.Pix[i])+a*255))
}

// splat adds a spot given in leaf millimetres: strength is asked for every
// pixel within reach of the centre.
func (m mask) splat(f frame, centre Pt, reach float64, strength func(p Pt) float64) {
	c := f.leaf(centre)
	r := reach * f.scale
	for y := int(c.Y - r); y <= int(c.Y+r); y++ {
		for x := int(c.X - r); x <= int(c.X+r); x++ {
			if (image.Point{x, y}.In(m.Rect)) {
				m.add(x, y, strength(f.toLeaf(Pt{float64(x) + 0.5, float64(y) + 0.5})))
			}
		}
	}
}

// blurred returns the mask blurred twice by a box of the radius, in pixels,
// which comes near a bell curve.
func (m mask) blurred(radius int) mask {
	if radius < 1 {
		return m
	}
	a, b := newMask(m.Rect.Dx(), m.Rect.Dy()), newMask(m.Rect.Dx(), m.Rect.Dy())
	w, h := m.Rect.Dx(), m.Rect.Dy()
	src := m
	for range 2 {
		for y := range h {
			slide(src.Pix[y*src.Stride:], a.Pix[y*a.Stride:], w, 1, radius)
		}
		for x := range w {
			slide(a.Pix[x:], b.Pix[x:], h, a.Stride, radius)
		}
		src = b
	}
	return b
}

// slide averages n values, step apart, over 2·radius+1 neighbours.
func slide(src, dst []uint8, n, step, radius int) {
	sum := 0
	for i := -radius; i <= radius; i++ {
		sum += int(src[max(0, min(n-1, i))*step])
	}
	for i := range n {
		dst[i*step] = uint8(sum / (2*radius + 1))
		sum += int(src[min(n-1, i+radius+1)*step]) - int(src[max(0, i-radius)*step])
	}
}
