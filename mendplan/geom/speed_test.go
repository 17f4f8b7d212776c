package geom

import (
	"fmt"
	"math/rand/v2"
	"testing"
)

func BenchmarkBuffer(b *testing.B) {
	for _, n := range []int{2, 30, 60, 200, 2000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			l := scrawl(rand.New(rand.NewPCG(1, 1)), n, 2, 0.5)
			b.ReportAllocs()
			for b.Loop() {
				Buffer(4, l)
			}
		})
	}
}

func BenchmarkBufferDense(b *testing.B) {
	cases := []struct {
		n             int
		step, turn, r float64
	}{{200, 1, 0.8, 4}, {200, 0.3, 1.5, 4}, {2000, 1, 1.2, 3}, {2000, 0.3, 1.5, 4}, {2000, 5, 1, 2}}
	for _, c := range cases {
		b.Run(fmt.Sprint(c), func(b *testing.B) {
			l := scrawl(rand.New(rand.NewPCG(1, 1)), c.n, c.step, c.turn)
			b.ReportAllocs()
			for b.Loop() {
				Buffer(c.r, l)
			}
		})
	}
}

func BenchmarkUnion200(b *testing.B) {
	rnd := rand.New(rand.NewPCG(1, 1))
	p, q := FromRing(star(rnd, Pt{50, 50}, 200, 40)), FromRing(star(rnd, Pt{60, 55}, 200, 40))
	b.ReportAllocs()
	for b.Loop() {
		Union(p, q)
	}
}

func BenchmarkIntersect2000(b *testing.B) {
	rnd := rand.New(rand.NewPCG(1, 1))
	p, q := FromRing(star(rnd, Pt{50, 50}, 2000, 40)), FromRing(star(rnd, Pt{60, 55}, 2000, 40))
	b.ReportAllocs()
	for b.Loop() {
		Intersect(p, q)
	}
}
