package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
)

func cloud(rnd *rand.Rand, n int) []Pt {
	m := Scale(5+50*rnd.Float64(), 1+20*rnd.Float64()).Then(Rotate(360 * rnd.Float64()))
	var pts []Pt
	for range n {
		pts = append(pts, m.Apply(Pt{rnd.NormFloat64(), rnd.NormFloat64()}))
	}
	return pts
}

func TestHullHoldsAllPointsAndTurnsOneWay(t *testing.T) {
	for seed := range uint64(200) {
		rnd := rand.New(rand.NewPCG(seed, 17))
		pts := cloud(rnd, 3+rnd.IntN(40))
		if seed%2 == 0 { // many on one line or in one place
			for i := range pts {
				pts[i] = Pt{float64(rnd.IntN(5)), float64(rnd.IntN(5))}
			}
		}
		h := Hull(pts)
		if len(h) < 3 {
			continue
		}
		for i := range h {
			a, b, c := h[i], h[(i+1)%len(h)], h[(i+2)%len(h)]
			if b.Sub(a).Cross(c.Sub(b)) <= 0 {
				t.Fatalf("seed %d: the hull bends back or has a needless point", seed)
			}
			for _, p := range pts {
				if b.Sub(a).Cross(p.Sub(a)) < -1e-9 {
					t.Fatalf("seed %d: a point lies outside the hull", seed)
				}
			}
		}
		want := sfHull(pts).Area()
		near(t, "area of the hull (simplefeatures)", h.SignedArea(), want, 1e-9*(1+want))
	}
}

func sfHull(pts []Pt) sf.Geometry { return sfPoints(pts).ConvexHull() }

func sfPoints(pts []Pt) sf.Geometry {
	var all []sf.Point
	for _, p := range pts {
		all = append(all, sf.NewPoint(sf.Coordinates{XY: sf.XY{X: p.X, Y: p.Y}}))
	}
	return sf.NewMultiPoint(all).AsGeometry()
}

func TestMinRectAgreesWithAnIndependentLibrary(t *testing.T) {
	for seed := range uint64(400) {
		rnd := rand.New(rand.NewPCG(seed, 18))
		pts := cloud(rnd, 3+rnd.IntN(60))
		r := MinRect(pts)
		want := sf.RotatedMinimumAreaBoundingRectangle(sfPoints(pts)).Area()
		near(t, "area of the least rectangle", r.Area(), want, 1e-9*(1+want))
		checkEncloses(t, r, pts)
		if r.Length < r.Width {
			t.Errorf("length %g is the shorter side, width %g", r.Length, r.Width)
		}
	}
}

func TestMinWidthRectIsTheNarrowestAtAnyAngle(t *testing.T) {
	for seed := range uint64(100) {
		rnd := rand.New(rand.NewPCG(seed, 19))
		pts := cloud(rnd, 3+rnd.IntN(30))
		r := MinWidthRect(pts)
		checkEncloses(t, r, pts)
		least := math.Inf(1)
		for deg := 0.0; deg < 180; deg += 0.25 { // brute force
			q := RectAlong(pts, deg)
			checkEncloses(t, q, pts)
			least = min(least, q.Width)
		}
		if r.Width > least+1e-9 {
			t.Errorf("seed %d: width %g, but %g is possible", seed, r.Width, least)
		}
		if least > r.Width+0.005*(r.Length+1) {
			t.Errorf("seed %d: width %g, yet no angle comes near it: %g", seed, r.Width, least)
		}
	}
}

func checkEncloses(t *testing.T, r Rect, pts []Pt) {
	t.Helper()
	if r.Angle < 0 || r.Angle >= 180 {
		t.Errorf("angle %g is not in [0, 180)", r.Angle)
	}
	u := Direction(r.Angle)
	for _, p := range pts {
		d := p.Sub(r.Center)
		if math.Abs(d.Dot(u)) > r.Length/2+1e-9 || math.Abs(d.Cross(u)) > r.Width/2+1e-9 {
			t.Fatalf("%v lies outside %+v", p, r)
		}
	}
	c := r.Corners()
	near(t, "area of the corners", c.SignedArea(), r.Area(), 1e-9*(1+r.Area()))
}

func TestRectanglesOfKnownPoints(t *testing.T) {
	tilted := Rect{Center: Pt{10, 20}, Angle: 30, Length: 8, Width: 3}
	sq := []Pt{{0, 0}, {4, 0}, {4, 2}, {0, 2}}
	cases := []struct {
		name string
		got  Rect
		want Rect
	}{
		{"none", MinRect(nil), Rect{}},
		{"none along an angle", RectAlong(nil, 30), Rect{}},
		{"one point", MinRect([]Pt{{3, 4}}), Rect{Center: Pt{3, 4}}},
		{"two points, rising to the right as seen", MinRect([]Pt{{0, 0}, {3, -3}}), Rect{Pt{1.5, -1.5}, 45, math.Sqrt(18), 0}},
		{"points on a line", MinWidthRect([]Pt{{0, 0}, {1, 0}, {5, 0}}), Rect{Pt{2.5, 0}, 0, 5, 0}},
		{"a box lying", MinRect(sq), Rect{Pt{2, 1}, 0, 4, 2}},
		{"a box standing", MinRect(Rotate(90).ApplyPath(sq)), Rect{Pt{1, -2}, 90, 4, 2}},
		{"the box of a tilted rectangle", MinRect(tilted.Corners()), tilted},
		{"along the long side", RectAlong(sq, 0), Rect{Pt{2, 1}, 0, 4, 2}},
		{"along the short side, turned by more than a half", RectAlong(sq, 270), Rect{Pt{2, 1}, 90, 2, 4}},
		{"grown", tilted.Expand(1), Rect{Pt{10, 20}, 30, 10, 5}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			g, w := c.got, c.want
			if g.Center.Dist(w.Center) > 1e-9 || math.Abs(g.Angle-w.Angle) > 1e-9 ||
				math.Abs(g.Length-w.Length) > 1e-9 || math.Abs(g.Width-w.Width) > 1e-9 {
				t.Errorf("%+v, want %+v", g, w)
			}
		})
	}
}

func TestAnglesRunCounterClockwiseAsSeen(t *testing.T) {
	for deg, want := range map[float64]Pt{0: {1, 0}, 90: {0, -1}, 180: {-1, 0}, 270: {0, 1}, 45: {math.Sqrt2 / 2, -math.Sqrt2 / 2}} {
		if d := Direction(deg); d.Dist(want) > 1e-15 {
			t.Errorf("direction of %g° is %v, want %v", deg, d, want)
		}
		near(t, "angle back", AngleOf(want), deg, 1e-12)
	}
}
