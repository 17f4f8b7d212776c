package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
)

// bridges returns short pieces crosswise over the tear, evenly spaced and no
// further apart than the rules say: the outermost ones lie flush with the
// ends of the tear. They hold it together and leave it open between, so the
// margin is kept under them only.
func (s *site) bridges(t tear, r InForce, second bool) []draft {
	length, width := r.Number(BridgeLength), r.Number(BridgeWidth)
	if second {
		length += 2 * r.Number(SecondMargin)
	}
	var out []draft
	for i, p := range t.paths {
		for _, at := range spaced(p.line.Length(), width, r.Number(BridgeSpacing)) {
			a, b := p.line.At(at-width/2), p.line.At(at+width/2)
			along := b.Sub(a).Unit()
			if along == (geom.Pt{}) {
				along = tangent(p.line)
			}
			angle := geom.AngleOf(geom.Pt{X: -along.Y, Y: along.X})
			middle, long := p.line.At(at), length
			if i == 0 {
				for _, h := range s.hidden(geom.Path{a, b}) {
					middle, long = middle.Add(h[2].Sub(h[1]).Mul(0.5)), length+s.scarf().OverlapMM
				}
			}
			rect := geom.Rect{Center: middle, Angle: angle, Length: long, Width: width}
			out = append(out, draft{
				outline: geom.Area{rect.Corners()}, role: RoleBridge, style: Bridges,
				along: angle, toEdge: t.toEdge(i, at),
			})
		}
	}
	return out
}

// spaced returns the middles of bridges along a path of length n.
func spaced(n, width, spacing float64) []float64 {
	if n <= width {
		return []float64{n / 2}
	}
	gaps := max(1, math.Ceil((n-width)/spacing-1e-9))
	var out []float64
	for k := 0.0; k <= gaps; k++ {
		out = append(out, width/2+(n-width)*k/gaps)
	}
	return out
}
