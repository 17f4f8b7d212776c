package leafview

import "leafmend/mendplan/geom"

// GripKind says what a grip looks like.
type GripKind int

// Kinds of grip.
const (
	MarginGrip GripKind = iota // a diamond on the edge of a piece
	BreakGrip                  // a bar across a line, with a knob beside it: set by hand
	JointGrip                  // the same, hollow: as planned
)

// Grip is a handle that the owner of the scene offers beside the points of
// what is chosen: it is dragged, or dropped by a double press, and the owner
// says what that means.
type Grip struct {
	ID   string
	Kind GripKind
	At   geom.Pt // scan pixels
	// Along is the direction of the line a bar lies across; for a margin the
	// direction in which it is drawn outward. Scan pixels, any length.
	Along geom.Pt
}

// GripShown is what the owner shows while a grip is dragged.
type GripShown struct {
	At    geom.Pt     // where the grip goes
	Words string      // beside it, such as "margin 7.5 mm"
	Rings [][]geom.Pt // outlines that would come of it, scan pixels
}

// MoveGrip asks for what the owner showed for a grip at a place.
type MoveGrip struct {
	ID string
	At geom.Pt
}

// DropGrip asks to go back to what holds without the grip.
type DropGrip struct{ ID string }

// Label implements [Edit].
func (MoveGrip) Label() string { return "drag measure" }

// Label implements [Edit].
func (DropGrip) Label() string { return "drop own measure" }

// knobOff is how far the knob of a bar lies off its line, units, so that it
// never lies on a point of the line.
const knobOff = 20.0

// knob returns where a grip is taken hold of, device pixels.
func (g Grip) knob(v View, px float64) geom.Pt {
	at, along := v.ToDevice(g.At), g.Along.Unit()
	if g.Kind == MarginGrip {
		return at
	}
	return at.Add(geom.Pt{X: -along.Y, Y: along.X}.Mul(knobOff * px))
}

// gripUnder returns the place in Scene.Grips of the grip under the pointer;
// −1 for none.
func (s *Surface) gripUnder(dev geom.Pt) int {
	best, at := pointReach*s.px, -1
	for i, g := range s.scene.Grips {
		if d := g.knob(s.view, s.px).Dist(dev); d < best {
			best, at = d, i
		}
	}
	return at
}

// dragGrip asks the owner what a grip at the pointer would come to.
func (t *selectTool) dragGrip(p pointer) {
	if t.s.OnGrip != nil {
		t.shown = t.s.OnGrip(t.grip.ID, p.at.Sub(t.off))
		t.pulled = true
	}
}

// dropGrip goes back on a double press; false when none is there.
func (t *selectTool) dropGrip(p pointer) bool {
	i := t.s.gripUnder(p.dev)
	if i < 0 {
		return false
	}
	t.armed = gripNone
	t.s.edit(DropGrip{ID: t.s.scene.Grips[i].ID})
	return true
}

// drawGrips draws the grips, and what comes of the one that is dragged.
func (t *selectTool) drawGrips(c *canvas) {
	if t.now != nil {
		return
	}
	hot := t.s.gripUnder(t.s.hand.last.dev)
	for i, g := range t.s.scene.Grips {
		if t.pulled && g.ID == t.grip.ID {
			continue
		}
		c.grip(g, i == hot && t.s.hand.inside)
	}
	if !t.pulled {
		return
	}
	for _, r := range t.shown.Rings {
		c.twoTone(r, true, 1.6, tissueStrong, dash{6, 3}, 1)
	}
	g := t.grip
	g.At = t.shown.At
	c.grip(g, true)
	c.label(c.view.ToDevice(g.At).Add(geom.Pt{X: 0, Y: -24 * c.px}), t.shown.Words, white, casingColour)
}

// grip draws one grip, in its own shape.
func (c *canvas) grip(g Grip, hot bool) {
	at, along := c.view.ToDevice(g.At), g.Along.Unit()
	across := geom.Pt{X: -along.Y, Y: along.X}
	core, half := tissueStrong, c.look.HandleSize*0.75*c.px
	if hot {
		core, half = grabbed, half*1.3
	}
	if g.Kind == MarginGrip {
		diamond := func(r float64) []geom.Pt {
			return []geom.Pt{at.Add(along.Mul(r)), at.Add(across.Mul(r)), at.Sub(along.Mul(r)), at.Sub(across.Mul(r))}
		}
		c.mask.fill([][]geom.Pt{diamond(half + 1.8*c.px)})
		c.ink(casingColour, 1, nil)
		c.mask.fill([][]geom.Pt{diamond(half)})
		c.ink(core, 1, nil)
		return
	}
	a, knob := at.Sub(across.Mul(9*c.px)), g.knob(c.view, c.px)
	c.mask.line(a, knob, 5*c.px)
	c.mask.disc(knob, half*0.9+1.6*c.px)
	c.ink(casingColour, 1, nil)
	c.mask.line(a, knob, 2*c.px)
	c.mask.disc(knob, half*0.9)
	c.ink(core, 1, nil)
	if g.Kind == JointGrip { // as planned: hollow
		c.mask.disc(knob, half*0.9-1.4*c.px)
		c.ink(casingColour, 1, nil)
	}
}
