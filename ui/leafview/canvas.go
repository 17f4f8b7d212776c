package leafview

import (
	"image"
	"image/color"
	"math"

	"leafmend/mendplan/geom"
)

// canvas is what layers and tools draw on: device pixels seen through a view.
// Lengths named u are units of the toolkit.
type canvas struct {
	dst  *image.RGBA
	mask *mask
	view View
	px   float64 // device pixels per unit
	look Look
	text *lettering
	buf  []geom.Pt // device points of the line being drawn
	cut  [][]geom.Pt
}

// newCanvas returns a canvas for a picture, with a mask that may be shared by
// canvases that draw one after the other.
func newCanvas(dst *image.RGBA, m *mask, view View, px float64, look Look, text *lettering) *canvas {
	m.resize(dst.Rect.Dx(), dst.Rect.Dy())
	return &canvas{dst: dst, mask: m, view: view, px: px, look: look, text: text}
}

// window returns the box of the whole canvas in device pixels.
func (c *canvas) window() Rect {
	return Rect{Max: geom.Pt{X: float64(c.mask.w), Y: float64(c.mask.h)}}
}

// within returns the canvas that draws only on the part r of it, and there
// the very pixels that the whole would get. Only one canvas of a mask can be
// drawn on at a time.
func (c *canvas) within(r image.Rectangle) *canvas {
	part := *c
	part.dst = c.dst.SubImage(r).(*image.RGBA)
	part.mask.clipTo(r)
	return &part
}

// sight returns what of the window is drawn on, in scan pixels, grown by u
// units.
func (c *canvas) sight(u float64) Rect {
	m := c.mask.seen
	return RectOf(c.view.ToScan(m.Min), c.view.ToScan(m.Max)).Grow(u * c.px / c.view.Scale)
}

// device maps a line to device pixels, leaving out points that could not be
// told apart; the result is good until the next call.
func (c *canvas) device(pts []geom.Pt) []geom.Pt {
	c.buf = c.buf[:0]
	for i, p := range pts {
		q := c.view.ToDevice(p)
		if n := len(c.buf); n > 0 && i < len(pts)-1 {
			if d := q.Sub(c.buf[n-1]); math.Abs(d.X)+math.Abs(d.Y) < 1 {
				continue
			}
		}
		c.buf = append(c.buf, q)
	}
	return c.buf
}

// line adds a line in scan pixels to the mask.
func (c *canvas) line(pts []geom.Pt, closed bool, u float64, d dash) {
	dev := c.device(pts)
	if d == nil {
		c.mask.polyline(dev, closed, u*c.px)
		return
	}
	c.dashed(dev, closed, u*c.px, d)
}

// ink lays the mask on in a colour.
func (c *canvas) ink(col color.RGBA, opacity float64, p pattern) { c.mask.lay(c.dst, col, opacity, p) }

// inkKeep is ink that keeps what is in the mask for a second colour.
func (c *canvas) inkKeep(col color.RGBA, opacity float64, p pattern) {
	c.mask.layKeep(c.dst, col, opacity, p)
}

// twoTone draws one line with casing and core, its pattern in the core.
func (c *canvas) twoTone(pts []geom.Pt, closed bool, u float64, core color.RGBA, d dash, opacity float64) {
	c.line(pts, closed, c.casing(u), nil)
	c.ink(casingColour, opacity*casingOpacity, nil)
	c.line(pts, closed, u, d)
	c.ink(core, opacity, nil)
}

// casing returns the width of the casing of a line.
func (c *canvas) casing(u float64) float64 {
	if c.look.HighContrast {
		return u + 3.2
	}
	return u + 2.2
}

// anchor is where patterns hold on to the scan.
func (c *canvas) anchor() geom.Pt { return c.view.Offset }

// dash is lengths of ink and gap by turns, in units.
type dash []float64

