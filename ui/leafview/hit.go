package leafview

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// Reach of a press, in units: generous, because hands are wet and pens have
// no tip on the screen.
const (
	pointReach = 11.0
	lineReach  = 8.0
)

// pointRef names one point of a shape.
type pointRef struct{ ref, path, i int }

// shapeAt returns the damage under a device position: the nearest line within
// reach, else the smallest ring around it. Chosen shapes win ties.
func (s *Surface) shapeAt(dev geom.Pt) (ref int, ok bool) {
	p, reach := s.view.ToScan(dev), lineReach*s.px/s.view.Scale
	best, area := reach, math.Inf(1)
	onLine := false
	for i, sh := range s.scene.Shapes {
		if sh.OtherSide || !s.index.boxes[i].Grow(reach).Holds(p) {
			continue
		}
		if e, found := nearestSpot(sh, p); found && (e.dist < best || e.dist == best && s.isSelected(sh.Ref)) {
			ref, best, ok, onLine = sh.Ref, e.dist, true, true
		}
		if a := ringArea(sh.Points); !onLine && sh.Closed && a < area && inRing(sh.Points, p) {
			ref, area, ok = sh.Ref, a, true
		}
	}
	return ref, ok
}

// pointAt returns the point of a chosen shape under a device position.
func (s *Surface) pointAt(dev geom.Pt) (pointRef, bool) {
	p, best := s.view.ToScan(dev), pointReach*s.px/s.view.Scale
	var found pointRef
	for _, ref := range s.selected {
		sh := s.scene.Shapes[s.index.at[ref]]
		if v, ok := nearestVertex(sh, p); ok && v.dist < best && !sh.OtherSide {
			best, found = v.dist, pointRef{ref, v.path, v.seg}
		}
	}
	return found, found.ref != 0
}

// pieceAt returns the label of the smallest piece under a device position.
func (s *Surface) pieceAt(dev geom.Pt) (string, bool) {
	p := s.view.ToScan(dev)
	label, area := "", math.Inf(1)
	for i, pc := range s.scene.Pieces {
		if pc.OtherSide || !s.index.pieces[i].Holds(p) {
			continue
		}
		in := false
		for _, r := range pc.Rings {
			in = in != inRing(r, p)
		}
		if a := s.index.pieces[i].W() * s.index.pieces[i].H(); in && a < area {
			label, area = pc.Label, a
		}
	}
	return label, label != ""
}

// proposalAt returns the proposal under a device position.
func (s *Surface) proposalAt(dev geom.Pt) (int, bool) {
	p := s.view.ToScan(dev)
	for _, pr := range s.scene.Proposals {
		e, ok := nearestOn(pr.Points, !pr.Open, p)
		if ok && (e.dist*s.view.Scale < lineReach*s.px || !pr.Open && inRing(pr.Points, p)) {
			return pr.ID, true
		}
	}
	return 0, false
}

// within returns the damages that lie whole in r, in the scene's order.
func (s *Surface) within(r Rect) []int {
	var refs []int
	for i, sh := range s.scene.Shapes {
		b := s.index.boxes[i]
		if !sh.OtherSide && len(sh.Points) > 0 && r.Holds(b.Min) && r.Holds(b.Max) {
			refs = append(refs, sh.Ref)
		}
	}
	return refs
}

func (s *Surface) isSelected(ref int) bool { return slices.Contains(s.selected, ref) }

// keepPoints drops chosen points that are no more.
func (s *Surface) keepPoints() {
	s.points = slices.DeleteFunc(slices.Clone(s.points), func(p pointRef) bool {
		sh, ok := s.scene.shape(p.ref)
		if !ok || !s.isSelected(p.ref) || p.path > len(sh.Forks) {
			return true
		}
		return p.i >= len(sh.paths()[p.path])
	})
}

// pointPos returns where a chosen point is.
func (s *Surface) pointPos(p pointRef) geom.Pt {
	return s.scene.Shapes[s.index.at[p.ref]].paths()[p.path][p.i]
}
