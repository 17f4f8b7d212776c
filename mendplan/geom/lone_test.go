package geom

import (
	"math/rand/v2"
	"slices"
	"testing"
)

func TestASimpleRingTakesAShortCutToTheSameAnswer(t *testing.T) {
	short := 0
	for seed := range uint64(400) {
		rnd := rand.New(rand.NewPCG(seed, 26))
		g := gridFor(1000)
		var r gridRing
		switch seed % 4 {
		case 0:
			r = g.ring(star(rnd, Pt{50, 50}, 4+rnd.IntN(60), 30))
		case 1:
			o := newOffsetter(g, 3, sagitta)
			r = o.curve(there(scrawl(rnd, 2+rnd.IntN(12), 3, 0.4)))
		case 2: // many points on straight edges
			for _, p := range square(0, 0, 0.01*float64(10+rnd.IntN(90))) {
				q := g.snap(p)
				r = append(r, q, gridPt{q.x, q.y})
			}
			r = slices.Compact(r)
			r = slices.Insert(r, 1, gridPt{(r[0].x + r[1].x) / 2, (r[0].y + r[1].y) / 2})
		case 3: // not simple: the short cut must not be taken wrongly
			r = randomRing(rnd, 5, 2000)
		}
		if seed%8 > 3 {
			slices.Reverse(r)
		}
		for _, keep := range []rule{nonZero, positive, func(w [2]int32) bool { return w[0]&1 != 0 }} {
			quick, plain := new(loom), new(loom)
			quick.add(0, 1, r)
			plain.add(0, 1, r)
			plain.lone = nil // what a second ring would do
			a, b := quick.resolve(keep), plain.resolve(keep)
			if !slices.EqualFunc(a, b, func(p, q gridRing) bool { return slices.Equal(p, q) }) {
				t.Fatalf("seed %d: the short cut gives %v, the whole way %v", seed, a, b)
			}
			if quick.simple() {
				short++
			}
		}
	}
	if short < 300 {
		t.Errorf("the short cut was taken %d times only; the test shows little", short)
	}
}
