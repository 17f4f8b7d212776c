package geom

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

func TestAffineMapsOfKnownPoints(t *testing.T) {
	cases := []struct {
		name string
		m    Affine
		p    Pt
		want Pt
	}{
		{"identity", Identity(), Pt{3, 4}, Pt{3, 4}},
		{"the zero map presses all onto the origin", Affine{}, Pt{3, 4}, Pt{0, 0}},
		{"shift", Translate(Pt{1, -2}), Pt{3, 4}, Pt{4, 2}},
		{"a quarter turn takes right to up, as seen", Rotate(90), Pt{1, 0}, Pt{0, -1}},
		{"three quarters back", Rotate(-270), Pt{1, 0}, Pt{0, -1}},
		{"half a turn", Rotate(180), Pt{1, 2}, Pt{-1, -2}},
		{"30° takes right to half up", Rotate(30), Pt{2, 0}, Pt{math.Sqrt(3), -1}},
		{"a turn about a point leaves it", RotateAbout(Pt{5, 6}, 77), Pt{5, 6}, Pt{5, 6}},
		{"a turn about a point", RotateAbout(Pt{5, 6}, 90), Pt{6, 6}, Pt{5, 5}},
		{"stretch", Scale(2, 3), Pt{1, 1}, Pt{2, 3}},
		{"mirror", MirrorX(210), Pt{10, 7}, Pt{200, 7}},
		{"first shift, then stretch", Translate(Pt{1, 1}).Then(Scale(2, 2)), Pt{0, 0}, Pt{2, 2}},
		{"product: stretch after shift", Scale(2, 2).Mul(Translate(Pt{1, 1})), Pt{0, 0}, Pt{2, 2}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if got := c.m.Apply(c.p); got.Dist(c.want) > 1e-12 {
				t.Errorf("%v goes to %v, want %v", c.p, got, c.want)
			}
		})
	}
}

func randomAffine(rnd *rand.Rand) Affine {
	return Affine{rnd.NormFloat64(), rnd.NormFloat64(), 50 * rnd.NormFloat64(), rnd.NormFloat64(), rnd.NormFloat64(), 50 * rnd.NormFloat64()}
}

func TestAffineInverseUndoesAndProductsChain(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 20))
	for range 500 {
		m, n, p := randomAffine(rnd), randomAffine(rnd), Pt{100 * rnd.NormFloat64(), 100 * rnd.NormFloat64()}
		if got, want := m.Then(n).Apply(p), n.Apply(m.Apply(p)); got.Dist(want) > 1e-9 {
			t.Fatalf("both at once take %v to %v, one by one to %v", p, got, want)
		}
		near(t, "Det of the product", m.Then(n).Det(), m.Det()*n.Det(), 1e-9)
		if math.Abs(m.Det()) < 0.01 {
			continue
		}
		back, err := m.Inverse()
		if err != nil {
			t.Fatal(err)
		}
		if got := back.Apply(m.Apply(p)); got.Dist(p) > 1e-9 {
			t.Fatalf("%v comes back as %v", p, got)
		}
		if got, want := m.Homography().Apply(p), m.Apply(p); got.Dist(want) > 1e-9 {
			t.Fatalf("as a homography %v goes to %v, want %v", p, got, want)
		}
	}
}

func TestAFlatMapHasNoInverse(t *testing.T) {
	for _, m := range []Affine{{}, Scale(1, 0), {A: 1, B: 2, D: 2, E: 4}, {A: math.NaN(), E: 1}} {
		if _, err := m.Inverse(); !errors.Is(err, ErrFlat) {
			t.Errorf("%v: error %v, want ErrFlat", m, err)
		}
		if _, err := m.Homography().Inverse(); !errors.Is(err, ErrFlat) {
			t.Errorf("%v as a homography: error %v, want ErrFlat", m, err)
		}
	}
}

func TestMirroredAreasKeepTheirSigns(t *testing.T) {
	a := FromRings([]Ring{square(0, 0, 100), square(30, 30, 40)}, true)
	for _, m := range []Affine{MirrorX(210), Scale(1, -2), Rotate(33).Then(MirrorX(5)), Rotate(10), Scale(-1, -1)} {
		got := m.ApplyArea(a)
		near(t, "area", got.Area(), a.Area()*math.Abs(m.Det()), 1e-6)
		if got[0].SignedArea() < 0 || got[1].SignedArea() > 0 {
			t.Errorf("%v turns outer and hole about", m)
		}
		if p, q := m.Apply(Pt{10, 10}), m.Apply(Pt{50, 50}); !got.Contains(p) || got.Contains(q) {
			t.Errorf("%v loses the place of the hole", m)
		}
	}
	if MirrorX(9).ApplyArea(nil) != nil || Identity().ApplyPath(nil) != nil {
		t.Error("nothing must stay nothing")
	}
	line := Path{{1, 2}, {3, 4}}
	if got := MirrorX(10).ApplyPath(line); got[0] != (Pt{9, 2}) || line[0] != (Pt{1, 2}) {
		t.Errorf("a path keeps its direction and its original: %v, %v", got, line)
	}
}
