package scan

import (
	"fmt"
	"math"

	"leafmend/mendplan/geom"
)

// edgeTears proposes the slits of backing that run into the leaf and are too
// narrow to be losses: each as a line from its mouth to its tip.
func (s *lossScene) edgeTears() []Proposal {
	wide := s.missing.open(max(1, 0.3*s.mm)).grow(1.5)
	slit := s.openTo().minus(wide)
	lab, parts := slit.parts()
	var out []Proposal
	for _, b := range parts {
		depth := thickness(lab, s.outer, b, slit.w)
		if depth < leastTear*s.mm || b.n < 4 {
			continue
		}
		path := s.slitPath(only(lab, slit.w, slit.h, b.id), b)
		long := geom.Path(path).Length() / s.work.step / s.mm
		if long < leastTear {
			continue
		}
		width := float64(b.n) / (s.mm * s.mm) / long
		if width > 0.35*long {
			continue
		}
		out = append(out, Proposal{Kind: KindEdgeTear, Path: path,
			Confidence: sure(0.45 + 0.04*min(10, long-leastTear)),
			Why:        fmt.Sprintf("a slit of backing %.0f mm long and %.1f mm wide", long, width)})
	}
	return out
}

// openTo returns what is missing, and what hangs together with it or with the
// outside of the leaf and has the colour of the backing: an outline follows a
// slit only so far.
func (s *lossScene) openTo() *bitmap {
	if s.paper == nil {
		return s.missing
	}
	all := s.likeBehind(s.work)
	var seeds []int
	for i := range all.on {
		if !s.leaf.on[i] {
			all.on[i] = true
			seeds = append(seeds, i)
		}
	}
	return all.flood(seeds).and(s.ideal)
}

// slitPath walks from the pixel nearest the true edge to the one furthest from
// it along the slit.
func (s *lossScene) slitPath(m *bitmap, b part) []geom.Pt {
	start := b.first
	for y := b.y0; y <= b.y1; y++ {
		for x := b.x0; x <= b.x1; x++ {
			if i := y*m.w + x; m.on[i] && s.outer[i] < s.outer[start] {
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
		p = append(p, geom.Pt{X: (float64(i%m.w) + 0.5) * s.work.step, Y: (float64(i/m.w) + 0.5) * s.work.step})
	}
	p = geom.Path(p).Reverse()
	return simplifyPath(p, math.Max(0.7*s.work.step, 0.1*s.mm*s.work.step))
}
