package scan

import "math"

// A proposal's confidence is weighed from several signs by a logistic
// function. The weights were fitted to some hundreds of drawn leaves other
// than those the tables of the tests are made of, so that of proposals with a
// confidence of 0.8 about four in five are right there. Two of the signs of a
// hole are not left to drawn ink, which is too even: what hangs on a patch as
// the rest of a stroke, and its width. On drawn leaves they make no
// difference, and they tell real ink.

// weights are a constant and one number for each sign.
type weights []float64

func (w weights) weigh(signs []float64) float64 {
	sum := w[0]
	for i, v := range signs {
		sum += w[i+1] * v
	}
	return sure(1 / (1 + math.Exp(-sum)))
}

// leastConfidence is below what nothing is proposed: more often wrong than
// right.
const leastConfidence = 0.5

var (
	holeWeights = weights{2.07, -1.53, -0.545, 1.15, -3.61, 0.281, -0.417, -0.245, -1, 1.25}
	edgeWeights = weights{4.16, 0.829, -0.806, -1.62}
)

// holeSigns tells a hole from print: how far its colour is from the backing's,
// how even it is for the backing's own grain, its size and edge, how much
// further it is from the writing's colour, how many others look like it, which
// counts the more the less it looks like backing, what hangs on it, and how
// wide it is.
func (s *lossScene) holeSigns(q *patch, all []*patch) []float64 {
	same := 0.0
	for _, t := range all {
		if t != q && t.colour.dist(q.colour) < 7 {
			same++
		}
	}
	grain := float32(1.2)
	if len(s.backing) > 0 {
		grain = max(grain, s.backing[0].sl)
	}
	return []float64{
		q.match,
		min(5, float64(q.even/grain)),
		math.Log(s.patchArea(q)),
		min(0.57, math.Abs(q.hard-0.93)), // up to 1.5; see hardest
		s.inky(q) - q.match,
		math.Log1p(same),
		math.Log1p(same) * min(3, q.match),
		min(2, q.tail),
		math.Log(q.radius),
	}
}

// edgeSigns tells a loss at an edge from the edge's own unevenness: its size,
// how far what is seen there is from the backing, unless that is a lining, and
// how long it is for its width.
func (s *lossScene) edgeSigns(m *bitmap, area, long, lined float64) []float64 {
	like := 0.0
	if lined <= 0.5 {
		like = min(6, s.goneColour(m))
	}
	return []float64{
		math.Log(area),
		like,
		math.Log(long / max(0.3, area/max(long, 0.1))),
	}
}

// goneColour is how unlike the backing the middle of m is.
func (s *lossScene) goneColour(m *bitmap) float64 {
	var far []float32
	in := m.not().sqDist()
	for i, v := range m.on {
		if v && in[i] > 2 {
			d, _ := s.behind(s.work.at(i), float64(i%m.w), float64(i/m.w))
			far = append(far, float32(d))
		}
	}
	return float64(median(far))
}
