package scan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// edgeLosses proposes what is missing between the true edge and the leaf,
// together with the linings that show at the edge: one torn place is often
// part backing, part lining.
func (s *lossScene) edgeLosses(linings []patch) []Proposal {
	gone := s.missing.open(max(1, 0.3*s.mm))
	lined := newBitmap(gone.w, gone.h)
	for i := range linings {
		q := &linings[i]
		for j, v := range q.m.on {
			if v {
				x, y := q.at(j)
				lined.on[y*gone.w+x] = true
			}
		}
	}
	all := newBitmap(gone.w, gone.h)
	for i := range all.on {
		all.on[i] = gone.on[i] || lined.on[i]
	}
	if len(linings) > 0 {
		all = all.grow(1.5).shrinkBy(1.5)
	}
	lab, parts := all.partsOverNecks(max(1, 0.5*s.mm), int(leastBody*s.mm*s.mm))
	var out []Proposal
	for _, b := range parts {
		if b.n == 0 {
			continue
		}
		if p, ok := s.edgeLoss(b, lab, all, lined); ok {
			out = append(out, p)
		}
	}
	return out
}

// edgeLoss weighs one part of what is missing or lined.
func (s *lossScene) edgeLoss(b part, lab []int32, all, lined *bitmap) (Proposal, bool) {
	area := float64(b.n) / (s.mm * s.mm)
	if area < leastEdgeLoss {
		return Proposal{}, false
	}
	depth := thickness(lab, s.outer, b, all.w) / s.mm
	kind := s.edgeKind(b, lab)
	least := leastDepth
	if kind == KindCornerLoss {
		least = leastCorner
	}
	// a long shallow one is rather the edge's own bend
	long := math.Hypot(float64(b.x1-b.x0), float64(b.y1-b.y0)) / s.mm
	least += min(0.7, 0.035*long)
	m := only(lab, all.w, all.h, b.id)
	share := float64(m.and(lined).count()) / float64(b.n)
	if share > 0.5 {
		least = leastDepth
	}
	if depth < least || share == 0 && s.gapShare(m) < 0.5 {
		return Proposal{}, false
	}
	if width := area / depth; kind == KindLoss && depth > 3.2*width {
		return Proposal{Kind: KindEdgeTear, Path: s.wayIn(m, b, s.outer), Confidence: sure(0.5 + 0.03*min(10, depth)),
			Why: phrase.Of("a gap %.0f mm deep and %.1f mm wide at most places", depth, width)}, true
	}
	p := Proposal{Kind: kind, Polygon: s.ringOf(m, b.first)}
	p.signs = s.edgeSigns(m, area, long, share)
	p.Confidence = edgeWeights.weigh(p.signs)
	seen := phrase.Of("backing")
	if share > 0.5 {
		seen = phrase.Of("another paper")
	}
	p.Why = phrase.Of("%s seen inside the true edge, %.0f mm² and up to %.1f mm deep", seen, area, depth)
	return p, true
}

// gapShare is the share of m that is backing rather than a mere stretch
// between a fitted edge and a leaf cut off by the border of the picture.
func (s *lossScene) gapShare(m *bitmap) float64 {
	in, n := 0, 0
	for i, v := range m.on {
		if !v {
			continue
		}
		n++
		x, y := i%m.w, i/m.w
		if x > 1 && y > 1 && x < m.w-2 && y < m.h-2 {
			in++
		}
	}
	return float64(in) / float64(max(1, n))
}

// edgeKind tells a corner loss, which takes a corner of the true edge with it.
func (s *lossScene) edgeKind(b part, lab []int32) string {
	r := max(2, int(0.8*s.mm))
	for _, c := range s.corner {
		for y := int(c.Y) - r; y <= int(c.Y)+r; y++ {
			for x := int(c.X) - r; x <= int(c.X)+r; x++ {
				if x >= 0 && y >= 0 && x < s.work.w && y < s.work.h && lab[y*s.work.w+x] == int32(b.id) {
					return KindCornerLoss
				}
			}
		}
	}
	return KindLoss
}

// sure holds a confidence to [0.05, 0.97] and rounds it.
func sure(v float64) float64 { return math.Round(100*max(0.05, min(0.97, v))) / 100 }

// baseline is the true edge as a ring: the four straight sides of corner, each
// bent by as little as a real sheet bends, following the leaf where the leaf
// lies near them and running straight over what is missing.
func baseline(ring []geom.Pt, corner [4]geom.Pt) []geom.Pt {
	var out []geom.Pt
	for k := range corner {
		a, b := corner[k], corner[(k+1)%4]
		long := a.Dist(b)
		e := b.Sub(a).Unit()
		if long < 4 {
			out = append(out, a)
			continue
		}
		s := sideFit{e: e, n: geom.Pt{X: e.Y, Y: -e.X}, lo: a.Dot(e), hi: b.Dot(e)}
		s.off = a.Dot(s.n)
		for i, c := range s.bend(ring) {
			out = append(out, s.at(s.binAt(i)).Add(s.n.Mul(c)))
		}
	}
	return out
}

// bend is how far outwards of its line the edge runs in each stretch.
func (s sideFit) bend(ring []geom.Pt) []float64 {
	prof := s.profile(ring)
	tol := max(2.5, 0.008*(s.hi-s.lo))
	c := make([]float64, sideBins)
	have := make([]bool, sideBins)
	const reach = sideBins / 14
	for i := range c {
		var near []float32
		for j := max(0, i-reach); j <= min(sideBins-1, i+reach); j++ {
			if d := prof[j] - s.off; math.Abs(d) < tol {
				near = append(near, float32(d))
			}
		}
		if len(near) > reach {
			c[i], have[i] = float64(quantile(near, 0.7)), true
		}
	}
	bridge(c, have)
	return smoothLine(c, sideBins/40)
}

// bridge fills the stretches not had in a straight line between those had.
func bridge(c []float64, have []bool) {
	last := -1
	for i := range c {
		if !have[i] {
			continue
		}
		for j := last + 1; j < i; j++ {
			if last < 0 {
				c[j] = c[i]
			} else {
				t := float64(j-last) / float64(i-last)
				c[j] = c[last] + t*(c[i]-c[last])
			}
		}
		last = i
	}
	if last >= 0 {
		for j := last + 1; j < len(c); j++ {
			c[j] = c[last]
		}
	}
}

func smoothLine(c []float64, r int) []float64 {
	out := make([]float64, len(c))
	for i := range c {
		lo, hi := max(0, i-r), min(len(c)-1, i+r)
		for j := lo; j <= hi; j++ {
			out[i] += c[j]
		}
		out[i] /= float64(hi - lo + 1)
	}
	return out
}
