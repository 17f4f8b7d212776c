package leafview

import (
	"math"
	"strconv"

	"leafmend/mendplan/geom"
)

// inch is the international inch in millimetres, exact by definition
// (international yard and pound agreement, 1959).
const inch = 25.4

// rulerWidth is the width of the rulers, units.
const rulerWidth = 18.0

// gridStep returns the smallest round step, in millimetres, that is at least
// least device pixels at per device pixels a millimetre: 1, 2, 5 and their
// tenfolds, or inches halved down to sixteenths and multiplied up.
func gridStep(per, least float64, inches bool) float64 {
	if !(per > 0) {
		return 0
	}
	want := least / per
	if inches {
		for _, s := range []float64{1. / 16, 1. / 8, 1. / 4, 1. / 2, 1, 2, 5, 10, 20, 50} {
			if s*inch >= want {
				return s * inch
			}
		}
		return 100 * inch
	}
	ten := math.Pow(10, math.Floor(math.Log10(want)))
	for _, k := range []float64{1, 2, 5, 10} {
		// The sliver keeps a step that is just met from being passed over.
		if k*ten >= want*(1-1e-9) {
			return k * ten
		}
	}
	return 10 * ten
}

// drawGrid draws lines a round number of millimetres apart over all that is
// seen, along the axes of the side frame.
func drawGrid(c *canvas, f Frame) {
	if !f.Known() {
		return
	}
	step := gridStep(f.PxPerMM()*c.view.Scale, 28*c.px, c.look.Inches)
	win := c.window()
	v := c.view.Visible(win.Max.X, win.Max.Y)
	mm := RectOf(f.ToMM(v.Min), f.ToMM(v.Max), f.ToMM(geom.Pt{X: v.Min.X, Y: v.Max.Y}), f.ToMM(geom.Pt{X: v.Max.X, Y: v.Min.Y}))
	if step == 0 || mm.W()/step > 4000 || mm.H()/step > 4000 {
		return
	}
	lines := func(u float64) {
		for x := math.Ceil(mm.Min.X/step) * step; x <= mm.Max.X; x += step {
			c.line([]geom.Pt{f.ToScan(geom.Pt{X: x, Y: mm.Min.Y}), f.ToScan(geom.Pt{X: x, Y: mm.Max.Y})}, false, u, nil)
		}
		for y := math.Ceil(mm.Min.Y/step) * step; y <= mm.Max.Y; y += step {
			c.line([]geom.Pt{f.ToScan(geom.Pt{X: mm.Min.X, Y: y}), f.ToScan(geom.Pt{X: mm.Max.X, Y: y})}, false, u, nil)
		}
	}
	lines(1.4)
	c.ink(white, 0.25, nil)
	lines(0.7)
	c.ink(casingColour, 0.35, nil)
}

// scaleOf returns how the side frame's millimetres run along a device line
// through the middle of the window: value at its start and per device pixel.
// Of the frame's two axes it takes the one that runs along the line.
func scaleOf(c *canvas, f Frame, upright bool) (start, per float64) {
	win := c.window()
	a, b := geom.Pt{Y: win.Max.Y / 2}, geom.Pt{X: 1, Y: win.Max.Y / 2}
	if upright {
		a, b = geom.Pt{X: win.Max.X / 2}, geom.Pt{X: win.Max.X / 2, Y: 1}
	}
	m0, m1 := f.ToMM(c.view.ToScan(a)), f.ToMM(c.view.ToScan(b))
	d := m1.Sub(m0)
	if math.Abs(d.X) >= math.Abs(d.Y) {
		return m0.X, d.X
	}
	return m0.Y, d.Y
}

