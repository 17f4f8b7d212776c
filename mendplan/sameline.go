package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

const (
	// sameLineMM is how near, in mm, the ends of two pieces on opposite
	// sides may come before the leaf has a line to break along.
	sameLineMM = 1.0
	// sameLineRun is how long, in mm, they must run together to matter.
	sameLineRun = 4.0
	// sameLineTurn is the angle, in degrees, up to which they count as
	// running together.
	sameLineTurn = 10.0
)

// sameLines finds straight ends of pieces on one side that lie on the same
// line as ends on the other side (F26a: A. BonaDea; the distances are common
// practice, no source). One problem for each pair of damages.
func (w leafWork) sameLines(pieces []Piece, boxes []geom.Box, sites map[SideName]*siteOf) []Problem {
	var out []Problem
	told := map[[2]int]bool{}
	sheet, known := w.sheet(sites)
	for i, a := range pieces {
		for k := i + 1; k < len(pieces); k++ {
			b := pieces[k]
			pair := [2]int{min(a.Damage, b.Damage), max(a.Damage, b.Damage)}
			if a.Side == b.Side || told[pair] || !boxes[i].Expand(sameLineMM).Overlaps(boxes[k]) {
				continue
			}
			at, found := sharedLine(a.Outline, b.Outline, func(p geom.Pt) bool { return !known || sheet.Contains(p) })
			if !found {
				continue
			}
			told[pair] = true
			p := w.placed(SameLine, Doubt, b.Side, at, sites)
			p.Damage = b.Damage
			p.Words = phrase.Of("Pieces %s and %s end on the same line on the two sides of leaf %s; it would break there.", a.Label, b.Label, markOf(w.leaf))
			p.Hint = phrase.Of("Make the second one wider or shorter.")
			out = append(out, p)
		}
	}
	return out
}

// sharedLine returns the middle of a stretch where an edge of a and an edge
// of b run together on the leaf.
func sharedLine(a, b geom.Area, onLeaf func(geom.Pt) bool) (geom.Pt, bool) {
	for _, ra := range a {
		for i, p := range ra {
			q := ra[(i+1)%len(ra)]
			if p.Dist(q) < sameLineRun {
				continue
			}
			for _, rb := range b {
				for k, u := range rb {
					if at, ok := runTogether(p, q, u, rb[(k+1)%len(rb)]); ok && onLeaf(at) {
						return at, true
					}
				}
			}
		}
	}
	return geom.Pt{}, false
}

// runTogether reports whether two segments run along one another, and where.
func runTogether(p, q, u, v geom.Pt) (geom.Pt, bool) {
	length := p.Dist(q)
	d := q.Sub(p).Mul(1 / length)
	e := v.Sub(u)
	if e.Norm() < sameLineRun || math.Abs(d.Cross(e.Unit())) > math.Sin(sameLineTurn*math.Pi/180) {
		return geom.Pt{}, false
	}
	lo, hi := u.Sub(p).Dot(d), v.Sub(p).Dot(d)
	lo, hi = max(0, min(lo, hi)), min(length, max(lo, hi))
	if hi-lo < sameLineRun {
		return geom.Pt{}, false
	}
	for _, s := range []float64{lo, (lo + hi) / 2, hi} {
		if geom.DistToSegment(p.Add(d.Mul(s)), u, v) > sameLineMM {
			return geom.Pt{}, false
		}
	}
	return p.Add(d.Mul((lo + hi) / 2)), true
}

// sheet returns the shape of the leaf from whichever side is known.
func (w leafWork) sheet(sites map[SideName]*siteOf) (Sheet, bool) {
	for _, name := range []SideName{Front, Back} {
		if s := sites[name]; s != nil && s.fault == nil {
			return s.sheet, true
		}
	}
	return Sheet{}, false
}
