package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestSimplifyKeepsWithinItsTolerance(t *testing.T) {
	for seed := range uint64(20) {
		rnd := rand.New(rand.NewPCG(seed, 14))
		l := scrawl(rnd, 300, 0.5, 0.5)
		for _, tol := range []float64{0.05, 0.3, 2} {
			s := Simplify(l, tol)
			if s[0] != l[0] || s[len(s)-1] != l[len(l)-1] {
				t.Fatalf("an end moved")
			}
			at := 0
			for _, p := range l {
				if d := DistToPath(p, s); d > tol+1e-12 {
					t.Fatalf("seed %d: a point lies %.4f off, tolerance %g", seed, d, tol)
				}
				if at < len(s) && p == s[at] {
					at++
				}
			}
			if at != len(s) {
				t.Fatalf("the result has points that the line has not, or in another order")
			}
			r := SimplifyRing(Ring(l), tol)
			if len(r) < 3 {
				t.Fatalf("a ring of %d points", len(r))
			}
			for _, p := range l {
				if d := DistToRing(p, r); d > tol+1e-12 {
					t.Fatalf("seed %d: a point of the ring lies %.4f off, tolerance %g", seed, d, tol)
				}
			}
		}
	}
}

func TestSimplifyOfKnownLines(t *testing.T) {
	cases := []struct {
		name string
		line Path
		tol  float64
		want int
	}{
		{"nothing", nil, 1, 0},
		{"one point", Path{{1, 1}}, 1, 1},
		{"a straight line", Path{{0, 0}, {1, 0}, {2, 0}, {5, 0}}, 0.01, 2},
		{"a bend beyond tolerance", Path{{0, 0}, {5, 1}, {10, 0}}, 0.99, 3},
		{"a bend within tolerance", Path{{0, 0}, {5, 1}, {10, 0}}, 1, 2},
		{"a line that doubles back past its end", Path{{0, 0}, {10, 0}, {5, 0}}, 1, 3},
		{"a closed line", Path{{0, 0}, {10, 0}, {10, 10}, {0, 0}}, 1, 4},
		{"no tolerance", Path{{0, 0}, {1, 0}, {2, 0}}, 0, 3},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := Simplify(c.line, c.tol); len(got) != c.want {
				t.Errorf("%v, want %d points", got, c.want)
			}
		})
	}
	sq := Ring{{0, 0}, {5, 0}, {10, 0}, {10, 5}, {10, 10}, {5, 10}, {0, 10}, {0, 5}}
	if got := SimplifyRing(sq, 0.1); len(got) != 4 || got.SignedArea() != 100 {
		t.Errorf("a square with middles became %v", got)
	}
	if got := SimplifyRing(sq, 100); len(got) != 3 {
		t.Errorf("a ring kept %d points, want 3 at any tolerance", len(got))
	}
}

// checkCovers fails unless b contains all of a and reaches no further than
// far beyond it, judged at points along the boundaries, by plain distance.
func checkCovers(t *testing.T, b, a Area, far float64) {
	t.Helper()
	if lost := Subtract(a, b).Area(); lost > 0 {
		t.Fatalf("%g mm² are lost", lost)
	}
	for _, r := range a {
		for i, p := range r {
			for k := range 4 {
				q := p.Lerp(r[(i+1)%len(r)], float64(k)/4)
				if d := DistToArea(q, b); d > 1.5*Grid {
					t.Fatalf("%v of the boundary is left outside by %.5f", q, d)
				}
			}
		}
	}
	for _, r := range b {
		for i, p := range r {
			for k := range 4 {
				q := p.Lerp(r[(i+1)%len(r)], float64(k)/4)
				if d := DistToArea(q, a); d > far {
					t.Fatalf("%v stands out by %.4f, more than %g", q, d, far)
				}
			}
		}
	}
}

func TestSimplifyOutCoversWithFewerPoints(t *testing.T) {
	for seed := range uint64(15) {
		rnd := rand.New(rand.NewPCG(seed, 15))
		a := Buffer(3, scrawl(rnd, 200, 0.5, 0.7))
		if seed%3 == 0 {
			a = FromRing(Ring(scrawl(rnd, 300, 0.5, 0.4)))
		}
		for _, tol := range []float64{0.05, 0.1, 0.3, 1} {
			s := SimplifyOut(a, tol)
			checkValid(t, s)
			checkCovers(t, s, a, tol)
			if tol >= 0.3 && points(s) > points(a)/2 {
				t.Errorf("seed %d: %d of %d points kept at tolerance %g", seed, points(s), points(a), tol)
			}
		}
	}
	sq := Area{square(0, 0, 10)}
	same(t, SimplifyOut(sq, 0.5), sq)
}

func TestSmoothOutFillsNotchesThickensSpikesAndLosesNothing(t *testing.T) {
	const radius = 1.0
	for seed := range uint64(15) {
		rnd := rand.New(rand.NewPCG(seed, 16))
		a := FromRing(Ring(scrawl(rnd, 200, 0.7, 0.6)))
		s := SmoothOut(a, radius)
		checkValid(t, s)
		checkCovers(t, s, a, 2*radius+3*BufferTol)
		// No notch is finer than the radius: closing again with a slightly
		// smaller disc must find nothing to fill.
		if more := Subtract(closing(s, radius*0.95), Offset(s, BufferTol)).Area(); more > 0.02 {
			t.Errorf("seed %d: %g mm² of notches are left", seed, more)
		}
	}
	body := square(0, 0, 20)
	cases := []struct {
		name string
		a    Area
		lo   float64 // area added, at least and at most
		hi   float64
	}{
		{"a square keeps its corners", Area{body}, 0, 0},
		{"a slit is filled", Subtract(Area{body}, Area{Box{Pt{10, 5}, Pt{10.5, 21}}.Ring()}), 7, 7.5},
		{"a pinhole is filled", Subtract(Area{body}, Area{square(5, 5, 1)}), 1, 1},
		{"a wide hole stays", Subtract(Area{body}, Area{square(5, 5, 8)}), 0, 4 - math.Pi},
		{"a thin spike is made two radii wide", Union(Area{body}, Area{Box{Pt{20, 10}, Pt{26, 10.2}}.Ring()}), 9, 15},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := SmoothOut(c.a, radius)
			checkValid(t, s)
			most := c.hi + s.Perimeter()*BufferTol
			if added := s.Area() - c.a.Area(); added < c.lo || added > most {
				t.Errorf("%.3f mm² added, want from %g to %g", added, c.lo, most)
			}
		})
	}
	if !SmoothOut(nil, 1).Empty() {
		t.Error("nothing made smooth is something")
	}
}

func TestSmoothOutLeavesAWideShapeAlmostAlone(t *testing.T) {
	b := Buffer(5, Path{{0, 0}, {40, 0}, {80, 30}})
	near(t, "area", SmoothOut(b, 1).Area(), b.Area(), b.Perimeter()*2*BufferTol)
	if math.IsNaN(SmoothOut(b, math.NaN()).Area()) {
		t.Error("a radius that is no number must change nothing")
	}
}
