package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// grainWish is the direction a piece's grain must take.
type grainWish struct {
	deg  float64 // leaf frame
	free bool
	tol  float64 // degrees it may differ by
	why  phrase.Phrase
}

// grainFor decides the grain of a piece: guards, edge strips and bridges
// along their own length (F37, F38); infills as the leaf (F40); tears and
// overlays as the rules say (F41). A leaf whose grain is not known binds
// nothing.
func grainFor(d draft, paper paperOf, r InForce) grainWish {
	tol := r.Number(GrainTolerance)
	leafDeg, known := paper.grain.Degrees()
	asLeaf := grainWish{deg: leafDeg, tol: tol, why: phrase.Of("grain as the leaf's")}
	if !known {
		asLeaf = grainWish{free: true, why: phrase.Of("grain free, as the leaf's is not known")}
	}
	own := grainWish{deg: halfTurn(d.along), tol: tol, why: phrase.Of("grain along the piece (Brown, Mending and Repair of Books)")}
	switch {
	case d.style == Guard:
		own.why = phrase.Of("grain along the fold (Roberts and Etherington)")
		return own
	case d.style == EdgeStrip, d.style == Bridges:
		return own
	case d.infill:
		asLeaf.why = phrase.Of("%s (Cockerell, Bookbinding, and the Care of Books)", asLeaf.why)
		return asLeaf
	}
	rule := r.Word(GrainRule)
	switch {
	case rule == "free":
		return grainWish{free: true, why: phrase.Of("grain free, as the rules say")}
	case rule == "as the leaf", d.role == RoleCover:
		return asLeaf
	}
	return own
}

// blankFor returns the rectangle a piece is cut from, its Length along the
// tissue's grain: the smallest about the outline that keeps the grain within
// the tolerance, and the fringe of every torn edge added all round.
func blankFor(outline geom.Area, wish grainWish, fringe float64) geom.Rect {
	pts := geom.Hull(outline.Points())
	var best geom.Rect
	if wish.free {
		best = geom.MinRect(pts)
	} else {
		best = geom.RectAlong(pts, wish.deg)
		for _, deg := range turnsWithin(pts, wish) {
			if r := geom.RectAlong(pts, deg); r.Area() < best.Area()-1e-6 {
				best = r
			}
		}
	}
	return best.Expand(fringe)
}

// turnsWithin returns the directions worth trying: the limits of the
// tolerance and every edge of the hull, or its normal, that lies between.
func turnsWithin(hull geom.Ring, wish grainWish) []float64 {
	if wish.tol == 0 {
		return nil
	}
	out := []float64{wish.deg - wish.tol, wish.deg + wish.tol}
	for i, p := range hull {
		edge := geom.AngleOf(hull[(i+1)%len(hull)].Sub(p))
		for _, deg := range []float64{edge, edge + 90} {
			if off := grainOff(deg, wish.deg); off > 0 && off <= wish.tol {
				out = append(out, deg)
			}
		}
	}
	return out
}

// grainOff is the angle between two directions of grain, 0 to 90.
func grainOff(a, b float64) float64 {
	d := math.Abs(math.Remainder(a-b, 180))
	return min(d, 180-d)
}

// halfTurn brings a direction into [0, 180).
func halfTurn(deg float64) float64 {
	deg = math.Mod(deg, 180)
	if deg < 0 {
		deg += 180
	}
	if deg >= 180-1e-9 {
		deg = 0
	}
	return deg
}

// thinTissue is the grammage, g/m², up to which tissue is often used without
// regard to grain (common practice, no source).
const thinTissue = 6

// grainConflict tells when along the strip and as the leaf ask for different
// things: a strip's grain then crosses the leaf's. Thin tissue, and leaves of
// unknown grain, are not worth a word.
func grainConflict(d draft, wish grainWish, paper paperOf, tissue Tissue) (phrase.Phrase, bool) {
	leafDeg, known := paper.grain.Degrees()
	if !known || wish.free || tissue.Grammage <= thinTissue || d.style == Guard || d.infill {
		return phrase.Phrase{}, false
	}
	const crossing = 45
	switch {
	case grainOff(d.along, leafDeg) <= crossing, d.role == RoleCover, d.style == EdgeStrip, d.style == Bridges:
		return phrase.Phrase{}, false
	case grainOff(wish.deg, leafDeg) > crossing:
		return phrase.Of("runs along its strip, %.0f° off the leaf's", grainOff(wish.deg, leafDeg)), true
	}
	return phrase.Of("follows the leaf, %.0f° off the strip", grainOff(wish.deg, d.along)), true
}
