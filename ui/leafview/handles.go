package leafview

import (
	"image/color"
	"slices"

	"leafmend/mendplan/geom"
)

// Handles are drawn and found by constant size on the screen. Where points
// lie closer than that, only those near the pointer get one.
const (
	ghostRoom  = 44.0 // a stretch must be so long to carry a plus, units
	ghostReach = 9.0
	crowd      = 7.0  // nearer neighbours are a crowd, units
	nearby     = 70.0 // of the pointer, units
)

// ghostAt returns the stretch of a chosen shape whose middle is under the
// pointer, as the point it begins with.
func (t *selectTool) ghostAt(p pointer) (pointRef, bool) {
	v := t.s.view
	for _, sh := range t.chosen() {
		for k, line := range sh.paths() {
			for i := range segments(line, sh.Closed && k == 0) {
				a, b := v.ToDevice(line[i]), v.ToDevice(line[(i+1)%len(line)])
				if a.Dist(b) >= ghostRoom*t.s.px && a.Lerp(b, 0.5).Dist(p.dev) <= ghostReach*t.s.px {
					return pointRef{sh.Ref, k, i}, true
				}
			}
		}
	}
	return pointRef{}, false
}

// ghostPos returns the middle of a stretch.
func (t *selectTool) ghostPos(g pointRef) geom.Pt {
	sh, _ := t.s.scene.shape(g.ref)
	line := sh.paths()[g.path]
	return line[g.i].Lerp(line[(g.i+1)%len(line)], 0.5)
}

// draw draws the handles of what is chosen, what is under the pointer, and
// what is being moved.
func (t *selectTool) draw(c *canvas) {
	s := t.s
	if sh, ok := s.scene.shape(t.hotShape); ok && t.now == nil {
		for k, line := range sh.paths() {
			c.line(line, sh.Closed && k == 0, c.look.LineWidth*2.4, nil)
		}
		c.ink(white, 0.5, nil)
	}
	if len(t.now) > manyInHand {
		t.drawMany(c)
		return
	}
	for _, sh := range t.chosen() {
		if i := slices.IndexFunc(t.now, func(g Geometry) bool { return g.Ref == sh.Ref }); i >= 0 {
			sh = t.now[i].shape(sh)
			c.drawShape(sh, true)
		}
		t.drawHandles(c, sh)
	}
	t.drawGrips(c)
	if t.armed == gripBox && s.hand.moved {
		c.rubber(RectOf(t.from, t.boxTo))
	}
}

// manyInHand is how many damages may be dragged with all that belongs to them;
// of more only the lines are drawn until they are let go.
const manyInHand = 60

// drawMany draws the lines of many dragged damages, all in one ink.
func (t *selectTool) drawMany(c *canvas) {
	if t.armed == gripShape {
		at, ok := t.stamp.has(c, t.by)
		if !ok {
			t.stamp.draw(c, t.chosen(), t.by)
			at, _ = t.stamp.has(c, t.by)
		}
		t.stamp.mask.layAt(c.dst, at, grabbed)
		return
	}
	for _, g := range t.now {
		sh := g.shape(t.s.scene.Shapes[t.s.index.at[g.Ref]])
		if !(Rect{c.view.ToDevice(sh.bounds().Min), c.view.ToDevice(sh.bounds().Max)}).Meets(c.window()) {
			continue
		}
		for k, line := range sh.paths() {
			c.line(line, sh.Closed && k == 0, 1, nil)
		}
	}
	c.ink(grabbed, 1, nil)
}

// drawHandles draws a shape's points and the plus in the middle of its
// longer stretches.
func (t *selectTool) drawHandles(c *canvas, sh Shape) {
	window := c.window().Grow(20 * c.px)
	for k, line := range sh.paths() {
		n := len(line)
		for i, p := range line {
			at := c.view.ToDevice(p)
			if !window.Holds(at) {
				continue
			}
			next := c.view.ToDevice(line[(i+1)%n])
			if t.now == nil && i < segments(line, sh.Closed && k == 0) && at.Dist(next) >= ghostRoom*c.px {
				c.plus(at.Lerp(next, 0.5), t.hotGhost == pointRef{sh.Ref, k, i})
			}
			pt := pointRef{sh.Ref, k, i}
			hot := pt == t.hotPoint || t.armed == gripPoints && slices.Contains(t.s.points, pt)
			chosen := slices.Contains(t.s.points, pt)
			crowded := i > 0 && at.Dist(c.view.ToDevice(line[i-1])) < crowd*c.px && i < n-1
			if !crowded || hot || chosen || at.Dist(t.s.hand.last.dev) < nearby*c.px {
				c.handle(at, hot, chosen)
			}
		}
	}
}

// handle draws the handle of a point: a square, filled when it is chosen,
// larger and in another colour when it is under the pointer or held.
func (c *canvas) handle(at geom.Pt, hot, chosen bool) {
	half := c.look.HandleSize / 2 * c.px
	if hot {
		half *= 1.35
	}
	square := func(d float64) Rect { return Rect{at, at}.Grow(half + d) }
	c.box(square(1.2*c.px), 0)
	c.ink(casingColour, 1, nil)
	c.box(square(-0.6*c.px), 0)
	c.ink(map[bool]color.RGBA{true: grabbed, false: white}[hot], 1, nil)
	if !chosen {
		c.box(square(-2.2*c.px), 0)
		c.ink(casingColour, 0.75, nil)
	}
}

// plus draws the place where a point can be added.
func (c *canvas) plus(at geom.Pt, hot bool) {
	arm, ink := 3.6*c.px, white
	if hot {
		arm, ink = 6*c.px, grabbed
	}
	for _, w := range []float64{3.6, 1.5} {
		c.mask.line(at.Sub(geom.Pt{X: arm}), at.Add(geom.Pt{X: arm}), w*c.px)
		c.mask.line(at.Sub(geom.Pt{Y: arm}), at.Add(geom.Pt{Y: arm}), w*c.px)
		if w > 2 {
			c.ink(casingColour, 1, nil)
		} else {
			c.ink(ink, 1, nil)
		}
	}
}
