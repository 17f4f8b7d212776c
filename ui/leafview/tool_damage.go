package leafview

import (
	"slices"

	"leafmend/mendplan/geom"
)

// kindOf returns what a damage tool traces; ok is false for other tools.
func (s *Surface) kindOf(id ToolID) (kind Kind, ring, ok bool) {
	switch id {
	case TearTool:
		return Tear, false, true
	case SplitTool:
		return Split, false, true
	case LossTool:
		return Loss, true, true
	case WeakTool:
		return Weak, true, true
	case NicksTool:
		return Nicks, false, true
	case NoteTool:
		return s.noted, s.notedRing, true
	}
	return "", false, false
}

// newDamageTool returns the tool that traces a kind of damage. A tear that
// begins at an end of another continues it; one that begins or ends on the
// middle of another becomes its fork.
func newDamageTool(s *Surface, kind Kind, ring bool) tool {
	t := &lineTool{s: s, kind: kind, ring: ring, follow: true}
	t.commit = func(pts []geom.Pt) bool {
		s.edit(t.damage(pts))
		return true
	}
	t.words = func() string {
		at := s.hand.last.snap
		if len(t.pts) > 0 {
			return ""
		}
		switch sh, meets := t.host(at); {
		case !meets:
			return ""
		case at.kind == snapEnd:
			return s.say(hintExtend, sh.Ref)
		default:
			return s.say(hintFork, sh.Ref)
		}
	}
	return t
}

// host returns the shape a new line of this kind would grow from at a snap.
// Only tears fork.
func (t *lineTool) host(at snap) (Shape, bool) {
	if t.ring || at.ref == 0 {
		return Shape{}, false
	}
	sh, ok := t.s.scene.shape(at.ref)
	ok = ok && sh.Kind == t.kind && !sh.Closed && (at.kind == snapEnd || t.kind == Tear)
	return sh, ok && sh.has(at.spot)
}

// damage makes the edit of a finished line.
func (t *lineTool) damage(pts []geom.Pt) Edit {
	a, fromA := t.host(t.start)
	b, fromB := t.host(t.end)
	switch {
	case fromA && t.start.kind == snapEnd:
		return extended(a, t.start.spot, pts)
	case fromA:
		return Fork{Ref: a.Ref, Path: pts}
	case fromB && t.end.kind == snapEnd:
		return extended(b, t.end.spot, reversed(pts))
	case fromB:
		return Fork{Ref: b.Ref, Path: reversed(pts)}
	}
	return Add{Kind: t.kind, Closed: t.ring, Points: pts}
}

// extended continues a shape's line from the end at a spot by more, which
// begins there. The start of a fork is its root: from there a new fork grows.
func extended(sh Shape, at spot, more []geom.Pt) Edit {
	g := sh.geometry()
	line := g.path(at.path)
	switch {
	case at.seg > 0:
		line = append(line, more[1:]...)
	case at.path > 0:
		return Fork{Ref: sh.Ref, Path: more}
	default:
		line = append(reversed(more), line[1:]...)
	}
	return Change{Why: Extend, Shapes: []Geometry{g.withPath(at.path, slices.Clip(line))}}
}

// newOutlineTool returns the tool that traces the edge of the leaf as it is.
func newOutlineTool(s *Surface) tool {
	t := &lineTool{s: s, kind: "outline", ring: true, follow: true}
	t.commit = func(pts []geom.Pt) bool {
		s.edit(Outline{Points: pts})
		s.giveWay(SelectTool)
		return true
	}
	return t
}
