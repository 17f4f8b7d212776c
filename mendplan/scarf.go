package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Scarf says how the torn faces of a tear overlap: paper seldom tears square
// to its surface, and the slanted faces lie over one another (Smithsonian
// Museum Conservation Institute, Sources of Deterioration and Damage to Paper
// Materials: a tear "may overlap"). What is traced is the edge that shows: that
// of the part on top. The edge of the part beneath lies under it. Both are
// weak lines, so the mend keeps its margin about both. The zero value is a
// tear torn square.
type Scarf struct {
	OverlapMM float64  `json:"overlap_mm,omitempty"` // width of the overlap, mm; 0 to [WidestScarf]
	OnTop     HandSide `json:"on_top,omitempty"`     // which part lies on top on the traced side
}

// HandSide is left or right of a trace, as one looks at the side it was
// traced on and follows it from its first point to its last.
type HandSide string

// The two sides of a trace. The zero value counts as left.
const (
	OnLeft  HandSide = "left"
	OnRight HandSide = "right"
)

// WidestScarf is the widest overlap taken, mm. Paper of this job's kind tears
// in faces of a few millimetres (common practice, no source).
const WidestScarf = 10.0

// Known reports whether the faces overlap at all.
func (s Scarf) Known() bool { return s.OverlapMM > 0 }

// scarf is the overlap of the site's tear, within its range.
func (s *site) scarf() Scarf {
	k := s.damage.Scarf
	if s.damage.Kind != Tear || !(k.OverlapMM > 0) {
		return Scarf{}
	}
	k.OverlapMM = min(k.OverlapMM, WidestScarf)
	return k
}

// hidden returns for each stretch p–q of a path in the leaf frame where the
// edge that lies beneath runs: p–q moved square by the overlap. Nil for a tear
// torn square.
func (s *site) hidden(p geom.Path) []geom.Ring {
	k := s.scarf()
	if !k.Known() {
		return nil
	}
	hand := k.OverlapMM
	// With y down, left of the way (x, y) is (y, −x); in the leaf frame a
	// back is mirrored, and its left is the other way.
	if (k.OnTop == OnRight) != (s.damage.Side == Back) {
		hand = -hand
	}
	out := make([]geom.Ring, 0, len(p))
	for i := 1; i < len(p); i++ {
		u := p[i].Sub(p[i-1]).Unit()
		n := geom.Pt{X: u.Y, Y: -u.X}.Mul(hand)
		out = append(out, geom.Ring{p[i-1], p[i], p[i].Add(n), p[i-1].Add(n)})
	}
	return out
}

// flap is the area in which the faces of a path overlap.
func (s *site) flap(p geom.Path) geom.Area {
	var parts []geom.Area
	for _, r := range s.hidden(p) {
		parts = append(parts, geom.FromRing(r))
	}
	if len(parts) == 0 {
		return nil
	}
	return geom.Union(parts...)
}

// scarfWhy tells what the overlap asks for; nil for a tear torn square.
func (s *site) scarfWhy() []phrase.Phrase {
	k := s.scarf()
	if !k.Known() {
		return nil
	}
	top := phrase.Of("the part on the left of the trace on top")
	if k.OnTop == OnRight {
		top = phrase.Of("the part on the right of the trace on top")
	}
	return []phrase.Phrase{phrase.Of("the torn faces overlap by %.4g mm, %s: lay them as they lay, paste them together first, and let the tissue hold both edges (%s)",
		k.OverlapMM, top, phrase.Of(noSource))}
}
