package mendplan

import (
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// guard returns the folded strip over the fold, half on each leaf, its grain
// along the fold (F20–F24, F38). It runs over the whole fold, shorter or
// longer than the leaf as the rules say, or over the split only.
func (s *site) guard(r InForce) ([]draft, []Problem) {
	fold := s.sheet.Fold()
	if fold == nil {
		return nil, []Problem{s.problem(BadTrace, Wrong, phrase.Of("A guard needs a fold, and %s is on a single leaf.", s.name()), phrase.Of("Choose strips, or make the leaf a bifolium."))}
	}
	path := s.clean(s.damage.Points)
	if len(path) < 2 {
		return nil, []Problem{s.badPath()}
	}
	down := fold[1].Sub(fold[0]).Unit()
	height := fold.Length()
	extra := r.Number(GuardLength) / 2
	from, to := -extra, height+extra
	if r.Word(GuardSpan) == "the split only" {
		from, to = splitSpan(path, fold[0], down, from, to, r.Number(EndMargin))
	}
	width := r.Number(GuardWidth)
	angle := geom.AngleOf(down)
	rect := geom.Rect{Center: fold[0].Add(down.Mul((from + to) / 2)), Angle: angle, Length: to - from, Width: width}
	d := draft{outline: geom.Area{rect.Corners()}, role: RoleGuard, style: Guard, along: angle,
		why: []phrase.Phrase{phrase.Of("%.4g mm wide, %.4g mm on each leaf", width, width/2)}}
	return []draft{d}, s.strayFromFold(path, fold, width/2, r)
}

// splitSpan returns the stretch of the fold that a split lies along, with its
// end margins, kept within the whole guard.
func splitSpan(path geom.Path, head, down geom.Pt, from, to, margin float64) (a, b float64) {
	a, b = to, from
	for _, p := range path {
		u := p.Sub(head).Dot(down)
		a, b = min(a, u-margin), max(b, u+margin)
	}
	return max(a, from), min(b, to)
}

// strayFromFold warns when the guard does not cover the split with margin.
func (s *site) strayFromFold(path, fold geom.Path, half float64, r InForce) []Problem {
	worst, at := 0.0, path[0]
	for _, p := range path {
		if d := geom.DistToPath(p, fold); d > worst {
			worst, at = d, p
		}
	}
	if worst+min(r.Number(SideMargin), half/2) <= half {
		return nil
	}
	return []Problem{s.at(at, BadTrace, Doubt,
		phrase.Of("%s strays %.1f mm from the fold, and the guard reaches %.4g mm.", s.name(), worst, half),
		phrase.Of("Widen the guard, set the fold of the leaf, or choose strips."))}
}

// guardSide tells on which side a guard goes (F24): the outermost bifolium of
// a gathering inside, all others outside, unless the rules say one side. The
// outer side of a bifolium is its front.
func guardSide(r InForce, outermost bool) (SideName, phrase.Phrase) {
	switch r.Word(GuardSide) {
	case "inside":
		return Back, phrase.Of("inside, as the rules say")
	case "outside":
		return Front, phrase.Of("outside, as the rules say")
	}
	if outermost {
		return Back, phrase.Of("inside, as this is the outermost bifolium (Cockerell, Bookbinding, and the Care of Books)")
	}
	return Front, phrase.Of("outside, as this is not the outermost bifolium: inside it would hinder sewing (Cockerell, Bookbinding, and the Care of Books)")
}

// shareGuards leaves out guards that would lie wholly on the guard of an
// earlier damage: two splits of one fold are served by one strip.
func (w leafWork) shareGuards(groups [][]Piece) []Problem {
	var out []Problem
	var kept []Piece
	for i, group := range groups {
		var rest []Piece
		for _, p := range group {
			k := slices.IndexFunc(kept, func(q Piece) bool { return serves(q, p) })
			if k < 0 {
				rest = append(rest, p)
				if p.Style == Guard {
					kept = append(kept, p)
				}
				continue
			}
			out = append(out, Problem{Kind: OtherDamage, Weight: Advice, Leaf: w.leaf.ID, Side: p.Side, Damage: p.Damage,
				Words: phrase.Of("The guard of damage %d on leaf %s serves damage %d too; no second one is planned.", kept[k].Damage, markOf(w.leaf), p.Damage),
				Hint:  phrase.Of("Choose strips for one of them if it should have its own.")})
		}
		groups[i] = rest
	}
	return out
}

// serves reports whether guard q does what p would do.
func serves(q, p Piece) bool {
	return p.Style == Guard && q.Side == p.Side && q.Tissue == p.Tissue && geom.Subtract(p.Outline, q.Outline).Area() < 1
}
