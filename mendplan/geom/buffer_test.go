package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
)

// within fails unless got lies between the closed form want and want plus
// what BufferTol allows over the given length of boundary.
func within(t *testing.T, what string, got, want, boundary float64) {
	t.Helper()
	if got < want-1e-9 || got > want+boundary*BufferTol {
		t.Errorf("%s = %.5f, want from %.5f to %.5f", what, got, want, want+boundary*BufferTol)
	}
}

func TestBufferMatchesClosedForms(t *testing.T) {
	const r, pi = 3.0, math.Pi
	cases := []struct {
		name string
		line Path
		r    float64
		want float64
	}{
		{"disc: πr²", Path{{7, 7}}, 10, 100 * pi},
		{"disc of a doubled point", Path{{7, 7}, {7, 7}}, 10, 100 * pi},
		{"capsule: 2rL+πr²", Path{{0, 0}, {100, 0}}, r, 2*r*100 + pi*r*r},
		{"capsule at a slant", Path{{0, 0}, {60, 80}}, r, 2*r*100 + pi*r*r},
		{"capsule with a point on the way", Path{{0, 0}, {30, 0}, {100, 0}}, r, 2*r*100 + pi*r*r},
		{"line retraced: as a capsule", Path{{0, 0}, {100, 0}, {0, 0}, {100, 0}}, r, 2*r*100 + pi*r*r},
		{"line run back half way", Path{{0, 0}, {100, 0}, {50, 0}}, r, 2*r*100 + pi*r*r},
		{"right angle: 2rL−r²+5πr²/4", Path{{0, 0}, {40, 0}, {40, 50}}, r, 2*r*90 - r*r + 5*pi*r*r/4},
		{"right angle the other way", Path{{0, 0}, {40, 0}, {40, -50}}, r, 2*r*90 - r*r + 5*pi*r*r/4},
		{"closed square: outer 4·20r+πr², inner 4r(20−r)", Path{{0, 0}, {20, 0}, {20, 20}, {0, 20}, {0, 0}}, r, 4*20*r + pi*r*r + 4*r*(20-r)},
		{"closed square too small for its hole", Path{{0, 0}, {5, 0}, {5, 5}, {0, 5}, {0, 0}}, r, 25 + 4*5*r + pi*r*r},
		{"cross of one stroke", Path{{-20, 0}, {20, 0}, {0, 0}, {0, 20}, {0, -20}}, r, 2*(2*r*40+pi*r*r) - 4*r*r},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := Buffer(c.r, c.line)
			checkValid(t, b)
			within(t, "area", b.Area(), c.want, b.Perimeter())
		})
	}
}

func TestBufferOfNothingOrByNothingIsEmpty(t *testing.T) {
	line := Path{{0, 0}, {10, 0}}
	for name, b := range map[string]Area{
		"no path":           Buffer(3),
		"an empty path":     Buffer(3, nil),
		"a zero distance":   Buffer(0, line),
		"a negative one":    Buffer(-1, line),
		"no number":         Buffer(math.NaN(), line),
		"an infinite one":   Buffer(math.Inf(1), line),
		"points not finite": Buffer(3, Path{{math.NaN(), 0}, {0, math.Inf(-1)}}),
	} {
		if !b.Empty() {
			t.Errorf("%s gives %v", name, b)
		}
	}
	near(t, "area with one point not finite", Buffer(3, Path{{0, 0}, {5, math.NaN()}, {10, 0}}).Area(), 60+9*math.Pi, 0.5)
}

func TestBufferOfSeveralPathsIsTheirUnion(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 9))
	fork := []Path{scrawl(rnd, 30, 2, 0.4), scrawl(rnd, 30, 2, 0.4), {{50, 50}}, {{90, 90}, {120, 95}}}
	b := Buffer(4, fork...)
	checkValid(t, b)
	checkBuffer(t, rnd, b, 4, fork...)
}

func TestBufferGrowsWithItsDistance(t *testing.T) {
	for seed := range uint64(10) {
		l := scrawl(rand.New(rand.NewPCG(seed, 10)), 80, 1, 1)
		var last Area
		for _, r := range []float64{0.1, 0.5, 1, 2, 4, 8} {
			b := Buffer(r, l)
			checkValid(t, b)
			if lost := Subtract(last, b).Area(); lost != 0 {
				t.Errorf("seed %d: %g mm² of the buffer are lost on growing to %g", seed, lost, r)
			}
			last = b
		}
	}
}

func TestBufferDoesNotMindDirectionPlaceOrTurn(t *testing.T) {
	for seed := range uint64(10) {
		rnd := rand.New(rand.NewPCG(seed, 11))
		l := scrawl(rnd, 150, 1, 1)
		for i, p := range l {
			l[i] = Pt{math.Round(p.X/Grid) * Grid, math.Round(p.Y/Grid) * Grid}
		}
		b := Buffer(3, l)
		tol := b.Perimeter() * 2 * Grid
		near(t, "area run backwards", Buffer(3, l.Reverse()).Area(), b.Area(), tol)
		m := Translate(Pt{float64(rnd.IntN(1000)) * Grid, -float64(rnd.IntN(1000)) * Grid})
		near(t, "area elsewhere", Buffer(3, m.ApplyPath(l)).Area(), b.Area(), tol)
		near(t, "area after a quarter turn", Buffer(3, Rotate(90).ApplyPath(l)).Area(), b.Area(), tol)
		near(t, "area in the mirror", Buffer(3, MirrorX(200).ApplyPath(l)).Area(), b.Area(), tol)
	}
}

