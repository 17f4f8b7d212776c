package geom

import (
	"math"
	"math/rand/v2"
	"testing"
)

// trace is a line drawn by an unsteady hand: n steps of the given length, the
// direction drifting by up to turn radians a step, so that long ones cross
// and retrace themselves.
func scrawl(rnd *rand.Rand, n int, step, turn float64) Path {
	p, dir := Pt{50, 50}, rnd.Float64()*2*math.Pi
	l := Path{p}
	for range n - 1 {
		dir += (rnd.Float64()*2 - 1) * turn
		p = p.Add(Pt{math.Cos(dir), math.Sin(dir)}.Mul(step))
		l = append(l, p)
	}
	return l
}

// checkBuffer compares a buffer with the distance to the line, which is the
// definition of it and needs none of the code under test.
func checkBuffer(t *testing.T, rnd *rand.Rand, b Area, r float64, lines ...Path) {
	t.Helper()
	box := EmptyBox()
	for _, l := range lines {
		box = box.Union(l.Bounds())
	}
	box = box.Expand(r * 1.3)
	bad := 0
	for range 3000 {
		p := Pt{box.Min.X + rnd.Float64()*box.Width(), box.Min.Y + rnd.Float64()*box.Height()}
		if rnd.IntN(2) == 0 { // half of the points right at the edge, where errors live
			l := lines[rnd.IntN(len(lines))]
			q := l.At(rnd.Float64() * l.Length())
			a := rnd.Float64() * 2 * math.Pi
			p = q.Add(Pt{math.Cos(a), math.Sin(a)}.Mul(r + (rnd.Float64()*2-1)*3*BufferTol))
		}
		d := inf
		for _, l := range lines {
			d = min(d, DistToPath(p, l))
		}
		in := b.Contains(p)
		if d <= r && !in || d > r+BufferTol && in {
			if bad++; bad < 5 {
				t.Errorf("point %v at distance %.5f of r=%g: inside %v", p, d, r, in)
			}
		}
	}
	if bad > 0 {
		t.Errorf("%d of 3000 points wrong", bad)
	}
}

func TestBufferHoldsWhatIsNearerThanRAndNothingFurther(t *testing.T) {
	cases := []struct {
		name string
		n    int
		step float64
		turn float64
		r    float64
		grid float64
	}{
		{"a gentle tear", 60, 2, 0.4, 4, 0},
		{"a real tear", 200, 1, 0.8, 4, 0},
		{"a real tear on a 300 dpi grid", 200, 1, 0.8, 4, 25.4 / 300},
		{"a scrawl of 2000 short steps", 2000, 1, 1.2, 3, 0},
		{"a scrawl on pixels", 2000, 0.3, 1.5, 4, 25.4 / 300},
		{"a scrawl of long steps", 2000, 5, 1.0, 2, 0},
		{"steps in all directions", 2000, 1, math.Pi, 1, 0},
		{"a margin far smaller than the steps", 300, 5, 2, 0.05, 0},
		{"a margin far larger than the steps", 100, 0.2, 1, 15, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			for seed := range uint64(3) {
				rnd := rand.New(rand.NewPCG(seed, 7))
				l := scrawl(rnd, c.n, c.step, c.turn)
				if c.grid > 0 {
					for i, p := range l {
						l[i] = Pt{math.Round(p.X/c.grid) * c.grid, math.Round(p.Y/c.grid) * c.grid}
					}
				}
				checkBuffer(t, rnd, Buffer(c.r, l), c.r, l)
			}
		})
	}
}
