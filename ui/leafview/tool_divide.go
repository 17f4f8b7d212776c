package leafview

import (
	"leafmend/mendplan/geom"
)

// divideTool makes two damages of one at the place pressed.
type divideTool struct {
	idle
	s *Surface
}

func (t *divideTool) hint() string { return t.s.say(hintDivide) }

// target returns the open shape under the pointer and the place on it.
func (t *divideTool) target(p pointer) (Shape, spot, bool) {
	ref, ok := t.s.shapeAt(p.dev)
	sh, found := t.s.scene.shape(ref)
	if !ok || !found || sh.Closed {
		return Shape{}, spot{}, false
	}
	at, on := nearestSpot(sh, p.at)
	return sh, at, on && at.dist*t.s.view.Scale <= lineReach*t.s.px
}

func (t *divideTool) press(p pointer) {
	sh, at, ok := t.target(p)
	if !ok {
		return
	}
	if first, second, ok := divided(sh, at); ok {
		t.s.edit(Divide{Ref: sh.Ref, First: first, Second: second})
	}
}

// draw shows where a press would cut, as a stroke across the line.
func (t *divideTool) draw(c *canvas) {
	sh, at, ok := t.target(t.s.hand.last)
	if !ok || !t.s.hand.inside && !t.s.keys.cursorOn {
		return
	}
	line := sh.paths()[at.path]
	dir := line[min(at.seg+1, len(line)-1)].Sub(line[at.seg]).Unit()
	across := geom.Pt{X: -dir.Y, Y: dir.X}.Mul(11 * c.px)
	mid := c.view.ToDevice(at.at)
	c.mask.line(mid.Sub(across), mid.Add(across), 5*c.px)
	c.ink(casingColour, 1, nil)
	c.mask.line(mid.Sub(across), mid.Add(across), 2.4*c.px)
	c.ink(grabbed, 1, nil)
}

// CanJoin reports whether the chosen damages are two open ones of one kind.
func (s *Surface) CanJoin() bool {
	_, _, ok := s.toJoin()
	return ok
}

func (s *Surface) toJoin() (a, b Shape, ok bool) {
	if len(s.selected) != 2 {
		return a, b, false
	}
	a, okA := s.scene.shape(s.selected[0])
	b, okB := s.scene.shape(s.selected[1])
	ok = okA && okB && a.Kind == b.Kind && !a.Closed && !b.Closed && !a.OtherSide && !b.OtherSide
	return a, b, ok && len(a.Points) > 0 && len(b.Points) > 0
}

// JoinSelected asks to join the two chosen damages at the nearest of their
// ends; false when they are not two open ones of one kind.
func (s *Surface) JoinSelected() bool {
	a, b, ok := s.toJoin()
	if ok {
		s.edit(Join{Keep: joinedAtEnds(a, b), Gone: b.Ref})
	}
	return ok
}
