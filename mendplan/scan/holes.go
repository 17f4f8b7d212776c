package scan

import (
	"math"

	"leafmend/mendplan/phrase"
)

// holes proposes through-holes: compact, even, sharp-edged spots inside the
// leaf in the colour of the backing, or of a lining that shows at the edges
// too, and not in the colour of the ink. What stands for and against each is
// weighed together; see holeSigns.
func (s *lossScene) holes() []Proposal {
	spots := s.patches(s.likeBehind(s.paper.smooth), s.mayBeHole)
	if len(s.lining) > 0 {
		spots = append(spots, s.patches(s.odd, s.mayBeHole)...)
	}
	var taken []*patch
	for i := range spots {
		q := &spots[i]
		if s.patchArea(q) < leastHole || q.touch > 0 || !s.mayBeHole(q) || !s.standsAlone(q) || s.overlaps(q, taken) {
			continue
		}
		taken = append(taken, q)
	}
	var out []Proposal
	for _, q := range taken {
		p := Proposal{Kind: KindHole, Polygon: s.patchRing(q), signs: s.holeSigns(q, taken),
			Why: phrase.Of("%s seen through the leaf, %.1f mm²", q.what, s.patchArea(q))}
		p.Confidence = holeWeights.weigh(p.signs)
		out = append(out, p)
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
	return !q.nearEdge && q.match <= most && q.even <= 0.5*q.step
}

// lined reports that what is seen through a patch is a lining.
func (q *patch) lined() bool { return q.what.English == aLining.English }

// inky is how far, in the units of unlike, a patch is from the colour of the
// writing, from one between it and the paper's, or from a deeper one of the
// same hue, as ink has where it stood thick; 6 when nothing is known of the
// writing or it is further.
func (s *lossScene) inky(q *patch) float64 {
	if !s.ink.have {
		return 6
	}
	if k := q.colour.l / max(1, s.ink.c.l); k < 1 && k > 0 {
		return min(6, math.Hypot(float64(q.colour.a-k*s.ink.c.a), float64(q.colour.b-k*s.ink.c.b))/behindChroma/1.5)
	}
	ink := backHue{hue: hue{mean: s.ink.c}, w: 1, h: 1}
	d := ink.unlike(q.colour, 0, 0)
	paper := s.paper.at(int(q.cx), int(q.cy))
	to, c := s.ink.c.sub(paper), q.colour.sub(paper)
	t := (c.l*to.l + c.a*to.a + c.b*to.b) / max(1, to.l*to.l+to.a*to.a+to.b*to.b)
	if t > 0.2 && t < 1.5 { // strokes that cross, and those read too faint
		d = min(d, float64(c.dist(to.mul(t)))/2)
	}
	return min(6, d)
}

// standsAlone reports that a patch is compact, sharp-edged and surrounded by
// bare paper: not part of a stroke, a picture or a stamp.
func (s *lossScene) standsAlone(q *patch) bool {
	return q.hard >= 0.4 && q.hard <= s.hardest(q) && q.round >= 0.2 && q.alone >= 0.6 && q.crowd <= 0.3
}

// hardest is how hard the edge of a hole may be. On a leaf printed dark all
// over the white core shows along a torn edge, which is then much harder than
// the step from print to backing.
func (s *lossScene) hardest(q *patch) float64 {
	if s.paper.at(int(q.cx), int(q.cy)).l < 45 {
		return 3
	}
	return 1.5
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
