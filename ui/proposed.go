package ui

import (
	"slices"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// mostOf is the share of a proposal that lies in a loss traced already for it
// not to be proposed once more.
const mostOf = 0.5

// oriented is a ring as an area, whichever way it was drawn.
func oriented(ring geom.Ring) geom.Area {
	if ring.SignedArea() < 0 {
		ring = ring.Reverse()
	}
	return geom.Area{ring}
}

// tracedAlready reports whether a proposed loss is in the job.
func tracedAlready(damages []mendplan.Damage, side mendplan.SideName, ring []geom.Pt) bool {
	area := oriented(ring)
	return slices.ContainsFunc(damages, func(d mendplan.Damage) bool {
		if !d.Kind.Missing() || d.Side != side || len(d.Points) < 3 {
			return false
		}
		both := geom.Intersect(area, oriented(d.Points))
		return both.Area() > mostOf*area.Area()
	})
}

// nearMM is how near a proposed tear runs to one that is traced for it to be
// the same.
const nearMM = 3

// tornAlready reports whether a proposed tear is in the job: all of it runs
// near a traced one. Without a scale a millimetre counts for 12 pixels, as at
// 300 pixels an inch.
func tornAlready(damages []mendplan.Damage, side mendplan.SideName, path []geom.Pt, pxPerMM float64) bool {
	if pxPerMM <= 0 {
		pxPerMM = 12
	}
	return slices.ContainsFunc(damages, func(d mendplan.Damage) bool {
		if d.Side != side || d.Kind != mendplan.Tear && d.Kind != mendplan.Split && d.Kind != mendplan.Nicks || len(d.Points) < 2 {
			return false
		}
		for _, p := range path {
			if dist, _ := geom.Path(d.Points).Nearest(p); dist > nearMM*pxPerMM {
				return false
			}
		}
		return true
	})
}
