package scan

import "fmt"

// holes proposes through-holes: compact, even, sharp-edged spots inside the
// leaf in the colour of the backing, or of a lining that shows at the edges
// too, and not in the colour of the ink.
func (s *lossScene) holes() []Proposal {
	spots := s.patches(s.likeBehind(s.paper.smooth), s.mayBeHole)
	if len(s.lining) > 0 {
		spots = append(spots, s.patches(s.odd, s.mayBeHole)...)
	}
	var out []Proposal
	var taken []*patch
	for i := range spots {
		q := &spots[i]
		area := s.patchArea(q)
		if area < leastHole || q.touch > 0 || !s.mayBeHole(q) || !standsAlone(q) || s.overlaps(q, taken) {
			continue
		}
		if s.mayBeInk(q) {
			continue
		}
		taken = append(taken, q)
		out = append(out, Proposal{Kind: KindHole, Polygon: s.patchRing(q),
			Confidence: sure(0.45 + 0.2*min(1, q.hard) + 0.3*q.round - 0.07*q.match - 0.8*q.crowd),
			Why:        fmt.Sprintf("%s seen through the leaf, %.1f mm²", q.what, area)})
	}
	if len(taken) > 40 { // worm holes are many, but so are the dots of a screen
		for i := range out {
			out[i].Confidence = sure(out[i].Confidence * 0.5)
		}
	}
	return out
}

// mayBeHole reports that a patch has the colour of what lies behind the leaf,
// and sets what that is.
func (s *lossScene) mayBeHole(q *patch) bool {
	q.match, q.what = s.behind(q.colour, q.cx, q.cy)
	most := mostUnlike
	if q.lined() {
		most = max(4, 0.13*float64(q.step)) / 3
	}
	return !q.nearEdge && q.match <= most && q.even <= 0.45*q.step
}

// lined reports that what is seen through a patch is a lining.
func (q *patch) lined() bool { return q.what == aLining }

// mayBeInk reports that a patch has the colour of the writing, or one between
// it and the paper's and is no wider than a broad stroke.
func (s *lossScene) mayBeInk(q *patch) bool {
	if !s.ink.have {
		return false
	}
	if q.lined() && float64(q.colour.dist(s.ink.c)) < 2.4*q.match+4 {
		return true
	}
	ink := backHue{hue: hue{mean: s.ink.c}, w: 1, h: 1}
	if ink.unlike(q.colour, 0, 0) < 0.7*q.match {
		return true
	}
	paper := s.paper.at(int(q.cx), int(q.cy))
	to, c := s.ink.c.sub(paper), q.colour.sub(paper)
	t := (c.l*to.l + c.a*to.a + c.b*to.b) / max(1, to.l*to.l+to.a*to.a+to.b*to.b)
	return t > 0.2 && t < 1.5 && c.dist(to.mul(t)) < 0.09*q.step && q.radius < 1.2 && q.match > 1
}

// standsAlone reports that a patch is compact, sharp-edged and surrounded by
// bare paper: not part of a stroke, a picture or a stamp.
func standsAlone(q *patch) bool {
	return q.hard >= 0.45 && q.hard <= 1.45 && q.round >= 0.26 && q.alone >= 0.7 && q.crowd <= 0.25
}

// overlaps reports that q covers the first pixel of a patch taken before, or
// the other way round: the same hole found twice.
func (s *lossScene) overlaps(q *patch, taken []*patch) bool {
	for _, t := range taken {
		if t.holds(q.at(q.first)) || q.holds(t.at(t.first)) {
			return true
		}
	}
	return false
}

// at is the place of window pixel i on the working plane; holds reports that
// the patch has the pixel there.
func (q *patch) at(i int) (x, y int) { return q.x0 + i%q.m.w, q.y0 + i/q.m.w }

func (q *patch) holds(x, y int) bool { return q.m.get(x-q.x0, y-q.y0) }
