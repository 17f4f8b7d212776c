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
	dst   *image.RGBA
	mask  *mask
	view  View
	px    float64 // device pixels per unit
	look  Look
	text  *lettering
	hasty bool      // the view is moving: draw less
	buf   []geom.Pt // device points of the line being drawn
	cut   [][]geom.Pt
}

// newCanvas returns a canvas for a picture, with a mask that may be shared by
// canvases that draw one after the other.
func newCanvas(dst *image.RGBA, m *mask, view View, px float64, look Look, text *lettering) *canvas {
	m.resize(dst.Rect.Dx(), dst.Rect.Dy())
	return &canvas{dst: dst, mask: m, view: view, px: px, look: look, text: text}
}

// window returns the canvas's own box in device pixels.
func (c *canvas) window() Rect {
	return Rect{Max: geom.Pt{X: float64(c.dst.Rect.Dx()), Y: float64(c.dst.Rect.Dy())}}
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
	if d == nil || c.hasty {
		c.mask.blunt = c.hasty
		c.mask.polyline(dev, closed, u*c.px)
		c.mask.blunt = false
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

// dashed adds the inked parts of a device line to the mask.
func (c *canvas) dashed(dev []geom.Pt, closed bool, width float64, d dash) {
	k, left, on := 0, d[0]*c.px, true
	window := c.window().Grow(width)
	for i := range segments(dev, closed) {
		a, b := dev[i], dev[(i+1)%len(dev)]
		if !RectOf(a, b).Meets(window) {
			continue // unseen: where the dashes resume does not matter
		}
		if p, q, ok := clip(a, b, window.Grow(64*c.px)); ok {
			a, b = p, q
		}
		long := a.Dist(b)
		for at := 0.0; at < long; {
			step := math.Min(left, long-at)
			if on {
				p, q := a.Lerp(b, at/long), a.Lerp(b, (at+step)/long)
				c.mask.line(p, q, width)
			}
			at += step
			if left -= step; left <= 1e-9 {
				k = (k + 1) % len(d)
				left, on = math.Max(d[k]*c.px, 0.25), !on
			}
		}
	}
}

// comb adds short ticks across a line, every so many units.
func (c *canvas) comb(pts []geom.Pt, u, every, reach float64) {
	dev := c.device(pts)
	gap, rest := every*c.px, every*c.px/2
	for i := range segments(dev, false) {
		a, b := dev[i], dev[i+1]
		if !RectOf(a, b).Meets(c.window()) {
			continue
		}
		dir := b.Sub(a).Unit()
		across := geom.Pt{X: -dir.Y, Y: dir.X}.Mul(reach * c.px)
		long := a.Dist(b)
		for ; rest < long; rest += gap {
			p := a.Add(dir.Mul(rest))
			c.mask.line(p.Sub(across), p.Add(across), u*c.px)
		}
		rest -= long
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
