package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// sideFor decides the side of a mend: by hand, by the place of a guard, on
// the other side of the first mend, else by advice.
func (s *site) sideFor(m Mend, drafts []draft, first SideName, later bool, w leafWork) (SideName, phrase.Phrase) {
	switch {
	case m.Side == Front || m.Side == Back:
		return m.Side, phrase.Of("on the %s: chosen by hand", sideWord(m.Side))
	case drafts[0].style == Guard:
		side, why := guardSide(s.in(m), w.outermost)
		return side, phrase.Of("on the %s: %s", sideWord(side), why)
	case later && first != "":
		return first.Other(), phrase.Of("on the %s: the other side of the first mend", sideWord(first.Other()))
	}
	outlines := make([]geom.Area, len(drafts))
	for i, d := range drafts {
		outlines[i] = d.outline
	}
	a := adviseSide(s.leaf, outlines, s.in(m), w.look)
	return a.Side, a.Reason
}

// finished turns drafts into pieces: tissue, grain, blank, sizes, reasons.
func (s *site) finished(m Mend, drafts []draft, side SideName, whySide phrase.Phrase, second bool, w leafWork) ([]Piece, []Problem) {
	r := s.in(m)
	tissues := map[bool]chosen{}
	var out []Piece
	var problems []Problem
	warned := false
	for _, d := range drafts {
		c, ok := tissues[d.infill]
		if !ok {
			c = s.choose(m, d, side, w)
			tissues[d.infill] = c
			problems = append(problems, c.problems...)
		}
		wish := grainFor(d, s.paper, r)
		if words, conflict := grainConflict(d, wish, s.paper, c.Tissue); conflict && !warned {
			warned = true
			problems = append(problems, s.problem(GrainConflict, Advice,
				phrase.Of("The grain of the tissue for %s %s.", s.name(), words),
				phrase.Of("Practice varies: choose along the strip, as the leaf, a tissue of 6 g/m² or less, or leave it.")))
		}
		p := s.piece(d, wish, r.Number(Fringe))
		p.Side, p.Tissue = side, c.Tissue.ID
		if d.other {
			p.Side = side.Other()
		}
		if second && p.Role == RoleMend {
			p.Role = RoleSecond
		}
		p.Reasons = append([]phrase.Phrase{whySide, c.words(), wish.why}, d.why...)
		out = append(out, p)
	}
	return out, problems
}

// piece measures a draft.
func (s *site) piece(d draft, wish grainWish, fringe float64) Piece {
	blank := blankFor(d.outline, wish, fringe)
	area := d.outline.Area()
	return Piece{
		Leaf: s.leaf.ID, Damage: s.damage.Number, Style: d.style, Role: d.role,
		Outline: d.outline, GrainDeg: wish.deg, GrainFree: wish.free,
		AreaMM2: area, PasteMM2: area - d.bare.Area(),
		BlankLengthMM: blank.Length, BlankWidthMM: blank.Width,
		BlankDeg: blank.Angle, BlankCentre: blank.Center,
	}
}

// chosen is the tissue of a mend and what there is to say about it.
type chosen struct {
	TissueAdvice
	problems []Problem
}

// choose picks the tissue for a draft's use.
func (s *site) choose(m Mend, d draft, side SideName, w leafWork) chosen {
	use := ForTears
	if d.infill {
		use = ForInfills
	}
	var paper *Lab
	if c, known := w.look.colour(s.leaf.ID, side, d.outline); known {
		paper = &c
	}
	a, ok := tissueFor(w.job, s.leaf, m, use, paper)
	c := chosen{TissueAdvice: a}
	switch {
	case !ok && m.Tissue != "":
		c.problems = append(c.problems, s.problem(NoTissue, Wrong,
			phrase.Of("The tissue chosen for %s is no longer in the job.", s.name()), phrase.Of("Choose another tissue.")))
	case !ok: // told once for the whole job
	case a.Heavy:
		c.problems = append(c.problems, s.problem(HeavyTissue, Advice,
			phrase.Of("%s is heavy for %s: a mend should give way before the leaf does.", a.Tissue.Name, s.name()),
			phrase.Of("Choose a lighter tissue, or keep it if the leaf can bear it.")))
	}
	return c
}
