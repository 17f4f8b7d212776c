package ui

import (
	"slices"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// applyEdit turns what a gesture on the surface asks for into one step of the
// job. It reports whether there was anything to do.
func (w *Window) applyEdit(e leafview.Edit) bool {
	s := w.session
	switch e := e.(type) {
	case leafview.Add:
		return w.addDamage(e)
	case leafview.Change:
		return w.changeShapes(e)
	case leafview.Fork:
		return w.changeDamage(e.Label(), e.Ref, func(d mendplan.Damage) mendplan.Damage {
			d.Forks = append(slices.Clone(d.Forks), e.Path)
			return d
		})
	case leafview.Divide:
		return w.divide(e)
	case leafview.Join:
		return w.join(e)
	case leafview.Delete:
		w.deleteDamages(e.Refs)
	case leafview.TrueEdge:
		s.EditSide(e.Label(), func(side mendplan.Side) mendplan.Side { side.TrueEdge = e.Corners; return side })
	case leafview.Outline:
		s.EditSide(e.Label(), func(side mendplan.Side) mendplan.Side { side.Outline = e.Points; return side })
	case leafview.MoveGrip:
		return w.moveGrip(e)
	case leafview.DropGrip:
		return w.dropGrip(e.ID)
	case leafview.MoveOther:
		return w.moveOther(e)
	case leafview.FoldLine:
		return w.setFold(e)
	case leafview.TwoPoints:
		w.work.soon(func() { w.scaleByPoints(e.A, e.B) })
	case leafview.FourCorners:
		w.work.soon(func() { w.scaleByCorners(e.Corners) })
	default:
		return false
	}
	return true
}

// addDamage records a new damage and takes it in hand.
func (w *Window) addDamage(e leafview.Add) bool {
	s := w.session
	leaf, ok := s.Leaf()
	if !ok {
		return false
	}
	d := mendplan.Damage{Kind: mendplan.DamageKind(e.Kind), Side: s.Side(), Points: e.Points}
	j, number := s.Job().AddDamage(leaf.ID, d)
	s.Do(e.Label(), j)
	s.Select(number)
	w.side.showDetails()
	w.guide.traced(d.Kind)
	w.readAllPrint()
	return true
}

// changeDamage makes one damage another, as one step.
func (w *Window) changeDamage(label string, ref int, change func(mendplan.Damage) mendplan.Damage) bool {
	leaf, d, ok := w.session.Job().FindDamage(ref)
	if !ok {
		return false
	}
	w.session.Do(label, w.session.Job().WithDamage(leaf.ID, change(d)))
	return true
}

// withCourse gives a damage a new course, traced on side. A damage traced on
// the other side is then one of this side.
func withCourse(d mendplan.Damage, side mendplan.SideName, g leafview.Geometry) mendplan.Damage {
	d.Side, d.Points, d.Forks = side, g.Points, g.Forks
	return d
}

func (w *Window) changeShapes(e leafview.Change) bool {
	s, j := w.session, w.session.Job()
	for _, g := range e.Shapes {
		if leaf, d, ok := j.FindDamage(g.Ref); ok {
			j = j.WithDamage(leaf.ID, withCourse(d, s.Side(), g))
		}
	}
	gesture := ""
	if e.Why == leafview.Nudge {
		gesture = "nudge"
	}
	s.Amend(gesture, e.Label(), j)
	return len(e.Shapes) > 0
}

// divide makes two damages of one; the second has the same particulars.
func (w *Window) divide(e leafview.Divide) bool {
	s := w.session
	leaf, d, ok := s.Job().FindDamage(e.Ref)
	if !ok {
		return false
	}
	first, second := withCourse(d, s.Side(), e.First), withCourse(d, s.Side(), e.Second)
	first.End, second.Start = mendplan.EndAuto, mendplan.EndAuto
	j, number := s.Job().WithDamage(leaf.ID, first).AddDamage(leaf.ID, second)
	s.Do(e.Label(), j)
	s.Select(number)
	return true
}

// join makes one damage of two.
func (w *Window) join(e leafview.Join) bool {
	s := w.session
	leaf, d, ok := s.Job().FindDamage(e.Keep.Ref)
	if !ok {
		return false
	}
	j := s.Job().WithDamage(leaf.ID, withCourse(d, s.Side(), e.Keep)).WithoutDamage(leaf.ID, e.Gone)
	s.Do(e.Label(), j)
	s.Select(e.Keep.Ref)
	return true
}

func (w *Window) deleteDamages(refs []int) {
	j := w.session.Job()
	for _, n := range refs {
		if leaf, _, ok := j.FindDamage(n); ok {
			j = j.WithoutDamage(leaf.ID, n)
		}
	}
	label := "delete damage"
	if len(refs) > 1 {
		label = "delete damages"
	}
	w.session.Do(label, j)
}

// setFold notes how far the fold lies from the left edge of the front.
func (w *Window) setFold(e leafview.FoldLine) bool {
	leaf, ok := w.session.Leaf()
	if !ok {
		return false
	}
	frame, sheet, fault := mendplan.FrameOf(leaf, w.session.Side())
	if fault != nil {
		w.status.say(say(fault.Words) + " " + say(fault.Hint))
		return false
	}
	mid := frame.ToLeaf(e.A.Lerp(e.B, 0.5))
	left := geom.Path{sheet.Corners[0], sheet.Corners[3]}
	dist, _ := left.Nearest(mid)
	w.session.EditLeaf(e.Label(), func(l mendplan.Leaf) mendplan.Leaf { l.FoldMM = dist; return l })
	return true
}
