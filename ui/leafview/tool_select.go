package leafview

import (
	"slices"

	"leafmend/mendplan/geom"
)

// selectTool chooses damages and changes their points.
type selectTool struct {
	idle
	s      *Surface
	armed  grip // what a drag would do
	from   geom.Pt
	now    []Geometry   // courses while they are dragged; of many whole ones, where the drag began
	held   map[int]bool // the damages of now
	by     geom.Pt      // how far whole damages were dragged
	stamp  stamp        // of many
	boxTo  geom.Pt
	onRing bool // the box was begun inside a damage, which a mere press chooses

	grip   Grip      // that is held
	shown  GripShown // what comes of it
	pulled bool      // it was dragged
	off    geom.Pt   // of the press from where the grip stands

	hotPoint pointRef // under the pointer; ref 0 for none
	hotGhost pointRef // stretch whose plus is under the pointer
	hotShape int
}

// grip is what a press has taken hold of.
type grip int

const (
	gripNone grip = iota
	gripPoints
	gripGhost // the plus in the middle of a stretch
	gripShape
	gripBox
	gripOwn // of the owner's; see Grip
)

func (t *selectTool) busy() bool {
	return t.now != nil || t.pulled || t.armed == gripBox && t.s.hand.moved
}

// snaps: only a single point that is being moved holds on to things.
func (t *selectTool) snaps() bool {
	return t.now != nil && (t.armed == gripPoints && len(t.s.points) == 1 || t.armed == gripGhost)
}

// hides leaves out of the still layer what is being dragged.
func (t *selectTool) hides(ref int) bool {
	return t.now != nil && t.held[ref]
}

func (t *selectTool) press(p pointer) {
	s := t.s
	t.from, t.armed = p.at, gripNone
	if pt, ok := s.pointAt(p.dev); ok {
		t.pressPoint(pt, p.has(shift))
		return
	}
	if i := s.gripUnder(p.dev); i >= 0 {
		t.armed, t.grip, t.pulled = gripOwn, s.scene.Grips[i], false
		t.off = p.at.Sub(t.grip.At)
		return
	}
	if _, ok := t.ghostAt(p); ok {
		t.hotGhost, _ = t.ghostAt(p)
		t.armed = gripGhost
		return
	}
	s.points = nil
	if ref, ok := s.shapeAt(p.dev); ok {
		t.pressShape(ref, p)
		return
	}
	t.pressGround(p)
}

// pressPoint chooses a point; with Shift one more, or one less.
func (t *selectTool) pressPoint(pt pointRef, more bool) {
	s := t.s
	switch i := slices.Index(s.points, pt); {
	case more && i >= 0:
		s.points = slices.Delete(slices.Clone(s.points), i, i+1)
		return
	case more:
		s.points = append(slices.Clone(s.points), pt)
	case i < 0:
		s.points = []pointRef{pt}
	}
	t.armed = gripPoints
}

// pressShape chooses a damage; with Shift one more, or one less. The inside
// of a ring can only be dragged once it is chosen, so that a box can be
// begun within a large loss.
func (t *selectTool) pressShape(ref int, p pointer) {
	s := t.s
	was := s.isSelected(ref)
	if p.has(shift) {
		if was {
			s.choose(slices.DeleteFunc(s.Selected(), func(r int) bool { return r == ref })...)
		} else {
			s.choose(append(s.Selected(), ref)...)
		}
		return
	}
	if !was {
		s.choose(ref)
	}
	sh, _ := s.scene.shape(ref)
	if at, ok := nearestSpot(sh, p.at); was || ok && at.dist*s.view.Scale <= lineReach*s.px {
		t.armed = gripShape
	} else {
		t.armed, t.boxTo, t.onRing = gripBox, p.at, true
	}
}

// pressGround presses where no damage lies.
func (t *selectTool) pressGround(p pointer) {
	s := t.s
	t.armed, t.boxTo, t.onRing = gripBox, p.at, false
	if id, ok := s.proposalAt(p.dev); ok {
		t.armed = gripNone
		if s.OnProposal != nil {
			s.OnProposal(id)
		}
		return
	}
	if s.OnPiece != nil && s.look.Pieces {
		label, _ := s.pieceAt(p.dev)
		s.OnPiece(label)
	}
}

func (t *selectTool) drag(p pointer) {
	s := t.s
	d := p.at.Sub(t.from)
	switch t.armed {
	case gripPoints:
		t.hold(t.withPoints(p, d))
	case gripGhost:
		t.hold([]Geometry{t.withGhost(p.snap.at)})
	case gripShape:
		t.by = d
		if t.now == nil || len(t.now) <= manyInHand {
			t.hold(t.moved(d))
		}
	case gripOwn:
		t.dragGrip(p)
	case gripBox:
		t.boxTo = p.at
	}
	if t.now != nil && len(s.points) == 0 && t.armed == gripPoints {
		t.armed = gripNone
	}
}

// moved returns the courses of the chosen damages, all moved by d.
func (t *selectTool) moved(d geom.Pt) []Geometry {
	var out []Geometry
	for _, sh := range t.chosen() {
		out = append(out, sh.geometry().moved(d))
	}
	return out
}

// hold keeps courses in hand; the first time, they leave the still layer.
func (t *selectTool) hold(now []Geometry) {
	first := t.now == nil
	t.now = now
	if first {
		t.s.layers.stillOK = false
		t.held = make(map[int]bool, len(now))
		for _, g := range now {
			t.held[g.Ref] = true
		}
	}
}

// chosen returns the chosen damages of this side.
func (t *selectTool) chosen() []Shape {
	var out []Shape
	for _, ref := range t.s.selected {
		if sh, ok := t.s.scene.shape(ref); ok && !sh.OtherSide {
			out = append(out, sh)
		}
	}
	return out
}

