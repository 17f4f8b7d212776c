package leafview

import (
	"cmp"
	"image/color"
	"math"
	"slices"
)

// drawScene draws everything of the scene that no tool has in hand. All
// casings go down before any core, so lines that meet look joined and dark
// ground never covers a light line.
func (s *Surface) drawScene(c *canvas, d drawn) {
	if c.look.Grid {
		drawGrid(c, s.scene.Frame)
	}
	drawLeafEdges(c, &s.scene, s.toolID)
	if c.look.Pieces {
		s.drawPieces(c)
	}
	s.drawProposals(c)
	seen := s.seen(c)
	s.drawRingFills(c, seen)
	s.drawShapes(c, seen)
	c.drawLabels(d.labels)
}

// seen lists the places in Scene.Shapes of what is to be drawn: in sight and
// in no tool's hand.
func (s *Surface) seen(c *canvas) []int {
	sight := c.sight(20)
	out := make([]int, 0, len(s.scene.Shapes))
	for i, sh := range s.scene.Shapes {
		if len(sh.Points) == 0 || !s.index.boxes[i].Meets(sight) || s.tool.hides(sh.Ref) {
			continue
		}
		if sh.OtherSide && !c.look.OtherSide {
			continue
		}
		out = append(out, i)
	}
	return out
}

// inkOf groups shapes that are laid on in one colour and strength.
type inkOf struct {
	colour  color.RGBA
	opacity float64
}

// compare puts inks in an order that does not depend on what is in sight, so
// that a part drawn anew looks as the whole would.
func (k inkOf) compare(o inkOf) int {
	return cmp.Or(cmp.Compare(k.opacity, o.opacity), cmp.Compare(k.colour.R, o.colour.R),
		cmp.Compare(k.colour.G, o.colour.G), cmp.Compare(k.colour.B, o.colour.B))
}

// drawShapes draws the lines of the shapes seen: casings, then cores by
// colour; the chosen last and brightest.
func (s *Surface) drawShapes(c *canvas, seen []int) {
	for _, chosen := range []bool{false, true} {
		var order []inkOf
		groups := map[inkOf][]int{}
		for _, i := range seen {
			sh := s.scene.Shapes[i]
			if s.isSelected(sh.Ref) != chosen {
				continue
			}
			k := c.inkFor(sh)
			if _, ok := groups[k]; !ok {
				order = append(order, k)
			}
			groups[k] = append(groups[k], i)
		}
		slices.SortFunc(order, inkOf.compare)
		for _, k := range order {
			for _, i := range groups[k] {
				c.casingOf(s.scene.Shapes[i], chosen)
			}
			c.ink(casingColour, k.opacity*casingOpacity, nil)
		}
		for _, k := range order {
			for _, i := range groups[k] {
				c.coreOf(s.scene.Shapes[i], chosen)
			}
			c.ink(k.colour, k.opacity, nil)
		}
	}
}

// inkFor returns the colour and strength of a shape's core.
func (c *canvas) inkFor(sh Shape) inkOf {
	k := inkOf{c.look.colour(sh.Kind), c.look.Opacity}
	switch {
	case c.look.HighContrast:
	case sh.Faint:
		k.opacity *= 0.4
	case sh.OtherSide:
		k.opacity *= 0.7
	}
	return k
}

// coreWidth returns the width of a shape's core in units.
func (c *canvas) coreWidth(sh Shape, chosen bool) float64 {
	switch {
	case chosen:
		return c.look.LineWidth * 1.4
	case sh.OtherSide || sh.Faint:
		return c.look.LineWidth * 0.8
	}
	return c.look.LineWidth
}

// combReach is how far the teeth of a nicked edge's line reach, units.
const combReach = 5.0

// casingOf adds the casing of a shape to the mask.
func (c *canvas) casingOf(sh Shape, chosen bool) {
	u := c.casing(c.coreWidth(sh, chosen))
	if chosen {
		u += 1.2
	}
	for i, line := range sh.paths() {
		c.line(line, sh.Closed && i == 0, u, nil)
	}
	if sh.Kind == Nicks {
		c.comb(sh.Points, u, 12, combReach)
	}
}

// coreOf adds the core of a shape to the mask, in its kind's pattern.
func (c *canvas) coreOf(sh Shape, chosen bool) {
	u, d := c.coreWidth(sh, chosen), patternOf(sh.Kind)
	if sh.OtherSide {
		d = otherDash
	}
	for i, line := range sh.paths() {
		c.line(line, sh.Closed && i == 0, u, d)
	}
	if sh.Kind == Nicks {
		c.comb(sh.Points, u, 12, combReach-0.6)
	}
}

// drawShape draws one shape by itself, for tools that have it in hand.
func (c *canvas) drawShape(sh Shape, chosen bool) {
	c.fillOf(sh)
	k := c.inkFor(sh)
	c.casingOf(sh, chosen)
	c.ink(casingColour, k.opacity*casingOpacity, nil)
	c.coreOf(sh, chosen)
	c.ink(k.colour, k.opacity, nil)
}

// drawRingFills marks the inside of rings by pattern. Rings of one kind and
// strength are laid on together.
func (s *Surface) drawRingFills(c *canvas, seen []int) {
	for _, k := range []Kind{Loss, Hole, Rust, Weak} {
		for _, faint := range []bool{true, false} {
			any := false
			for _, i := range seen {
				if sh := s.scene.Shapes[i]; sh.Kind == k && sh.Faint == faint && c.fillSeen(sh) {
					c.area(sh.Points)
					any = true
				}
			}
			if any {
				c.inkFill(k, faint)
			}
		}
	}
}

// fillOf marks the inside of one shape.
func (c *canvas) fillOf(sh Shape) {
	if c.fillSeen(sh) {
		c.area(sh.Points)
		c.inkFill(sh.Kind, sh.Faint)
	}
}

// fillSeen reports whether the inside of a shape has a pattern, and is large
// enough for it to be seen.
func (c *canvas) fillSeen(sh Shape) bool {
	if !sh.Closed || sh.OtherSide || !sh.Kind.filled() {
		return false
	}
	b := sh.bounds()
	return math.Max(b.W(), b.H())*c.view.Scale >= 6*c.px
}

// filled reports whether the inside of a ring of this kind has a pattern.
func (k Kind) filled() bool { return k == Loss || k == Hole || k == Rust || k == Weak }

// inkFill lays the areas in the mask on as the inside of a kind: dots for a
// loss, strokes for a weak area, dark and light together so that they read on
// any paper.
func (c *canvas) inkFill(k Kind, faint bool) {
	opacity := 0.75 * c.look.Opacity
	if faint {
		opacity *= 0.4
	}
	a, p := c.anchor(), c.px
	dark, light := dots(a, 9*p, 1.7*p), dots(a, 9*p, 0.9*p)
	if k == Weak {
		dark, light = strokes(a, 14*p, 7*p, 2.8*p), strokes(a, 14*p, 5.6*p, 1.3*p)
	}
	c.inkKeep(casingColour, opacity, dark)
	c.ink(c.look.colour(k), opacity, light)
}
