package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestFromRingHoldsWhatTheRingWindsAround(t *testing.T) {
	for seed := range uint64(12) {
		rnd := rand.New(rand.NewPCG(seed, 8))
		var r Ring
		switch seed % 3 {
		case 0: // chaos
			for range 60 {
				r = append(r, Pt{rnd.Float64() * 50, rnd.Float64() * 50})
			}
		case 1: // a hand that wanders
			r = Ring(scrawl(rnd, 400, 1, 0.5))
		case 2: // whole pixels, edges retraced
			for range 80 {
				r = append(r, Pt{float64(rnd.IntN(20)), float64(rnd.IntN(20))})
			}
		}
		wound, odd := FromRing(r), FromRings([]Ring{r}, true)
		checkValid(t, wound)
		checkValid(t, odd)
		box := r.Bounds()
		for range 4000 {
			p := Pt{box.Min.X + rnd.Float64()*box.Width(), box.Min.Y + rnd.Float64()*box.Height()}
			if DistToRing(p, r) < 0.05 { // slivers of rounding live along the line only
				continue
			}
			if wound.Contains(p) != r.Contains(p) {
				t.Fatalf("seed %d: %v is wound around: %v, in the area: %v", seed, p, r.Contains(p), wound.Contains(p))
			}
			if odd.Contains(p) != (r.winding(p)&1 != 0) {
				t.Fatalf("seed %d: %v lies wrong by the even-odd rule", seed, p)
			}
		}
	}
}

func TestFromRingOfKnownShapes(t *testing.T) {
	bow := Ring{{0, 0}, {10, 10}, {10, 0}, {0, 10}}
	cases := []struct {
		name  string
		got   Area
		area  float64
		rings int
	}{
		{"a square", FromRing(square(0, 0, 10)), 100, 1},
		{"a square run backwards", FromRing(square(0, 0, 10).Reverse()), 100, 1},
		{"a square run through twice", FromRing(append(square(0, 0, 10), square(0, 0, 10)...)), 100, 1},
		{"a bow tie", FromRing(bow), 50, 2},
		{"a square in a square by the even-odd rule", FromRings([]Ring{square(0, 0, 10), square(2, 2, 6)}, true), 64, 2},
		{"a square in a square by the non-zero rule", FromRings([]Ring{square(0, 0, 10), square(2, 2, 6)}, false), 100, 1},
		{"a square in a square run backwards, non-zero", FromRings([]Ring{square(0, 0, 10), square(2, 2, 6).Reverse()}, false), 64, 2},
		{"a square twice by the even-odd rule", FromRings([]Ring{square(0, 0, 10), square(0, 0, 10)}, true), 0, 0},
		{"a line there and back", FromRing(Ring{{0, 0}, {10, 3}, {20, 0}, {10, 3}}), 0, 0},
		{"one point", FromRing(Ring{{3, 3}}), 0, 0},
		{"nothing", FromRing(nil), 0, 0},
		{"points that are no numbers", FromRing(Ring{{0, 0}, {10, 0}, {math.NaN(), 1}, {10, 10}, {0, 10}, {math.Inf(1), 0}}), 100, 1},
		{"a square ending in its first point", FromRing(append(square(0, 0, 10), Pt{0, 0})), 100, 1},
		{"a spike on a square", FromRing(Ring{{0, 0}, {10, 0}, {10, 5}, {30, 5}, {10, 5}, {10, 10}, {0, 10}}), 100, 1},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			checkValid(t, c.got)
			near(t, "area", c.got.Area(), c.area, 1e-9)
			if len(c.got) != c.rings {
				t.Errorf("%d rings, want %d: %v", len(c.got), c.rings, c.got)
			}
		})
	}
}

func TestShapesBeyondTheLimitGetACoarserGridNotAWrongAnswer(t *testing.T) {
	for _, size := range []float64{20e3, Limit, 3 * Limit, 1e9, 1e15} {
		a, b := Area{square(0, 0, size)}, Area{square(size/2, size/2, size)}
		step := 1 / gridFor(2*size).perMM
		near(t, "area of the union over the expected", Union(a, b).Area()/(1.75*size*size), 1, 8*step/size)
		near(t, "area of the intersection over the expected", Intersect(a, b).Area()/(0.25*size*size), 1, 16*step/size)
	}
	roll := Buffer(5, Path{{0, 0}, {20000, 300}})
	near(t, "area of a buffer 20 m long", roll.Area(), 10*math.Hypot(20000, 300)+25*math.Pi, BufferTol*2*20100)
}

func TestPartsKeepHolesWithTheirOuters(t *testing.T) {
	a := FromRings([]Ring{
		square(0, 0, 100), square(10, 10, 30), square(20, 20, 10), // a hole with an island
		square(50, 50, 20),  // another hole
		square(200, 0, 50),  // a part of its own
		square(210, 10, 10), // with a hole
		square(250, 50, 10), // and one that touches it at a corner
	}, true)
	parts := Parts(a)
	if len(parts) != 4 {
		t.Fatalf("%d parts, want 4", len(parts))
	}
	sum := 0.0
	for _, p := range parts {
		checkValid(t, p)
		sum += p.Area()
	}
	near(t, "areas of the parts together", sum, a.Area(), 1e-9)
	near(t, "largest part", Largest(a).Area(), 10000-900-400, 1e-9)
	near(t, "holes filled", Outer(a).Area(), 10000+2500+100, 1e-9)
	near(t, "holes alone", Holes(a).Area(), 900+400+100-100, 1e-9)
}
