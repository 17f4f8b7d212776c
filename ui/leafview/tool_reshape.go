package leafview

import "leafmend/mendplan/geom"

// newRetraceTool returns the tool that cuts a stretch out of a line and
// traces it again: it begins and ends on the same line.
func newRetraceTool(s *Surface) tool {
	t := &lineTool{s: s, kind: "stretch", follow: true}
	t.admit = func(p pointer) (ok, last bool) {
		on := p.snap
		if len(t.pts) == 0 {
			return on.ref != 0, false
		}
		return true, on.ref == t.start.ref && on.spot.path == t.start.spot.path && on.at != t.start.at
	}
	t.commit = func(pts []geom.Pt) bool {
		sh, ok := s.scene.shape(t.start.ref)
		if !ok || t.end.ref != t.start.ref || !sh.has(t.start.spot) || !sh.has(t.end.spot) {
			return false
		}
		g := retraced(sh, t.start.spot, t.end.spot, pts)
		if !g.sound(sh.Closed) {
			return false // nothing but a line would be left of a ring
		}
		s.edit(Change{Why: Retrace, Shapes: []Geometry{g}})
		s.choose(sh.Ref)
		return true
	}
	t.words = func() string {
		if len(t.pts) == 0 {
			return s.say(hintRetrace)
		}
		return s.say(hintRetraceOn)
	}
	return t
}

// newReshapeTool returns the tool that changes a shape by a line drawn across
// it: the chosen one, else the first it crosses.
func newReshapeTool(s *Surface) tool {
	t := &lineTool{s: s, kind: "line", follow: true}
	missed := false
	t.commit = func(pts []geom.Pt) bool {
		for _, chosen := range []bool{true, false} {
			for _, sh := range s.scene.Shapes {
				if sh.OtherSide || s.isSelected(sh.Ref) != chosen {
					continue
				}
				if g, ok := reshaped(sh, pts); ok {
					s.edit(Change{Why: Reshape, Shapes: []Geometry{g}})
					s.choose(sh.Ref)
					missed = false
					return true
				}
			}
		}
		missed = true
		return false
	}
	t.words = func() string {
		if missed && len(t.pts) > 1 {
			return s.say(hintNoCross)
		}
		missed = false
		return s.say(hintReshape)
	}
	return t
}
