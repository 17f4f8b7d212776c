package draw

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestNoiseStaysWithinItsRange(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		x, y := 1e3*rng.NormFloat64(), 1e3*rng.NormFloat64()
		if v := layered(x, y, 4, 9); math.Abs(v) > 1 || math.IsNaN(v) {
			t.Fatalf("noise of %g at %g, %g", v, x, y)
		}
	}
}

func TestAFrameLeadsThereAndBack(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	s := Spec{WidthMM: 264, HeightMM: 186, PPI: 300}
	for range 2000 {
		f := newFrame(s, Pt{1500 * rng.Float64(), 900 * rng.Float64()}, 20*rng.NormFloat64(), rng.Float64() < 0.5)
		p := Pt{264 * rng.Float64(), 186 * rng.Float64()}
		if q := f.toLeaf(f.leaf(p)); q.sub(p).length() > 1e-9 {
			t.Fatalf("%v came back as %v", p, q)
		}
	}
}

func TestATornLineKeepsItsEndsAndIsFine(t *testing.T) {
	for seed := range uint64(50) {
		rng := rand.New(rand.NewPCG(seed, 5))
		path := []Pt{{0, 0}, {20, 5}, {45, -3}}
		torn := rough(path, 0.1, finestMM, rng)
		if torn[0] != path[0] || torn[len(torn)-1] != path[2] {
			t.Fatalf("seed %d: the ends moved", seed)
		}
		for i := 1; i < len(torn); i++ {
			if l := torn[i].sub(torn[i-1]).length(); l > 3*finestMM {
				t.Fatalf("seed %d: a segment of %.2f mm is left", seed, l)
			}
		}
	}
}

func TestThinningStaysWithinItsTolerance(t *testing.T) {
	for seed := range uint64(50) {
		rng := rand.New(rand.NewPCG(seed, 6))
		path := rough([]Pt{{0, 0}, {40, 10}}, 0.15, 0.3, rng)
		kept := thin(path, 0.4)
		if len(kept) >= len(path) {
			t.Fatalf("seed %d: nothing was thinned", seed)
		}
		for _, p := range path {
			best := math.Inf(1)
			for i := 1; i < len(kept); i++ {
				best = min(best, toSegment(p, kept[i-1], kept[i]))
			}
			if best > 0.4+1e-9 {
				t.Fatalf("seed %d: a point lies %.3f off", seed, best)
			}
		}
	}
}

func TestPerimeterAndDistanceAreInverse(t *testing.T) {
	l := &leaf{spec: Spec{WidthMM: 264, HeightMM: 186}}
	for d := 0.5; d < l.around(); d += 7.3 {
		if got := l.distance(l.perimeter(d)); math.Abs(got-d) > 1e-9 {
			t.Errorf("distance %g came back as %g", d, got)
		}
	}
}

func TestAFilledSquareCoversItsArea(t *testing.T) {
	m := newMask(60, 60)
	m.fill([]Pt{{10.5, 10.5}, {40.5, 10.5}, {40.5, 30.5}, {10.5, 30.5}})
	sum := 0.0
	for _, a := range m.Pix {
		sum += float64(a) / 255
	}
	if math.Abs(sum-600) > 1 { // 30 × 20
		t.Errorf("the square covers %.1f pixels, want 600", sum)
	}
	if m.blurred(3).Pix[20*60+25] != 255 {
		t.Error("blurring changed the middle of the square")
	}
}
