package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestPlacesAlongAPath(t *testing.T) {
	l := Path{{0, 0}, {10, 0}, {10, 0}, {10, 5}}
	if l.Length() != 15 || (Path{}).Length() != 0 || (Path{{1, 1}}).Length() != 0 {
		t.Errorf("lengths %g, %g, %g", l.Length(), (Path{}).Length(), (Path{{1, 1}}).Length())
	}
	for s, want := range map[float64]Pt{-1: {0, 0}, 0: {0, 0}, 4: {4, 0}, 10: {10, 0}, 12: {10, 2}, 15: {10, 5}, 99: {10, 5}} {
		if got := l.At(s); got.Dist(want) > 1e-12 {
			t.Errorf("At(%g) = %v, want %v", s, got, want)
		}
	}
	if (Path{}).At(3) != (Pt{}) || (Path{{2, 2}}).At(3) != (Pt{2, 2}) {
		t.Error("paths of none or one point")
	}
}

func TestCutsOfAPath(t *testing.T) {
	l := Path{{0, 0}, {10, 0}, {10, 5}}
	cases := []struct {
		name   string
		s0, s1 float64
		want   Path
	}{
		{"over the bend", 8, 12, Path{{8, 0}, {10, 0}, {10, 2}}},
		{"within a segment", 2, 4, Path{{2, 0}, {4, 0}}},
		{"all of it and more", -5, 50, l},
		{"backwards", 12, 8, Path{{10, 2}, {10, 0}, {8, 0}}},
		{"nothing long", 3, 3, Path{{3, 0}}},
		{"from the bend on", 10, 15, Path{{10, 0}, {10, 5}}},
		{"up to the bend", 0, 10, Path{{0, 0}, {10, 0}}},
		{"past the end", 20, 30, Path{{10, 5}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := l.Cut(c.s0, c.s1)
			if len(got) != len(c.want) {
				t.Fatalf("%v, want %v", got, c.want)
			}
			for i := range got {
				if got[i].Dist(c.want[i]) > 1e-12 {
					t.Errorf("%v, want %v", got, c.want)
				}
			}
		})
	}
	if (Path{}).Cut(0, 1) != nil {
		t.Error("a cut of nothing must be nothing")
	}
	for seed := range uint64(50) { // lengths of cuts add up
		rnd := rand.New(rand.NewPCG(seed, 24))
		l := scrawl(rnd, 40, 1, 1)
		s := rnd.Float64() * l.Length()
		near(t, "length of both halves", l.Cut(0, s).Length()+l.Cut(s, l.Length()).Length(), l.Length(), 1e-9)
	}
}

func TestNearestIsTheNearestOfManySamples(t *testing.T) {
	for seed := range uint64(40) {
		rnd := rand.New(rand.NewPCG(seed, 25))
		l := scrawl(rnd, 30, 2, 1)
		p := l.At(30).Add(Pt{10 * rnd.NormFloat64(), 10 * rnd.NormFloat64()})
		d, s := l.Nearest(p)
		near(t, "distance at the place named", l.At(s).Dist(p), d, 1e-9)
		for k := range 3000 {
			if q := l.At(l.Length() * float64(k) / 3000); q.Dist(p) < d-1e-12 {
				t.Fatalf("seed %d: a sample is nearer", seed)
			}
		}
	}
	if d, _ := (Path{}).Nearest(Pt{}); !math.IsInf(d, 1) {
		t.Error("nothing must be infinitely far")
	}
	if d, s := (Path{{3, 4}}).Nearest(Pt{}); d != 5 || s != 0 {
		t.Errorf("one point: %g at %g", d, s)
	}
}

func TestDistancesToRingsAndAreas(t *testing.T) {
	frame := FromRings([]Ring{square(0, 0, 100), square(30, 30, 40)}, true)
	cases := []struct {
		p          Pt
		area, edge float64
	}{
		{Pt{10, 50}, 0, 10},           // in the frame
		{Pt{50, 50}, 20, 20},          // in its hole
		{Pt{-3, -4}, 5, 5},            // off a corner
		{Pt{50, 107}, 7, 7},           // off an edge
		{Pt{20, 50}, 0, 10},           // nearer the hole
		{Pt{101, 50}, 1, 1},           // beyond the closing edge's neighbour
		{Pt{-2, 50}, 2, 2},            // beyond the closing edge
		{Pt{28, 28}, 0, math.Sqrt(8)}, // near the hole's corner
	}
	for _, c := range cases {
		near(t, "distance to the area", DistToArea(c.p, frame), c.area, 1e-12)
		near(t, "distance to its edge", DistToEdge(c.p, frame), c.edge, 1e-12)
	}
	for name, d := range map[string]float64{"path": DistToPath(Pt{}, nil), "ring": DistToRing(Pt{}, nil), "area": DistToArea(Pt{}, nil)} {
		if !math.IsInf(d, 1) {
			t.Errorf("distance to an empty %s is %g", name, d)
		}
	}
}
