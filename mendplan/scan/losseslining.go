package scan

import "fmt"

// linings proposes the places at the edges where an earlier lining, guard or
// repair shows inside the outline: an even patch of another colour that
// touches the edge of the leaf and ends sharply.
func (s *lossScene) linings() []Proposal {
	s.ink = s.readInk()
	s.spots = s.patches(s.strange())
	var out []Proposal
	total := 0.0
	for i := range s.spots {
		q := &s.spots[i]
		area := s.patchArea(q)
		if area < leastEdgeLoss || float64(q.touch) < 1.5*s.mm {
			continue
		}
		if q.hard < 0.5 || q.even > 0.4*q.step || q.step < 9 || q.round < 0.04 || s.looksInked(q) {
			continue
		}
		total += area
		s.lining = append(s.lining, q.colour)
		out = append(out, Proposal{Kind: s.patchKind(q), Polygon: s.patchRing(q),
			Confidence: sure(0.35 + 0.4*min(1, q.hard) + float64(0.01*min(20, q.step-9))),
			Why:        fmt.Sprintf("another paper shows at the edge, %.0f mm²", area)})
	}
	if leaf := float64(s.leaf.count()) / (s.mm * s.mm); total > 0.2*leaf {
		for i := range out { // more likely a picture printed to the edge
			out[i].Confidence = sure(out[i].Confidence * 0.4)
		}
	}
	return out
}

// looksInked reports that a patch has the colour of the writing.
func (s *lossScene) looksInked(q *patch) bool {
	return s.ink.have && q.colour.dist(s.ink.c) < 0.3*q.step
}

func (s *lossScene) patchKind(q *patch) string {
	r := 1.2 * s.mm
	for _, c := range s.corner {
		for j, v := range q.m.on {
			dx, dy := float64(q.x0+j%q.m.w)-c.X, float64(q.y0+j/q.m.w)-c.Y
			if v && dx*dx+dy*dy < r*r {
				return KindCornerLoss
			}
		}
	}
	return KindLoss
}
