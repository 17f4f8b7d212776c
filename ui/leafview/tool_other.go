package leafview

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// otherTool lays what the other side shows through where it belongs: a drag
// moves it, a drag with Shift turns it about the middle of the picture.
type otherTool struct {
	idle
	s    *Surface
	from geom.Pt
	by   geom.Affine // while it is dragged
	held bool        // the button is down
	on   bool        // dragged
}

func (t *otherTool) busy() bool { return t.on }

func (t *otherTool) press(p pointer) { t.from, t.held, t.on = p.at, true, false }

func (t *otherTool) drag(p pointer) {
	if !t.held {
		return
	}
	t.by = geom.Translate(p.at.Sub(t.from))
	if p.has(shift) {
		mid := t.s.whole().Centre()
		a, b := t.from.Sub(mid), p.at.Sub(mid)
		t.by = geom.RotateAbout(mid, -math.Atan2(a.Cross(b), a.Dot(b))*180/math.Pi)
	}
	if !t.on {
		t.on = true
		t.s.layers.dropStill()
	}
}

func (t *otherTool) release(pointer) {
	on := t.on
	t.held, t.on = false, false
	if on {
		t.s.layers.dropStill()
		t.s.edit(MoveOther{By: t.by})
	}
}

func (t *otherTool) cancel() bool {
	had := t.on
	t.held, t.on = false, false
	if had {
		t.s.layers.dropStill()
	}
	return had
}

// hides takes what is dragged out of the still layer.
func (t *otherTool) hides(ref int) bool {
	i, ok := t.s.index.at[ref]
	return t.on && ok && t.s.scene.Shapes[i].OtherSide
}

func (t *otherTool) hint() string { return t.s.say(hintOther) }

// draw draws the other side's outline, and while it is dragged its damages.
func (t *otherTool) draw(c *canvas) {
	by := geom.Identity()
	if t.on {
		by = t.by
	}
	moved := func(pts []geom.Pt) []geom.Pt {
		out := slices.Clone(pts)
		for i, p := range out {
			out[i] = by.Apply(p)
		}
		return out
	}
	if sc := &t.s.scene; len(sc.OtherOutline) > 2 {
		c.twoTone(moved(sc.OtherOutline), true, 1.4, toolCore, otherDash, 1)
	}
	for _, sh := range t.s.scene.Shapes {
		if !sh.OtherSide || !t.on {
			continue
		}
		g := Geometry{Points: moved(sh.Points)}
		for _, f := range sh.Forks {
			g.Forks = append(g.Forks, moved(f))
		}
		c.drawShape(g.shape(sh), false)
	}
}

// nudgeOther asks to move what the other side shows by a small step.
func (s *Surface) nudgeOther(dir geom.Pt, coarse bool) {
	s.edit(MoveOther{By: geom.Translate(dir.Mul(s.nudgeLength(coarse))), Nudged: true})
}
