package mendplan

import "leafmend/mendplan/geom"

// WetGrowth is how much a leaf grows when it is wet, in per cent along and
// across its grain (F44 to F47). Pieces are always sized on the dry scan; an
// infill that is fitted while the leaf is wet needs the loss as it is then,
// and comes back to its size with the leaf.
type WetGrowth struct{ AlongPercent, AcrossPercent float64 }

// WetGrowthOf reads the growth from rules.
func WetGrowthOf(r InForce) WetGrowth {
	return WetGrowth{AlongPercent: r.Number(WetAlong), AcrossPercent: r.Number(WetAcross)}
}

// Map returns how places of the dry leaf move when it is wet, the point about
// staying put. grainDeg is the leaf's grain, leaf frame.
func (g WetGrowth) Map(grainDeg float64, about geom.Pt) geom.Affine {
	return geom.Translate(about.Mul(-1)).
		Then(geom.Rotate(-grainDeg)).
		Then(geom.Scale(1+g.AlongPercent/100, 1+g.AcrossPercent/100)).
		Then(geom.Rotate(grainDeg)).
		Then(geom.Translate(about))
}

// WetMap returns how places of a piece move from the dry leaf to the wet one,
// about the middle of its outline, leaf frame, mm. ok is false when the leaf's
// grain is not known, as nobody can say then which way it grows more.
func WetMap(job Job, p Piece) (m geom.Affine, ok bool) {
	leaf, found := job.Leaf(p.Leaf)
	deg, known := paperFor(job, leaf).grain.Degrees()
	if !found || !known {
		return geom.Identity(), false
	}
	return WetGrowthOf(InForce{Job: job.Rules}).Map(deg, p.Outline.Bounds().Centre()), true
}

// WetOutline returns the outline of a piece as it must be on the wet leaf; its
// overlap grows along with it. ok is as of [WetMap].
func WetOutline(job Job, p Piece) (outline geom.Area, ok bool) {
	m, ok := WetMap(job, p)
	if !ok {
		return nil, false
	}
	return m.ApplyArea(p.Outline), true
}