func TestBufferAgreesWithAUnionOfCapsules(t *testing.T) {
	// Built segment by segment from 256-gons by the independent library.
	const r = 3
	for seed := range uint64(4) {
		l := scrawl(rand.New(rand.NewPCG(seed, 12)), 25, 3, 0.7)
		sum := sf.Polygon{}.AsGeometry()
		for i := 1; i < len(l); i++ {
			var pts []Pt
			for k := range 256 {
				d := Direction(360 * float64(k) / 256).Mul(r)
				pts = append(pts, l[i-1].Add(d), l[i].Add(d))
			}
			var err error
			if sum, err = sf.Union(sum, toSF(Area{Hull(pts)})); err != nil {
				t.Fatalf("the independent library failed: %v", err)
			}
		}
		b := Buffer(r, l)
		near(t, "area", b.Area(), sfArea(sum), b.Perimeter()*BufferTol)
	}
}

func TestBufferWithinKeepsItsToleranceWithFewerPoints(t *testing.T) {
	for seed := range uint64(12) {
		rnd := rand.New(rand.NewPCG(seed, 27))
		l := scrawl(rnd, 200, 0.6, 0.7)
		for _, tol := range []float64{0.01, 0.05, 0.1, 0.3, 1} {
			b := BufferWithin(3, tol, l)
			checkValid(t, b)
			box := l.Bounds().Expand(5)
			for k := range 1500 {
				p := Pt{box.Min.X + rnd.Float64()*box.Width(), box.Min.Y + rnd.Float64()*box.Height()}
				if k%2 == 0 {
					p = l.At(rnd.Float64() * l.Length()).Add(Direction(360 * rnd.Float64()).Mul(3 + 1.2*tol*rnd.Float64()))
				}
				if d := DistToPath(p, l); d <= 3 && !b.Contains(p) || d > 3+tol && b.Contains(p) {
					t.Fatalf("seed %d, tolerance %g: a point at %.5f is inside: %v", seed, tol, d, b.Contains(p))
				}
			}
			if fine := points(Buffer(3, l)); tol >= 0.3 && points(b) > fine/2 {
				t.Errorf("seed %d, tolerance %g: %d of %d points kept", seed, tol, points(b), fine)
			}
		}
	}
	if !BufferWithin(0, 0.1, Path{{0, 0}, {1, 1}}).Empty() || BufferWithin(1, math.NaN(), Path{{0, 0}}).Empty() {
		t.Error("no distance gives nothing; no tolerance gives the plain buffer")
	}
}

func TestOffsetMatchesClosedForms(t *testing.T) {
	pi := math.Pi
	sq := Area{square(10, 10, 100)}
	frame := FromRings([]Ring{square(0, 0, 100), square(30, 30, 40)}, true)
	ell := Area{Ring{{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}}}
	cases := []struct {
		name string
		a    Area
		d    float64
		want float64
	}{
		{"square grown: s²+4sd+πd²", sq, 5, 10000 + 4*100*5 + 25*pi},
		{"square shrunk: (s−2d)²", sq, -5, 90 * 90},
		{"square shrunk to nothing", sq, -60, 0},
		{"frame grown, its hole shrinking", frame, 5, 10000 + 2000 + 25*pi - 30*30},
		{"frame grown until its hole is filled", frame, 25, 10000 + 4*100*25 + 625*pi},
		{"frame shrunk, its hole growing round", frame, -5, 90*90 - (1600 + 800 + 25*pi)},
		{"frame shrunk to nothing", frame, -22, 0},
		{"angle grown: one sharp corner within", ell, 5, 2000 + 240*5 + 5*25*pi/4 - 25},
		{"angle shrunk: one round corner within", ell, -5, 2000 - 240*5 + 5*25 - 25*pi/4},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := Offset(c.a, c.d)
			checkValid(t, got)
			slackArea := (c.a.Perimeter() + 2*pi*math.Abs(c.d)) * BufferTol
			if c.d > 0 && (got.Area() < c.want || got.Area() > c.want+slackArea) ||
				c.d < 0 && (got.Area() > c.want || got.Area() < c.want-slackArea) {
				t.Errorf("area = %.4f, want %.4f with %.4f to the safe side", got.Area(), c.want, slackArea)
			}
		})
	}
	if got := Offset(sq, 0); got.Area() != 10000 {
		t.Errorf("offset by nothing has the area %g", got.Area())
	}
	if !Offset(nil, 3).Empty() || !Offset(sq, math.NaN()).Empty() {
		t.Error("offsets of nothing and by no number must be empty")
	}
}

func TestOffsetKeepsItsDistance(t *testing.T) {
	for seed := range uint64(12) {
		rnd := rand.New(rand.NewPCG(seed, 13))
		a := FromRing(Ring(scrawl(rnd, 300, 1, 0.6)))
		for _, d := range []float64{0.3, 1, 3, -0.3, -1, -3} {
			got := Offset(a, d)
			checkValid(t, got)
			inner := offset(a, d, true)
			box := a.Bounds().Expand(4)
			for range 1500 {
				p := Pt{box.Min.X + rnd.Float64()*box.Width(), box.Min.Y + rnd.Float64()*box.Height()}
				depth := DistToEdge(p, a) // outside positive
				if a.Contains(p) {
					depth = -depth
				}
				lo, hi, far := d, d+BufferTol, d-BufferTol
				if d < 0 {
					lo, hi = d-BufferTol, d
					far = d + BufferTol
				}
				if in := got.Contains(p); depth <= lo && !in || depth > hi && in {
					t.Fatalf("seed %d, offset %g: a point at %.5f is inside: %v", seed, d, depth, in)
				}
				if in := inner.Contains(p); depth <= min(d, far) && !in || depth > max(d, far) && in {
					t.Fatalf("seed %d, inner offset %g: a point at %.5f is inside: %v", seed, d, depth, in)
				}
			}
		}
	}
}
