package scan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Tears that open to the backing. A slit is backing with leaf close by on
// both sides: what the leaf takes in when it is closed over gaps of slitWidth.
const (
	slitWidth = 1.5 // mm; a wider gap is a loss, or told by edgeLoss
	slitDepth = 2.0 // mm from the edge of the closed leaf to the tip
)

// edgeTears proposes the slits of backing that run into the leaf and are too
// narrow to be losses: each as a line from its mouth to its tip.
func (s *lossScene) edgeTears() []Proposal {
	if s.slit == nil {
		s.readSlits()
	}
	lab, parts := s.slit.grow(1.2).parts() // fibres across a tear do not end it
	var out []Proposal
	for _, b := range parts {
		depth := thickness(lab, s.shut, b, s.slit.w) / s.mm
		if depth < slitDepth || float64(b.n) < s.mm {
			continue
		}
		m := only(lab, s.slit.w, s.slit.h, b.id)
		path := s.toMouth(s.wayIn(m, b, s.shut))
		long := geom.Path(path).Length() / s.work.step / s.mm
		width := float64(m.and(s.slit).count()) / (s.mm * s.mm) / max(long, 0.1)
		// a crack wanders a little; a line that doubles back is none
		if long < leastTear || width > 0.3*long || long > 2.5*path[0].Dist(path[len(path)-1])/s.work.step/s.mm {
			continue
		}
		out = append(out, Proposal{Kind: KindEdgeTear, Path: path,
			Confidence: sure(0.5 + 0.05*min(8, long-leastTear) + 0.04*min(3, depth-slitDepth)),
			Why:        phrase.Of("a slit of backing %.0f mm long and %.1f mm wide", long, width)})
	}
	return out
}

// readSlits settles what is slit, and the distances within the leaf closed
// over its slits.
func (s *lossScene) readSlits() {
	s.open = s.openTo()
	solid := s.ideal.minus(s.open)
	if s.leaf.count() > 0 {
		solid = solid.keepLargest()
	}
	r := max(2, slitWidth*s.mm/2)
	closed := solid.grow(r).shrinkBy(r).and(s.ideal)
	s.slit = closed.minus(solid).and(s.open)
	s.shut = closed.not().sqDist()
}

// openTo returns what is missing, and what hangs together with it or with the
// outside of the leaf and has the colour of the backing: an outline follows a
// slit only so far. A fibre of a pixel or two across a slit does not close it.
func (s *lossScene) openTo() *bitmap {
	if s.paper == nil || s.paper.share == 0 {
		return s.missing
	}
	all := s.likeAny(s.work, s.unlikePaper(s.backing, 0.5))
	var seeds []int
	for i := range all.on {
		if !s.leaf.on[i] {
			all.on[i] = true
			seeds = append(seeds, i)
		}
	}
	return all.grow(1.5).flood(seeds).and(all).and(s.ideal)
}

// wayIn walks from the pixel of m where d is least to the one furthest from
// it within m, and keeps to the middle of m.
func (s *lossScene) wayIn(m *bitmap, b part, d []float32) []geom.Pt {
	start := b.first
	for y := b.y0; y <= b.y1; y++ {
		for x := b.x0; x <= b.x1; x++ {
			if i := y*m.w + x; m.on[i] && d[i] < d[start] {
				start = i
			}
		}
	}
	from := make(map[int]int, b.n)
	queue := []int{start}
	from[start] = -1
	for k := 0; k < len(queue); k++ {
		i := queue[k]
		x, y := i%m.w, i/m.w
		for dy := -1; dy <= 1; dy++ {
			for dx := -1; dx <= 1; dx++ {
				j := (y+dy)*m.w + x + dx
				if !m.get(x+dx, y+dy) {
					continue
				}
				if _, seen := from[j]; !seen {
					from[j] = i
					queue = append(queue, j)
				}
			}
		}
	}
	var p []geom.Pt
	for i := queue[len(queue)-1]; i >= 0; i = from[i] {
		p = append(p, s.middleOf(m, i).Mul(s.work.step))
	}
	p = unstair(geom.Path(p).Reverse())
	return simplifyPath(p, math.Max(0.7*s.work.step, 0.1*s.mm*s.work.step))
}

// middleOf is the mean of the pixels of m within a millimetre's reach of pixel
// i, in working pixels.
func (s *lossScene) middleOf(m *bitmap, i int) geom.Pt {
	r := max(2, int(0.6*s.mm))
	x0, y0 := i%m.w, i/m.w
	var sum geom.Pt
	n := 0.0
	for y := y0 - r; y <= y0+r; y++ {
		for x := x0 - r; x <= x0+r; x++ {
			if m.get(x, y) {
				sum, n = sum.Add(geom.Pt{X: float64(x) + 0.5, Y: float64(y) + 0.5}), n+1
			}
		}
	}
	return sum.Mul(1 / n)
}
