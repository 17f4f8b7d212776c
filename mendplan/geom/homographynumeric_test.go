package geom

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// solved is the map of four pairs by an independent numeric library: the
// eight unknown elements, the ninth being 1, from eight linear equations.
func solved(t *testing.T, from, to []Pt) Homography {
	t.Helper()
	a, b := mat.NewDense(8, 8, nil), mat.NewVecDense(8, nil)
	for i, p := range from {
		q := to[i]
		a.SetRow(2*i, []float64{p.X, p.Y, 1, 0, 0, 0, -q.X * p.X, -q.X * p.Y})
		a.SetRow(2*i+1, []float64{0, 0, 0, p.X, p.Y, 1, -q.Y * p.X, -q.Y * p.Y})
		b.SetVec(2*i, q.X)
		b.SetVec(2*i+1, q.Y)
	}
	var x mat.VecDense
	if err := x.SolveVec(a, b); err != nil {
		t.Fatal(err)
	}
	v := x.RawVector().Data
	return Homography{[3][3]float64{{v[0], v[1], v[2]}, {v[3], v[4], v[5]}, {v[6], v[7], 1}}}
}

func TestFourCornersGiveTheMapALinearSolverGives(t *testing.T) {
	for seed := range uint64(200) {
		rnd := rand.New(rand.NewPCG(seed, 31))
		cam := randomPhotograph(rnd)
		to := page(rnd, 4)
		var from []Pt
		for _, p := range to {
			from = append(from, cam(p))
		}
		h, err := FitHomography(from, to)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want := solved(t, from, to)
		for range 20 {
			p := cam(Pt{200 * rnd.Float64(), 280 * rnd.Float64()})
			if d := h.Apply(p).Dist(want.Apply(p)); !(d < 1e-6) {
				t.Fatalf("seed %d: a place differs by %g mm from the linear solver's", seed, d)
			}
		}
	}
}

// leastSingular is the fit to many pairs by an independent numeric library:
// coordinates centred and scaled by their spread, the vector that belongs to
// the least singular value of the equations, and back.
func leastSingular(t *testing.T, from, to []Pt) Homography {
	t.Helper()
	norm := func(pts []Pt) (*mat.Dense, []Pt) {
		var c Pt
		for _, p := range pts {
			c = c.Add(p.Mul(1 / float64(len(pts))))
		}
		mean := 0.0
		for _, p := range pts {
			mean += math.Hypot(p.X-c.X, p.Y-c.Y) / float64(len(pts))
		}
		k := math.Sqrt2 / mean
		out := make([]Pt, len(pts))
		for i, p := range pts {
			out[i] = Pt{k * (p.X - c.X), k * (p.Y - c.Y)}
		}
		return mat.NewDense(3, 3, []float64{k, 0, -k * c.X, 0, k, -k * c.Y, 0, 0, 1}), out
	}
	tf, f := norm(from)
	tt, g := norm(to)
	a := mat.NewDense(2*len(f), 9, nil)
	for i, p := range f {
		q := g[i]
		a.SetRow(2*i, []float64{-p.X, -p.Y, -1, 0, 0, 0, q.X * p.X, q.X * p.Y, q.X})
		a.SetRow(2*i+1, []float64{0, 0, 0, -p.X, -p.Y, -1, q.Y * p.X, q.Y * p.Y, q.Y})
	}
	var svd mat.SVD
	if !svd.Factorize(a, mat.SVDFull) {
		t.Fatal("no singular values")
	}
	var v mat.Dense
	svd.VTo(&v)
	h := mat.NewDense(3, 3, mat.Col(nil, 8, &v))
	var back, m, out mat.Dense
	if err := back.Inverse(tt); err != nil {
		t.Fatal(err)
	}
	m.Mul(h, tf)
	out.Mul(&back, &m)
	var r Homography
	for i := range 3 {
		for j := range 3 {
			r.M[i][j] = out.At(i, j) / out.At(2, 2)
		}
	}
	return r
}

func TestManyNoisyPairsGiveTheMapOfTheLeastSingularValue(t *testing.T) {
	for seed := range uint64(100) {
		rnd := rand.New(rand.NewPCG(seed, 32))
		cam := randomPhotograph(rnd)
		to := page(rnd, 6+int(seed%40))
		var from []Pt
		for _, p := range to {
			from = append(from, cam(p).Add(Pt{rnd.NormFloat64(), rnd.NormFloat64()}))
		}
		h, err := FitHomography(from, to)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want := leastSingular(t, from, to)
		for i, p := range from {
			if d := h.Apply(p).Dist(want.Apply(p)); !(d < 1e-6) {
				t.Fatalf("seed %d: pair %d differs by %g mm from the numeric library's", seed, i, d)
			}
		}
	}
}

func TestHomographiesInvertAsMatricesDo(t *testing.T) {
	for seed := range uint64(100) {
		rnd := rand.New(rand.NewPCG(seed, 33))
		cam := randomPhotograph(rnd)
		to := page(rnd, 4)
		var from []Pt
		for _, p := range to {
			from = append(from, cam(p))
		}
		h, err := FitHomography(from, to)
		if err != nil {
			t.Fatal(err)
		}
		got, err := h.Inverse()
		if err != nil {
			t.Fatal(err)
		}
		var inv mat.Dense
		if err := inv.Inverse(mat.NewDense(3, 3, append(append(append([]float64{}, h.M[0][:]...), h.M[1][:]...), h.M[2][:]...))); err != nil {
			t.Fatal(err)
		}
		for i := range 3 {
			for j := range 3 {
				want := inv.At(i, j) / inv.At(2, 2)
				if math.Abs(got.M[i][j]-want) > 1e-7*math.Max(1, math.Abs(want)) {
					t.Fatalf("seed %d: element %d,%d is %g, want %g", seed, i, j, got.M[i][j], want)
				}
			}
		}
	}
}
