package geom

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"
)

// photograph returns the map of a camera that looks at the page z = 0 in the
// textbook way (Hartley and Zisserman, Multiple View Geometry, pinhole model):
// focal length f in pixels, tilted, at a height over the page. It is built
// from the rotation alone and owes nothing to the code under test.
func photograph(f, tiltX, tiltY, roll, height float64) func(Pt) Pt {
	sx, cx := math.Sincos(tiltX)
	sy, cy := math.Sincos(tiltY)
	sr, cr := math.Sincos(roll)
	return func(p Pt) Pt {
		x, y, z := p.X-100, p.Y-140, 0.0
		y, z = cx*y-sx*z, sx*y+cx*z
		x, z = cy*x+sy*z, -sy*x+cy*z
		x, y = cr*x-sr*y, sr*x+cr*y
		z += height
		return Pt{2000 + f*x/z, 1500 + f*y/z}
	}
}

func randomPhotograph(rnd *rand.Rand) func(Pt) Pt {
	return photograph(3000, 0.5*rnd.NormFloat64()/2, 0.5*rnd.NormFloat64()/2, rnd.Float64()*6, 500+200*rnd.Float64())
}

func page(rnd *rand.Rand, n int) []Pt {
	pts := []Pt{{0, 0}, {200, 0}, {200, 280}, {0, 280}}
	for len(pts) < n {
		pts = append(pts, Pt{200 * rnd.Float64(), 280 * rnd.Float64()})
	}
	return pts
}

func TestHomographyRecoversAPhotographExactly(t *testing.T) {
	for seed := range uint64(200) {
		rnd := rand.New(rand.NewPCG(seed, 21))
		cam := randomPhotograph(rnd)
		from := page(rnd, 4+int(seed%7))
		var to []Pt
		for _, p := range from {
			to = append(to, cam(p))
		}
		h, err := FitHomography(from, to)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for i, d := range h.Residuals(from, to) {
			if d > 1e-7 {
				t.Fatalf("seed %d: pair %d is off by %g px", seed, i, d)
			}
		}
		back, err := h.Inverse()
		if err != nil {
			t.Fatal(err)
		}
		for range 20 { // places that were not fitted
			p := Pt{200 * rnd.Float64(), 280 * rnd.Float64()}
			if d := h.Apply(p).Dist(cam(p)); d > 1e-7 {
				t.Fatalf("seed %d: %v is off by %g px", seed, p, d)
			}
			if d := back.Apply(cam(p)).Dist(p); d > 1e-8 {
				t.Fatalf("seed %d: %v comes back off by %g mm", seed, p, d)
			}
		}
	}
}

func TestHomographyAveragesNoiseAway(t *testing.T) {
	// With n pairs of deviation σ in each coordinate, 2n equations and 8
	// unknowns, the mean square residual of a least-squares fit tends to
	// σ²(2n−8)/n per pair, and errors of the map fall as 1/√n.
	const sigma = 0.5
	errAt := map[int]float64{}
	for _, n := range []int{4, 16, 64, 256} {
		sum, miss, rounds := 0.0, 0.0, 60
		for seed := range rounds {
			rnd := rand.New(rand.NewPCG(uint64(seed), 22))
			cam := randomPhotograph(rnd)
			from := page(rnd, n)
			var to []Pt
			for _, p := range from {
				to = append(to, cam(p).Add(Pt{sigma * rnd.NormFloat64(), sigma * rnd.NormFloat64()}))
			}
			h, err := FitHomography(from, to)
			if err != nil {
				t.Fatal(err)
			}
			for _, d := range h.Residuals(from, to) {
				sum += d * d / float64(n*rounds)
			}
			miss += h.Apply(Pt{100, 140}).Dist(cam(Pt{100, 140})) / float64(rounds)
		}
		want := sigma * sigma * float64(2*n-8) / float64(n)
		near(t, "mean square residual", sum, want, 0.12*want+1e-9)
		errAt[n] = miss
	}
	if ratio := errAt[16] / errAt[256]; ratio < 2.5 || ratio > 6.5 { // √16 = 4
		t.Errorf("16 times the pairs make the map %.2f times better, want about 4", ratio)
	}
}

func TestHomographyRefusesWhatDoesNotDetermineIt(t *testing.T) {
	sq := []Pt{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	line := []Pt{{0, 0}, {1, 1}, {2, 2}, {3, 3}}
	cases := []struct {
		name     string
		from, to []Pt
	}{
		{"too few pairs", sq[:3], sq[:3]},
		{"all on a line", line, sq},
		{"onto a line", sq, line},
		{"all in one place", []Pt{{1, 1}, {1, 1}, {1, 1}, {1, 1}}, sq},
		{"three on a line", []Pt{{0, 0}, {5, 0}, {10, 0}, {0, 10}}, sq},
		{"two corners the same", []Pt{{0, 0}, {0, 0}, {10, 10}, {0, 10}}, sq},
		{"corners in another order, so that the horizon cuts the page", sq, []Pt{{0, 0}, {10, 10}, {10, 0}, {0, 10}}},
		{"no numbers", []Pt{{math.NaN(), 0}, {10, 0}, {10, 10}, {0, 10}}, sq},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if h, err := FitHomography(c.from, c.to); !errors.Is(err, ErrDegenerate) {
				t.Errorf("map %v, error %v, want ErrDegenerate", h, err)
			}
		})
	}
	if _, err := FitHomography(sq, sq[:3]); err == nil {
		t.Error("lists of different length must be refused")
	}
}

func TestHomographiesChainAndMapPaths(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 23))
	a, b := randomPhotograph(rnd), randomPhotograph(rnd)
	from := page(rnd, 4)
	var one, two []Pt
	for _, p := range from {
		one, two = append(one, a(p)), append(two, b(p))
	}
	h, err := FitHomography(from, one)
	if err != nil {
		t.Fatal(err)
	}
	g, err := FitHomography(one, two)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range h.Then(g).ApplyPath(Path(from)) {
		if p.Dist(two[i]) > 1e-6 {
			t.Errorf("corner %d lands at %v, want %v", i, p, two[i])
		}
	}
	if (Homography{}).Apply(Pt{1, 1}).Finite() {
		t.Error("the zero homography must map nothing")
	}
}
