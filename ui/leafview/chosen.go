package leafview

import (
	"slices"

	"leafmend/mendplan/geom"
)

// Commands on what is chosen. Each asks by one [Edit].

// SelectAll chooses all damages of this side.
func (s *Surface) SelectAll() {
	var refs []int
	for _, sh := range s.scene.Shapes {
		if !sh.OtherSide {
			refs = append(refs, sh.Ref)
		}
	}
	s.choose(refs...)
}

// PointsChosen reports whether single points are chosen, rather than whole
// damages.
func (s *Surface) PointsChosen() bool { return len(s.points) > 0 }

// ChosenPoint returns the place of the one chosen point; false when not exactly
// one is chosen.
func (s *Surface) ChosenPoint() (geom.Pt, bool) {
	if len(s.points) != 1 {
		return geom.Pt{}, false
	}
	return s.pointPos(s.points[0]), true
}

// DeleteChosen asks to delete the chosen points, or, when there are none, the
// chosen damages; false when nothing is chosen, or a shape is in hand.
func (s *Surface) DeleteChosen() bool { return s.deleteChosen() }

// InsertAfterChosen asks for a point in the middle of the stretch after the
// one chosen point; false when there is no such stretch.
func (s *Surface) InsertAfterChosen() bool { return s.insertAfterChosen() }

func (s *Surface) deleteChosen() bool {
	if s.tool.busy() || len(s.selected) == 0 {
		return false
	}
	if len(s.points) == 0 {
		refs := slices.DeleteFunc(s.Selected(), func(ref int) bool {
			sh, _ := s.scene.shape(ref)
			return sh.OtherSide
		})
		if len(refs) == 0 {
			return false
		}
		s.edit(Delete{Refs: refs})
		return true
	}
	s.deletePoints()
	return true
}

// deletePoints asks for the courses without the chosen points. A course left
// with too few points is no shape any more, and the damage is deleted; with
// several that is told as two edits, for they are two kinds of step.
func (s *Surface) deletePoints() {
	var changed []Geometry
	var gone []int
	for _, ref := range s.selected {
		sh, _ := s.scene.shape(ref)
		g, touched := s.withoutPoints(sh)
		least := 2
		if sh.Closed {
			least = 3
		}
		switch {
		case !touched:
		case len(g.Points) < least:
			gone = append(gone, ref)
		default:
			changed = append(changed, g)
		}
	}
	s.points = nil
	if len(changed) > 0 {
		s.edit(Change{Why: DeletePoint, Shapes: changed})
	}
	if len(gone) > 0 {
		s.edit(Delete{Refs: gone})
	}
}

// withoutPoints returns the course of a shape without its chosen points.
func (s *Surface) withoutPoints(sh Shape) (g Geometry, touched bool) {
	g = Geometry{Ref: sh.Ref}
	for k, line := range sh.paths() {
		var left []geom.Pt
		for i, p := range line {
			if slices.Contains(s.points, pointRef{sh.Ref, k, i}) {
				touched = true
			} else {
				left = append(left, p)
			}
		}
		switch {
		case k == 0:
			g.Points = left
		case len(left) >= 2:
			g.Forks = append(g.Forks, left)
		}
	}
	return g, touched
}

func (s *Surface) insertAfterChosen() bool {
	if len(s.points) != 1 || s.tool.busy() {
		return false
	}
	pt := s.points[0]
	sh, ok := s.scene.shape(pt.ref)
	line := sh.paths()[pt.path]
	if !ok || pt.i >= segments(line, sh.Closed && pt.path == 0) {
		return false
	}
	g := sh.geometry()
	mid := line[pt.i].Lerp(line[(pt.i+1)%len(line)], 0.5)
	g = g.withPath(pt.path, slices.Insert(g.path(pt.path), pt.i+1, mid))
	s.edit(Change{Why: InsertPoint, Shapes: []Geometry{g}})
	s.points = []pointRef{{pt.ref, pt.path, pt.i + 1}}
	s.keepPoints()
	s.redraw()
	return true
}

// nudge asks to move the chosen points, or the chosen damages, by one small
// step in a direction of the screen.
func (s *Surface) nudge(dir geom.Pt, coarse bool) {
	d := dir.Mul(s.nudgeLength(coarse))
	var out []Geometry
	for _, ref := range s.selected {
		sh, _ := s.scene.shape(ref)
		g, touched := sh.geometry(), len(s.points) == 0
		if touched {
			g = g.moved(d)
		}
		for _, pt := range s.points {
			if pt.ref == ref {
				at := &g.path(pt.path)[pt.i]
				*at, touched = at.Add(d), true
			}
		}
		if touched && !sh.OtherSide {
			out = append(out, g)
		}
	}
	if len(out) > 0 && !s.tool.busy() {
		s.edit(Change{Why: Nudge, Shapes: out})
		s.tellPoint()
	}
}

// tellPoint reports the place of the chosen point in the pointer's stead,
// since keys have brought it where it is.
func (s *Surface) tellPoint() {
	if len(s.points) == 1 && s.OnPointer != nil {
		s.OnPointer(s.pointPos(s.points[0]), true)
	}
}

// nudgeLength returns the length of a nudge in scan pixels.
func (s *Surface) nudgeLength(coarse bool) float64 {
	mm, px := NudgeMM, 1.0
	if coarse {
		mm, px = CoarseNudgeMM, 10
	}
	if s.scene.Frame.Known() {
		px = mm * s.scene.Frame.PxPerMM()
	}
	return px
}

// stepPoint chooses the next or previous point of the damage in hand, and
// brings it into sight.
func (s *Surface) stepPoint(by int) {
	if len(s.selected) == 0 {
		return
	}
	sh, _ := s.scene.shape(s.selected[0])
	var all []pointRef
	for k, line := range sh.paths() {
		for i := range line {
			all = append(all, pointRef{sh.Ref, k, i})
		}
	}
	if len(all) == 0 || sh.OtherSide {
		return
	}
	at := -1
	if len(s.points) > 0 {
		at = slices.Index(all, s.points[0])
	} else if by < 0 {
		at = 0
	}
	s.points = []pointRef{all[(at+by+len(all))%len(all)]}
	w, h := s.size()
	if p := s.pointPos(s.points[0]); !(Rect{Max: geom.Pt{X: w, Y: h}}).Holds(s.view.ToDevice(p)) {
		s.CentreOn(p)
		s.tellView()
	}
	s.tellPoint()
	s.redraw()
}