// drawRulers draws a ruler along the top and one along the left, and on them
// where the pointer is.
func drawRulers(c *canvas, f Frame, at geom.Pt, inside bool) {
	if !f.Known() {
		return
	}
	win, w := c.window(), math.Round(rulerWidth*c.px)
	ink, ground := casingColour, lightAround
	if c.look.Dark {
		ink, ground = white, darkAround
	}
	c.box(Rect{Max: geom.Pt{X: win.Max.X, Y: w}}, 0)
	c.box(Rect{geom.Pt{Y: w}, geom.Pt{X: w, Y: win.Max.Y}}, 0)
	c.ink(ground, 0.92, nil)
	for _, upright := range []bool{false, true} {
		long := win.Max.X
		if upright {
			long = win.Max.Y
		}
		c.ticks(f, upright, w, long)
	}
	c.ink(ink, 0.8, nil)
	c.numbers(f, w)
	if inside {
		c.mask.line(geom.Pt{X: at.X}, geom.Pt{X: at.X, Y: w}, 2*c.px)
		c.mask.line(geom.Pt{Y: at.Y}, geom.Pt{X: w, Y: at.Y}, 2*c.px)
		c.ink(grabbed, 1, nil)
	}
	c.box(Rect{Max: geom.Pt{X: w, Y: w}}, 0)
	c.ink(ground, 1, nil)
	if face := c.text.face(rulerSize * 0.9 * c.px); face != nil {
		words := "mm"
		if c.look.Inches {
			words = "in"
		}
		face.draw(c.dst, iround((w-face.width(words))/2), iround(w/2)+face.ascent/3, words, ink)
	}
}

// rulerSteps returns the distances of numbered and of small ticks, in mm.
func (c *canvas) rulerSteps(per float64) (big, small float64) {
	per = 1 / math.Abs(per)
	return gridStep(per, 46*c.px, c.look.Inches), gridStep(per, 5*c.px, c.look.Inches)
}

// ticks adds the ticks of one ruler to the mask.
func (c *canvas) ticks(f Frame, upright bool, w, long float64) {
	start, per := scaleOf(c, f, upright)
	if per == 0 {
		return
	}
	big, small := c.rulerSteps(per)
	each(start, per, small, long, func(pos, mm float64) {
		reach := 0.25 * w
		pos = math.Floor(pos) + 0.5 // whole pixels: sharp ticks
		if k := mm / big; math.Abs(k-math.Round(k)) < 1e-6 {
			reach = 0.6 * w
		}
		if upright {
			c.mask.line(geom.Pt{X: w - reach, Y: pos}, geom.Pt{X: w, Y: pos}, c.px)
		} else {
			c.mask.line(geom.Pt{X: pos, Y: w - reach}, geom.Pt{X: pos, Y: w}, c.px)
		}
	})
}

// each calls do for every multiple of step along a device line of the given
// length; start and per say how millimetres run along it.
func each(start, per, step, long float64, do func(pos, mm float64)) {
	a, b := start, start+per*long
	if a > b {
		a, b = b, a
	}
	if step <= 0 || (b-a)/step > 10000 {
		return
	}
	for k := math.Ceil(a / step); k*step <= b; k++ {
		do((k*step-start)/per, k*step)
	}
}

// numbers writes the numbers of both rulers: along the top beside their
// ticks, down the left above them.
func (c *canvas) numbers(f Frame, w float64) {
	face := c.text.face(rulerSize * 0.9 * c.px)
	if face == nil {
		return
	}
	ink := casingColour
	if c.look.Dark {
		ink = white
	}
	win := c.window()
	for _, upright := range []bool{false, true} {
		start, per := scaleOf(c, f, upright)
		if per == 0 {
			continue
		}
		big, _ := c.rulerSteps(per)
		long := win.Max.X
		if upright {
			long = win.Max.Y
		}
		each(start, per, big, long, func(pos, mm float64) {
			words := c.rulerWords(mm)
			if upright {
				face.draw(c.dst, iround(2*c.px), iround(pos-2*c.px), words, ink)
			} else {
				face.draw(c.dst, iround(pos+3*c.px), face.ascent, words, ink)
			}
		})
	}
}

// rulerWords writes a position on a ruler.
func (c *canvas) rulerWords(mm float64) string {
	if c.look.Inches {
		mm /= inch
	}
	return c.look.number(strconv.FormatFloat(math.Round(mm*1e4)/1e4+0, 'f', -1, 64)) // +0 turns −0 into 0
}
