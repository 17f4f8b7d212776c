package scan

import (
	"math"

	"leafmend/mendplan/geom"
)

// taut pulls straight whatever of a chain of pixels follows nothing. A flood
// over eight neighbours goes across plain paper in legs of whole and half
// right angles; wherever the straight way costs no more than the chain's, it
// is taken instead. The answer is places of window pixels, in full scan
// pixels, about one pixel apart.
func (f *Follower) taut(chain []int) []geom.Pt {
	t := tautness{f: f, chain: chain, sum: make([]float64, len(chain))}
	for k := 1; k < len(chain); k++ {
		a, b := t.at(k-1), t.at(k)
		t.sum[k] = t.sum[k-1] + a.Dist(b)*float64(int(f.cost[chain[k-1]])+int(f.cost[chain[k]]))/2
	}
	t.out = append(t.out, f.place(chain[0]))
	t.pull(0, len(chain)-1)
	return t.out
}

type tautness struct {
	f     *Follower
	chain []int
	sum   []float64 // cost along the chain up to each of its pixels
	out   []geom.Pt
}

// at is the middle of chain pixel k, in window pixels.
func (t *tautness) at(k int) geom.Pt {
	i := t.chain[k]
	return geom.Pt{X: float64(i%t.f.w) + 0.5, Y: float64(i/t.f.w) + 0.5}
}

// pull adds the way from chain pixel i to j, i itself left out.
func (t *tautness) pull(i, j int) {
	if j <= i {
		return
	}
	if j == i+1 {
		t.out = append(t.out, t.f.place(t.chain[j]))
		return
	}
	a, b := t.at(i), t.at(j)
	n := max(2, int(math.Ceil(a.Dist(b))))
	if t.straight(a, b, n) <= t.sum[j]-t.sum[i] {
		for k := 1; k <= n; k++ {
			t.out = append(t.out, a.Lerp(b, float64(k)/float64(n)).Mul(t.f.scale).Add(t.f.origin))
		}
		return
	}
	far, best := (i+j)/2, 0.0
	for k := i + 1; k < j; k++ {
		if d := geom.DistToSegment(t.at(k), a, b); d > best {
			far, best = k, d
		}
	}
	t.pull(i, far)
	t.pull(far, j)
}

// straight is what the straight way from a to b costs, read in n steps.
func (t *tautness) straight(a, b geom.Pt, n int) float64 {
	s := 0.0
	for k := range n {
		q := a.Lerp(b, (float64(k)+0.5)/float64(n))
		s += float64(t.f.cost[int(q.Y)*t.f.w+int(q.X)])
	}
	return s * a.Dist(b) / float64(n)
}
