package scan

import (
	"math"
	"math/rand"
	"testing"

	"gonum.org/v1/gonum/mat"

	"leafmend/mendplan/geom"
)

func TestTheAffineFitIsThatOfANumericLibrary(t *testing.T) {
	for seed := int64(0); seed < 100; seed++ {
		r := rand.New(rand.NewSource(seed))
		n := 4 + r.Intn(60)
		from, to, w := make([]geom.Pt, n), make([]geom.Pt, n), make([]float64, n)
		a, b := mat.NewDense(n, 3, nil), mat.NewDense(n, 2, nil)
		for i := range from {
			from[i] = geom.Pt{X: 3000 * r.Float64(), Y: 4000 * r.Float64()}
			to[i] = geom.Pt{X: 3100 - from[i].X + 0.04*from[i].Y + 3*r.NormFloat64(), Y: from[i].Y + 0.03*from[i].X + 3*r.NormFloat64()}
			w[i] = 0.05 + r.Float64()
			k := math.Sqrt(w[i])
			a.SetRow(i, []float64{k * from[i].X, k * from[i].Y, k})
			b.SetRow(i, []float64{k * to[i].X, k * to[i].Y})
		}
		got, ok := fitAffine(from, to, w)
		var want mat.Dense
		if err := want.Solve(a, b); err != nil || !ok {
			t.Fatalf("seed %d: %v, fitted %v", seed, err, ok)
		}
		for _, p := range []geom.Pt{{}, {X: 3000}, {Y: 4000}, {X: 3000, Y: 4000}} {
			q := geom.Pt{X: want.At(0, 0)*p.X + want.At(1, 0)*p.Y + want.At(2, 0), Y: want.At(0, 1)*p.X + want.At(1, 1)*p.Y + want.At(2, 1)}
			if d := got.Apply(p).Dist(q); !(d < 1e-5) {
				t.Fatalf("seed %d: %v differs by %g px from the numeric library's least squares", seed, p, d)
			}
		}
	}
}

// The turn of a drawn leaf is compared with that of the rectangle which a
// singular value decomposition lays nearest to the four corners (Kabsch's
// solution of the orthogonal Procrustes problem).
func TestTheRotationIsThatOfTheNearestTurnedRectangle(t *testing.T) {
	for _, s := range []drawnSpec{{4001, "black", ""}, {4002, "grey", "worn"}, {4003, "white", "skew"}, {4004, "felt", "skew"}, {4005, "coloured", "lining"}} {
		d := drawLeaf(s)
		o, err := FindOutline(d.img, 1, OutlineOptions{})
		if err != nil {
			t.Fatalf("%v: %v", s, err)
		}
		c := o.TrueEdge
		w, h := c[0].Dist(c[1])/2+c[3].Dist(c[2])/2, c[0].Dist(c[3])/2+c[1].Dist(c[2])/2
		mid := c[0].Add(c[1]).Add(c[2]).Add(c[3]).Mul(0.25)
		m := mat.NewDense(2, 2, nil)
		for i, p := range [4]geom.Pt{{X: -w, Y: -h}, {X: w, Y: -h}, {X: w, Y: h}, {X: -w, Y: h}} {
			q := c[i].Sub(mid)
			m.Add(m, mat.NewDense(2, 2, []float64{q.X * p.X, q.X * p.Y, q.Y * p.X, q.Y * p.Y}))
		}
		var svd mat.SVD
		if !svd.Factorize(m, mat.SVDFull) {
			t.Fatal("no singular values")
		}
		var u, v, r mat.Dense
		svd.UTo(&u)
		svd.VTo(&v)
		r.Mul(&u, v.T())
		deg := -math.Atan2(r.At(1, 0), r.At(0, 0)) * 180 / math.Pi
		if math.Abs(deg-o.RotationDeg) > 0.35 {
			t.Errorf("%v: turned by %.3f°, the nearest rectangle by %.3f°", s, o.RotationDeg, deg)
		}
		if math.Abs(d.turn-o.RotationDeg) > 0.5 {
			t.Errorf("%v: turned by %.3f°, drawn at %.3f°", s, o.RotationDeg, d.turn)
		}
	}
}
