package nest_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/nest"
)

// Closed form: two right triangles of legs a, b fill one rectangle a × b.
func TestTwoCornerFillsShareOneRectangle(t *testing.T) {
	tri := []nest.XY{{X: 0, Y: 0}, {X: 60, Y: 0}, {X: 0, Y: 40}}
	p := nest.Interlock([]nest.Shape{{ID: "a", Outline: tri}, {ID: "b", Outline: tri}}, 0, 1)
	if len(p) != 1 || math.Abs(p[0].W-60) > 1e-9 || math.Abs(p[0].H-40) > 1e-9 || math.Abs(p[0].Gain-2400) > 1e-6 || !p[0].Turned {
		t.Errorf("two triangles 60 × 40 make %+v, want one blank 60 × 40 that saves 2400 mm²", p)
	}
	// with a gap the blank grows by what the slanted gap takes
	p = nest.Interlock([]nest.Shape{{ID: "a", Outline: tri}, {ID: "b", Outline: tri}}, 3, 1)
	if len(p) != 1 || p[0].W*p[0].H <= 2400 || p[0].Gain <= 2000 {
		t.Errorf("with a gap of 3 mm: %+v", p)
	}
}

func TestRectanglesGainNothing(t *testing.T) {
	r := []nest.XY{{X: 0, Y: 0}, {X: 60, Y: 0}, {X: 60, Y: 40}, {X: 0, Y: 40}}
	if p := nest.Interlock([]nest.Shape{{ID: "a", Outline: r}, {ID: "b", Outline: r}}, 2, 1); len(p) != 0 {
		t.Errorf("two rectangles pair as %+v", p)
	}
}

func TestPairsLieApartWithinTheirBlank(t *testing.T) {
	made := 0
	for seed := range uint64(200) {
		r := rand.New(rand.NewPCG(seed, 3))
		gap := float64(r.IntN(4))
		shapes := []nest.Shape{{ID: "a"}, {ID: "b"}, {ID: "c"}}
		by := map[string][]nest.XY{}
		for i := range shapes {
			for range 3 + r.IntN(4) {
				shapes[i].Outline = append(shapes[i].Outline, nest.XY{X: r.Float64() * 100, Y: r.Float64() * 60})
			}
			by[shapes[i].ID] = shapes[i].Outline
		}
		for _, p := range nest.Interlock(shapes, gap, 1) {
			made++
			a, b := moved(by[p.A], 1, p.AX, p.AY), moved(by[p.B], map[bool]float64{false: 1, true: -1}[p.Turned], p.BX, p.BY)
			for _, q := range append(append([]nest.XY{}, a...), b...) {
				if q.X < -1e-6 || q.Y < -1e-6 || q.X > p.W+1e-6 || q.Y > p.H+1e-6 {
					t.Fatalf("seed %d: a corner at %v lies outside the blank %g × %g", seed, q, p.W, p.H)
				}
			}
			dx, dy := p.X2-p.X1, p.Y2-p.Y1
			l := math.Hypot(dx, dy)
			sa, sb := side(a, p, dx/l, dy/l), side(b, p, dx/l, dy/l)
			if apart := max(sa[0]-sb[1], sb[0]-sa[1]); apart < gap-1e-6 {
				t.Fatalf("seed %d: the two are %g apart across the parting line, gap %g", seed, apart, gap)
			}
		}
	}
	if made < 50 {
		t.Errorf("only %d pairs were made", made)
	}
}

func moved(p []nest.XY, sign, x, y float64) []nest.XY {
	var out []nest.XY
	for _, q := range p {
		out = append(out, nest.XY{X: sign*q.X + x, Y: sign*q.Y + y})
	}
	return out
}

// side is the span of an outline across the parting line.
func side(p []nest.XY, pr nest.Pair, dx, dy float64) [2]float64 {
	s := [2]float64{math.Inf(1), math.Inf(-1)}
	for _, q := range p {
		d := (q.X-pr.X1)*dy - (q.Y-pr.Y1)*dx
		s[0], s[1] = min(s[0], d), max(s[1], d)
	}
	return s
}
