package mendplan

import (
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// draft is a piece before it has a side, a tissue and a name.
type draft struct {
	outline geom.Area
	role    Role
	style   Style
	along   float64   // direction of its own length, degrees in the leaf frame
	bare    geom.Area // part of the outline that gets no paste
	rank    int       // first pieces of a mend before what lies on them
	toEdge  float64   // how far along the tear the leaf's edge is: far ones first
	infill  bool      // takes the weight of the leaf rather than a light tissue
	side    SideName  // given by the mend's kind, "" where advice decides
	other   bool      // on the other side than the mend's own
	why     []phrase.Phrase
}

// bands cuts an area into pieces no longer than longest that overlap by
// overlap where they meet: straight across its own length, again and again
// until all fit. Nothing of the area is lost, so what held a margin together
// still does.
func bands(a geom.Area, longest, overlap float64) []geom.Area {
	return bandsDeep(a, longest, overlap, 6)
}

func bandsDeep(a geom.Area, longest, overlap float64, deep int) []geom.Area {
	if a.Empty() {
		return nil
	}
	r := geom.MinWidthRect(a.Points())
	if deep == 0 || r.Length <= longest+2*geom.Grid {
		return []geom.Area{a}
	}
	n := 2
	for (r.Length+float64(n-1)*overlap)/float64(n) > longest {
		n++
	}
	each := (r.Length + float64(n-1)*overlap) / float64(n)
	dir := geom.Direction(r.Angle)
	var out []geom.Area
	for k := range n {
		mid := -r.Length/2 + each/2 + float64(k)*(each-overlap)
		band := geom.Rect{Center: r.Center.Add(dir.Mul(mid)), Angle: r.Angle, Length: each, Width: r.Width + 2}
		for _, part := range geom.Parts(geom.Intersect(a, geom.Area{band.Corners()})) {
			out = append(out, bandsDeep(part, longest, overlap, deep-1)...)
		}
	}
	return withoutSlivers(out, overlap)
}

// withoutSlivers drops small parts that lie in the others entirely, as cuts
// through a curve leave them.
func withoutSlivers(parts []geom.Area, overlap float64) []geom.Area {
	var out []geom.Area
	for i, p := range parts {
		if p.Area() < 4*overlap*overlap && len(parts) > 1 {
			rest := p
			for k, q := range parts {
				if k != i && (k < i || q.Area() >= 4*overlap*overlap) {
					rest = geom.Subtract(rest, q)
				}
			}
			if rest.Area() < geom.Grid {
				continue
			}
		}
		out = append(out, p)
	}
	return out
}

// ownAngle is the direction of the narrowest rectangle about an area.
func ownAngle(a geom.Area) float64 { return geom.MinWidthRect(a.Points()).Angle }