// withPoints returns the courses with the chosen points moved by d, or, when
// it is one, to where it snaps.
func (t *selectTool) withPoints(p pointer, d geom.Pt) []Geometry {
	s := t.s
	var out []Geometry
	for _, sh := range t.chosen() {
		g, touched := sh.geometry(), false
		for _, pt := range s.points {
			if pt.ref != sh.Ref {
				continue
			}
			at := &g.path(pt.path)[pt.i]
			*at, touched = at.Add(d), true
			if len(s.points) == 1 && p.snap.kind != snapNone {
				*at = p.snap.at
			}
		}
		if touched {
			out = append(out, g)
		}
	}
	return out
}

// withGhost returns the course with a point added on the stretch in hand.
func (t *selectTool) withGhost(at geom.Pt) Geometry {
	sh, _ := t.s.scene.shape(t.hotGhost.ref)
	g := sh.geometry()
	line := slices.Insert(g.path(t.hotGhost.path), t.hotGhost.i+1, at)
	return g.withPath(t.hotGhost.path, line)
}

func (t *selectTool) release(p pointer) {
	s := t.s
	armed, now, pulled := t.armed, t.now, t.pulled
	t.armed, t.now, t.pulled, t.stamp = gripNone, nil, false, stamp{}
	if now != nil {
		s.layers.stillOK = false
	}
	switch {
	case armed == gripPoints && now != nil:
		s.edit(Change{Why: MovePoint, Shapes: now})
	case armed == gripGhost:
		if now == nil { // pressed and let go: the point stays in the middle
			now = []Geometry{t.withGhost(t.ghostPos(t.hotGhost))}
		}
		pt := t.hotGhost
		pt.i++
		s.edit(Change{Why: InsertPoint, Shapes: now})
		s.points = []pointRef{pt}
		s.keepPoints()
	case armed == gripOwn && pulled:
		s.edit(MoveGrip{ID: t.grip.ID, At: p.at.Sub(t.off)})
	case armed == gripShape && now != nil:
		s.edit(Change{Why: MoveShape, Shapes: t.moved(t.by)})
	case armed == gripBox:
		t.releaseBox(p)
	}
	t.hover(p)
}

// releaseBox chooses what lies in the box; with Shift in addition, with Ctrl
// the points of what is chosen already.
func (t *selectTool) releaseBox(p pointer) {
	s, r := t.s, RectOf(t.from, t.boxTo)
	switch {
	case !s.hand.moved:
		if !p.has(shift) && !t.onRing {
			s.choose()
		}
	case p.has(ctrl):
		s.points = nil
		for _, sh := range t.chosen() {
			for k, line := range sh.paths() {
				for i, q := range line {
					if r.Holds(q) {
						s.points = append(s.points, pointRef{sh.Ref, k, i})
					}
				}
			}
		}
	case p.has(shift):
		s.choose(append(s.Selected(), s.within(r)...)...)
	default:
		s.choose(s.within(r)...)
	}
}

// double adds a point on a chosen line at the very place.
func (t *selectTool) double(p pointer) {
	s := t.s
	if _, ok := s.pointAt(p.dev); ok || t.dropGrip(p) {
		return
	}
	for _, sh := range t.chosen() {
		if at, ok := nearestSpot(sh, p.at); ok && at.dist*s.view.Scale <= lineReach*s.px {
			t.hotGhost = pointRef{sh.Ref, at.path, at.seg}
			g := t.withGhost(at.at)
			s.edit(Change{Why: InsertPoint, Shapes: []Geometry{g}})
			s.points = []pointRef{{sh.Ref, at.path, at.seg + 1}}
			s.keepPoints()
			return
		}
	}
}

func (t *selectTool) hover(p pointer) {
	t.hotPoint, t.hotGhost, t.hotShape = pointRef{}, pointRef{}, 0
	if pt, ok := t.s.pointAt(p.dev); ok {
		t.hotPoint = pt
	} else if g, ok := t.ghostAt(p); ok {
		t.hotGhost = g
	} else if ref, ok := t.s.shapeAt(p.dev); ok {
		t.hotShape = ref
	}
}

func (t *selectTool) cancel() bool {
	had := t.now != nil || t.pulled || t.armed == gripBox
	if t.now != nil {
		t.s.layers.stillOK = false
	}
	t.now, t.armed, t.pulled, t.stamp = nil, gripNone, false, stamp{}
	return had
}

// renew lets go of a drag whose shapes are no more, or no more the same: a new
// scene may come at any time, from undo or from work in the background.
func (t *selectTool) renew() {
	held := append(slices.Clone(t.s.points), t.hotPoint)
	for _, g := range t.now {
		held = append(held, pointRef{ref: g.Ref})
	}
	if t.armed == gripGhost {
		held = append(held, t.hotGhost)
	}
	for _, pt := range held {
		sh, ok := t.s.scene.shape(pt.ref)
		if pt.ref != 0 && (!ok || !sh.has(spot{path: pt.path, seg: pt.i})) {
			t.cancel()
			t.hotPoint, t.hotGhost, t.hotShape = pointRef{}, pointRef{}, 0
			return
		}
	}
}

func (t *selectTool) hint() string {
	s := t.s
	switch {
	case t.now != nil, t.pulled:
		return s.say(hintMoving)
	case t.armed == gripBox && s.hand.moved:
		return s.say(hintBox)
	case t.hotPoint.ref != 0:
		return s.say(hintPoint)
	case s.hand.inside && s.gripUnder(s.hand.last.dev) >= 0:
		return s.say(hintGrip)
	case t.hotGhost.ref != 0:
		return s.say(hintGhost)
	case len(s.selected) > 0:
		return s.say(hintChosen)
	}
	return s.say(hintSelect)
}
