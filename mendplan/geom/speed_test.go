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

func BenchmarkOutlines(b *testing.B) {
	l := scrawl(rand.New(rand.NewPCG(1, 1)), 50, 2, 0.5)
	a := Buffer(4, l)
	b.Run("offset out", func(b *testing.B) {
		for b.Loop() {
			Offset(a, 2)
		}
	})
	b.Run("offset in", func(b *testing.B) {
		for b.Loop() {
			Offset(a, -2)
		}
	})
	b.Run("smooth", func(b *testing.B) {
		for b.Loop() {
			SmoothOut(a, 1)
		}
	})
	b.Run("simplify", func(b *testing.B) {
		for b.Loop() {
			SimplifyOut(a, 0.1)
		}
	})
	b.Run("least rectangle", func(b *testing.B) {
		for b.Loop() {
			MinRect(l)
		}
	})
	b.Run("least width", func(b *testing.B) {
		for b.Loop() {
			MinWidthRect(l[:12])
		}
	})
	b.Run("contains", func(b *testing.B) {
		for b.Loop() {
			a.Contains(Pt{50, 50})
		}
	})
	b.Run("buffer within 0.1", func(b *testing.B) {
		for b.Loop() {
			BufferWithin(4, 0.1, l)
		}
	})
}

// BenchmarkJob is the plane geometry of a large job: 500 tears, each with its
// shaped piece and three strips cut at the edge of the leaf.
func BenchmarkJob(b *testing.B) {
	rnd := rand.New(rand.NewPCG(1, 1))
	leaf := Area{square(0, 0, 200)}
	var tears []Path
	for range 500 {
		tears = append(tears, scrawl(rnd, 120, 0.7, 0.4))
	}
	for b.Loop() {
		for _, l := range tears {
			Intersect(BufferWithin(4, 0.1, l), leaf)
			line := Simplify(l, 0.1)
			for i := range 3 {
				n := len(line) / 3
				strip := MinWidthRect(line[i*n : (i+1)*n]).Expand(4)
				Intersect(Area{strip.Corners()}, leaf)
			}
		}
	}
}
