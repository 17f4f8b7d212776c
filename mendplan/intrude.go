package mendplan

import (
	"slices"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// intrusions finds pieces that run into a damage they don't answer, and
// pieces that run across the fold without being meant to. One word for each
// pair of damages, and one for each damage at the fold.
func (w leafWork) intrusions(pieces []Piece, boxes []geom.Box, sites map[SideName]*siteOf) []Problem {
	var out []Problem
	traces := w.traces(sites)
	told := map[[2]int]bool{}
	fold := geom.Path(nil)
	if sheet, known := w.sheet(sites); known {
		fold = sheet.Fold()
	}
	for i, p := range pieces {
		for _, tr := range traces {
			pair := [2]int{p.Damage, tr.number}
			if tr.number == p.Damage || told[pair] || !boxes[i].Overlaps(tr.box) ||
				p.Style == Guard && tr.kind == Split || w.joinedWith(p.Damage, tr.number) {
				continue
			}
			at, hit := meets(tr.line, p.Outline)
			if !hit {
				continue
			}
			told[pair], told[[2]int{pair[1], pair[0]}] = true, true
			q := w.placed(OtherDamage, Advice, tr.side, at, sites)
			q.Damage, q.Joins = p.Damage, []int{min(p.Damage, tr.number), max(p.Damage, tr.number)}
			q.Words = phrase.Of("Piece %s runs into %s %d on leaf %s.", p.Label, phrase.Of(string(tr.kind)), tr.number, markOf(w.leaf))
			q.Hint = phrase.Of("Mend the other first, or join these pieces.")
			out = append(out, q)
		}
		if at, hit := meets(fold, p.Outline); hit && p.Style != Guard && p.Style != EdgeStrip && !told[[2]int{p.Damage, -1}] && !w.atFold(p.Damage) {
			told[[2]int{p.Damage, -1}] = true
			q := w.placed(OtherDamage, Advice, p.Side, at, sites)
			q.Damage = p.Damage
			q.Words = phrase.Of("Piece %s runs across the fold of leaf %s and stiffens it.", p.Label, markOf(w.leaf))
			q.Hint = phrase.Of("Choose a thin tissue there, or end the piece at the fold.")
			out = append(out, q)
		}
	}
	return out
}

// traceOf is a damage as a line in the leaf frame.
type traceOf struct {
	number int
	kind   DamageKind
	side   SideName
	line   geom.Path
	box    geom.Box
}

// traces maps the damages that get mends to the leaf frame; what is recorded
// only is nobody's concern here.
func (w leafWork) traces(sites map[SideName]*siteOf) []traceOf {
	var out []traceOf
	for _, d := range w.leaf.Damages {
		side := Front
		if d.Side == Back {
			side = Back
		}
		s := sites[side]
		if s.fault != nil || d.NoMend || !d.Kind.Mended() || len(d.Points) == 0 {
			continue
		}
		lines := [][]geom.Pt{d.Points}
		for _, l := range append(lines, d.Forks...) {
			path := s.frame.PathToLeaf(l)
			if d.Kind.Closed() && len(path) > 0 {
				path = append(path, path[0])
			}
			out = append(out, traceOf{d.Number, d.Kind, side, path, path.Bounds()})
		}
	}
	return out
}

// joinedWith reports whether one of two damages is joined with the other.
func (w leafWork) joinedWith(a, b int) bool {
	for _, d := range w.leaf.Damages {
		for _, m := range d.Mends {
			has := func(n int) bool { return d.Number == n || slices.Contains(m.Joins, n) }
			if len(m.Joins) > 0 && has(a) && has(b) {
				return true
			}
		}
	}
	return false
}

// atFold reports whether a damage is one of the fold itself.
func (w leafWork) atFold(number int) bool {
	d, _ := w.leaf.Damage(number)
	return d.Kind == Split
}

// meets reports whether a line comes into an area, and where first.
func meets(line geom.Path, a geom.Area) (geom.Pt, bool) {
	for i, p := range line {
		if a.Contains(p) {
			return p, true
		}
		if i == 0 {
			continue
		}
		for _, ring := range a {
			for k, u := range ring {
				if geom.SegmentsCross(line[i-1], p, u, ring[(k+1)%len(ring)]) {
					return line[i-1].Lerp(p, 0.5), true
				}
			}
		}
	}
	return geom.Pt{}, false
}