// dashed adds the inked parts of a device line to the mask. Where a dash lies
// follows from the length of the line up to it, seen or not, so that dashes
// stand still while the view slides.
func (c *canvas) dashed(dev []geom.Pt, closed bool, width float64, d dash) {
	period := 0.0
	for _, l := range d {
		period += math.Max(l*c.px, 0.25)
	}
	window := c.window().Grow(width)
	run := 0.0
	for i := range segments(dev, closed) {
		a, b := dev[i], dev[(i+1)%len(dev)]
		start := run
		run += a.Dist(b)
		p, q, ok := clip(a, b, window.Grow(64*c.px))
		if !ok || c.mask.outside(RectOf(p, q), width+1) {
			continue
		}
		c.dashes(p, q, math.Mod(start+a.Dist(p), period), width, d)
	}
}

// dashes adds the inked parts of one stretch that begins so far within the
// pattern.
func (c *canvas) dashes(a, b geom.Pt, into, width float64, d dash) {
	k, left := 0, math.Max(d[0]*c.px, 0.25)
	for into >= left && k < len(d)-1 {
		into -= left
		k++
		left = math.Max(d[k]*c.px, 0.25)
	}
	left = math.Max(left-into, 1e-9)
	long := a.Dist(b)
	for at := 0.0; at < long; {
		step := math.Min(left, long-at)
		if k%2 == 0 {
			c.mask.line(a.Lerp(b, at/long), a.Lerp(b, (at+step)/long), width)
		}
		at += step
		if left -= step; left <= 1e-9 {
			k = (k + 1) % len(d)
			left = math.Max(d[k]*c.px, 0.25)
		}
	}
}

// comb adds short ticks across a line, every so many units.
func (c *canvas) comb(pts []geom.Pt, u, every, reach float64) {
	dev := c.device(pts)
	gap, run := every*c.px, every*c.px/2
	for i := range segments(dev, false) {
		a, b := dev[i], dev[i+1]
		long := a.Dist(b)
		first := math.Mod(gap-math.Mod(run, gap), gap) // from a to its first tick
		run += long
		if c.mask.outside(RectOf(a, b), (reach+u)*c.px) || long > 1e6 {
			continue
		}
		dir := b.Sub(a).Unit()
		across := geom.Pt{X: -dir.Y, Y: dir.X}.Mul(reach * c.px)
		for at := first; at < long; at += gap {
			p := a.Add(dir.Mul(at))
			c.mask.line(p.Sub(across), p.Add(across), u*c.px)
		}
	}
}

// area adds the inside of rings in scan pixels to the mask, even-odd.
func (c *canvas) area(rings ...[]geom.Pt) {
	c.cut = c.cut[:0]
	for _, r := range rings {
		dev := make([]geom.Pt, len(r))
		for i, p := range r {
			dev[i] = c.view.ToDevice(p)
		}
		c.cut = append(c.cut, dev)
	}
	c.mask.fill(c.cut)
}

// box adds a device rectangle to the mask, with corners rounded by r.
func (c *canvas) box(b Rect, r float64) {
	r = math.Min(r, math.Min(b.W(), b.H())/2)
	if r <= 0 {
		c.mask.fill([][]geom.Pt{{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}})
		return
	}
	var pts []geom.Pt
	centres := [4]geom.Pt{{X: b.Max.X - r, Y: b.Min.Y + r}, {X: b.Max.X - r, Y: b.Max.Y - r},
		{X: b.Min.X + r, Y: b.Max.Y - r}, {X: b.Min.X + r, Y: b.Min.Y + r}}
	for q, m := range centres {
		for k := range 5 {
			sin, cos := math.Sincos((float64(q-1) + float64(k)/4) * math.Pi / 2)
			pts = append(pts, geom.Pt{X: m.X + r*cos, Y: m.Y + r*sin})
		}
	}
	c.mask.fill([][]geom.Pt{pts})
}

// frameBox adds the border of a device rectangle to the mask.
func (c *canvas) frameBox(b Rect, width float64) {
	c.mask.polyline([]geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}, true, width)
}
