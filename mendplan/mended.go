package mendplan

import (
	"cmp"
	"math"
	"slices"

	"leafmend/mendplan/phrase"
)

// mended computes the pieces of all mends of a damage.
func (s *site) mended(w leafWork) damageResult {
	mends := s.damage.Mends
	if len(mends) == 0 {
		mends = []Mend{{}}
	}
	var out damageResult
	first := SideName("")
	for i, m := range mends {
		out.problems = append(out.problems, ruleProblems(m.Rules, s.problem(BadRule, Doubt, phrase.Phrase{}, phrase.Phrase{}))...)
		second := i > 0 && (m.Side == "" || m.Side != first) && !s.damage.Kind.Missing() && s.damage.Kind != WeakArea
		drafts, problems := s.drafts(m, second)
		out.problems = append(out.problems, problems...)
		if len(drafts) == 0 {
			continue
		}
		side, why := s.sideFor(m, drafts, first, i > 0, w)
		if i == 0 {
			first = side
		}
		pieces, problems := s.finished(m, drafts, side, why, second && side != first, w)
		out.pieces = append(out.pieces, pieces...)
		out.problems = append(out.problems, problems...)
	}
	return out
}

// drafts draws the pieces of one mend in the order they are applied: what
// lies beneath first, then from the root of the tear to the edge (F13).
func (s *site) drafts(m Mend, second bool) ([]draft, []Problem) {
	r := s.in(m)
	style, problems := s.styleOf(m, r)
	var out []draft
	var more []Problem
	switch style {
	case Infill:
		out, more = s.infill(r)
	case Overlay:
		out, more = s.overlay(r)
	case Guard:
		out, more = s.guard(r)
	case EdgeStrip:
		out, more = s.edgeStrips(r)
	default:
		out, more = s.alongTear(style, m, second)
	}
	out = s.shortOf(out, r)
	for i := range out {
		out[i].why = append(out[i].why, s.rustWhy()...)
	}
	slices.SortStableFunc(out, func(a, b draft) int {
		// To a hundredth of a millimetre, so that rounding decides nothing.
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(math.Round(b.toEdge*100), math.Round(a.toEdge*100)))
	})
	return out, append(problems, more...)
}

func (s *site) alongTear(style Style, m Mend, second bool) ([]draft, []Problem) {
	r := s.in(m)
	t, problems := s.tearOf(r)
	if len(t.paths) == 0 {
		return nil, problems
	}
	var out []draft
	switch style {
	case Strips:
		out, problems = s.strips(t, r, second, m.Breaks)
	case Bridges:
		out = s.bridges(t, r, second)
	default:
		out = s.shaped(t, r, second)
	}
	if !second {
		out = append(out, s.edgePieces(t, r)...)
	}
	for i := range out {
		out[i].why = append(out[i].why, s.scarfWhy()...)
	}
	return out, problems
}

// styleOf returns the style in force: the mend's own where it suits the kind
// of damage, else that of the rules.
func (s *site) styleOf(m Mend, r InForce) (Style, []Problem) {
	def := DefaultStyle(s.damage.Kind, r)
	if m.Style == "" || slices.Contains(StylesFor(s.damage.Kind), m.Style) {
		return cmp.Or(m.Style, def), nil
	}
	return def, []Problem{s.problem(BadRule, Doubt,
		phrase.Of("“%s” is no style for %s; “%s” is used.", m.Style, s.name(), phrase.Of(string(def))), phrase.Of("Choose another style."))}
}

// DefaultStyle is the style that the rules give a kind of damage.
func DefaultStyle(k DamageKind, r InForce) Style {
	switch k {
	case Loss:
		return Style(r.Word(LossStyle))
	case Hole:
		return Style(r.Word(HoleStyle))
	case RustHole:
		return Style(r.Word(RustHoleStyle))
	case WeakArea:
		return Overlay
	case Nicks:
		return EdgeStrip
	case Split:
		return Style(r.Word(SplitStyle))
	}
	return Style(r.Word(TearStyle))
}

// StylesFor lists the styles that can answer a kind of damage, in the order
// of menus; nil for what is noted only.
func StylesFor(k DamageKind) []Style {
	switch k {
	case Tear:
		return []Style{Shaped, Strips, Bridges}
	case Split:
		return []Style{Strips, Guard, Shaped, Bridges}
	case Loss, Hole:
		return []Style{Infill, Overlay}
	case RustHole:
		return []Style{Overlay, Infill}
	case WeakArea:
		return []Style{Overlay}
	case Nicks:
		return []Style{EdgeStrip, Shaped, Strips}
	}
	return nil
}
