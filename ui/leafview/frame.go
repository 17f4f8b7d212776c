package leafview

import (
	"image"
	"image/color"
	"time"

	"leafmend/mendplan/geom"
)

// layers keeps painted pixels between frames. Each layer is the one below
// with more drawn on it; a frame starts from the highest that still holds.
type layers struct {
	base  *image.RGBA // surround and picture
	still *image.RGBA // and the scene
	out   *image.RGBA // and what is in hand: what the toolkit is given
	thumb *image.RGBA // the overview

	baseOK, stillOK, thumbOK bool
	best                     bool // base is, or is to be, painted at the finest
	view                     View // of base and still
	drawn                    drawn
	stale                    []image.Rectangle // parts of still that show nothing yet
	zooming                  bool              // still shows the sample, stretched
	sample                   *image.RGBA       // the last frame before the view began to zoom
	sampleView               View
	band                     image.Rectangle // part to be painted at the finest next
	bandNo                   int             // its number
	shade                    shader
	mask, small              mask
	text                     lettering
}

// dropAll has everything painted anew; dropView what another view makes
// another, keeping what can be slid; dropStill what of the scene is another.
func (l *layers) dropAll() {
	l.dropView()
	l.thumbOK, l.drawn, l.zooming, l.band = false, drawn{}, false, image.Rectangle{}
}
func (l *layers) dropView()  { l.baseOK, l.stillOK, l.best = false, false, false }
func (l *layers) dropStill() { l.stillOK, l.thumbOK = false, false }

// settleAfter is how long the view must stand still before it is painted at
// the finest.
const settleAfter = 100 * time.Millisecond

// settleLater arranges for a fine painting once the view stands still.
func (s *Surface) settleLater() {
	if s.stopSettle != nil {
		s.stopSettle()
	}
	s.stopSettle = s.after(settleAfter, func() {
		s.moving = false
		switch {
		case s.layers.best:
		case s.crowded() && s.filter.Local == 0:
			s.sharpen(0)
		default:
			s.layers.dropView()
			s.layers.best = true
			s.redraw()
		}
	})
	s.moving = s.stopSettle != nil
}

// crowdedFrom is how many damages and pieces make a scene that is not drawn
// anew for each frame of a zoom; see zoomed.
const crowdedFrom = 300

// frame paints one frame of w×h device pixels. The result is the surface's
// own buffer, tightly packed from (0,0), as the toolkit wants it.
func (s *Surface) frame(w, h int) image.Image {
	if w <= 0 || h <= 0 {
		return image.NewRGBA(image.Rect(0, 0, 1, 1))
	}
	s.setDevice(w, h)
	l := &s.layers
	if l.out == nil || l.out.Rect.Dx() != w || l.out.Rect.Dy() != h {
		r := image.Rect(0, 0, w, h)
		l.base, l.still, l.out = image.NewRGBA(r), image.NewRGBA(r), image.NewRGBA(r)
		l.dropAll()
	}
	s.paintBand()
	if !s.zoomed() {
		s.paintPicture()
		if !l.stillOK {
			s.paintStill()
		}
	}
	if s.keys.hide {
		copy(l.out.Pix, l.base.Pix)
		return l.out
	}
	copy(l.out.Pix, l.still.Pix)
	s.drawInHand(s.canvas(l.out))
	return l.out
}

// canvas returns a canvas on a layer of the whole window.
func (s *Surface) canvas(dst *image.RGBA) *canvas {
	return newCanvas(dst, &s.layers.mask, s.view, s.px, s.look, &s.layers.text)
}

// paintBase paints surround and picture, as the filter shows it.
func (s *Surface) paintBase(dst *image.RGBA, v View, best bool) {
	ground := s.look.around()
	fillRect(dst, dst.Rect, ground)
	if s.picture == nil {
		return
	}
	w, h := s.picture.Size()
	r := pictureRect(w, h, v)
	rim := r.Inset(-max(1, iround(s.px)))
	fillRect(dst, rim.Intersect(dst.Rect), rimColour(ground))
	s.picture.Paint(dst, v, best)
	s.layers.shade.apply(dst, r.Intersect(dst.Rect), s.filter, v.Scale)
	if s.overlay != nil {
		s.overlay(dst, v)
	}
}

// rimColour is a line's breadth of darker surround about the picture, so that
// its edge is seen on paper of the surround's own shade.
func rimColour(c color.RGBA) color.RGBA {
	return color.RGBA{c.R / 2, c.G / 2, c.B / 2, 255}
}

// drawInHand draws what changes from frame to frame.
func (s *Surface) drawInHand(c *canvas) {
	s.tool.draw(c)
	s.drawSnap(c)
	s.drawMark(c)
	if s.keys.loupe && (s.hand.inside || s.keys.cursorOn) {
		s.drawLoupe(c)
	}
	if s.look.Rulers {
		drawRulers(c, s.scene.Frame, s.hand.last.dev, s.hand.inside)
	}
	s.drawOverview(c)
	if s.keys.focused {
		c.frameBox(c.window().Grow(-c.px), 2*c.px)
		c.ink(c.look.focus(), 1, nil)
	}
}

// drawSnap shows the reach of snapping, what a new point would hold on to,
// and the cursor that arrow keys lead.
func (s *Surface) drawSnap(c *canvas) {
	p := s.hand.last
	if s.keys.cursorOn {
		arm := 14 * c.px
		for _, w := range []float64{3.4, 1.4} {
			c.mask.line(p.dev.Sub(geom.Pt{X: arm}), p.dev.Add(geom.Pt{X: arm}), w*c.px)
			c.mask.line(p.dev.Sub(geom.Pt{Y: arm}), p.dev.Add(geom.Pt{Y: arm}), w*c.px)
			c.ink(map[bool]color.RGBA{true: casingColour, false: white}[w > 2], 1, nil)
		}
	}
	if !s.tool.snaps() || !s.hand.inside && !s.keys.cursorOn || !s.habits.Snap || p.mods&ctrl != 0 {
		return
	}
	if p.snap.kind == snapNone {
		// A dark and a light ring: one of them is seen on any ground.
		c.mask.ring(p.dev, (s.habits.SnapRadius+1.2)*c.px, 1.2*c.px)
		c.ink(white, 0.55, nil)
		c.mask.ring(p.dev, s.habits.SnapRadius*c.px, 1.2*c.px)
		c.ink(casingColour, 0.55, nil)
		return
	}
	at := c.view.ToDevice(p.snap.at)
	c.mask.ring(at, 8*c.px, 4.2*c.px)
	c.ink(casingColour, 1, nil)
	c.mask.ring(at, 7*c.px, 2*c.px)
	c.ink(snapColour, 1, nil)
	if p.snap.kind >= snapVertex { // points also get a cross
		for _, d := range []geom.Pt{{X: 4, Y: 4}, {X: 4, Y: -4}} {
			c.mask.line(at.Sub(d.Mul(c.px)), at.Add(d.Mul(c.px)), 1.6*c.px)
		}
		c.ink(snapColour, 1, nil)
	}
}
