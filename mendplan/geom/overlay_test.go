package geom

import (
	"math/rand/v2"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
)

// star returns a ring of n points around c, at 0.7 to 1 times r.
func star(rnd *rand.Rand, c Pt, n int, r float64) Ring {
	var out Ring
	for i := range n {
		out = append(out, c.Add(Direction(-360*float64(i)/float64(n)).Mul(r*(0.7+0.3*rnd.Float64()))))
	}
	return out
}

func square(x, y, size float64) Ring {
	return Box{Pt{x, y}, Pt{x + size, y + size}}.Ring()
}

// shapes returns areas that overlap in every way: ragged, upright, sharing
// edges and corners with others, identical, with holes.
func shapes(rnd *rand.Rand, n int) []Area {
	var out []Area
	for range n {
		c := Pt{20 + 30*rnd.Float64(), 20 + 30*rnd.Float64()}
		switch rnd.IntN(5) {
		case 0:
			out = append(out, FromRing(star(rnd, c, 5+rnd.IntN(60), 5+15*rnd.Float64())))
		case 1: // on a coarse lattice, so that edges coincide
			out = append(out, Area{square(float64(rnd.IntN(8)*5), float64(rnd.IntN(8)*5), float64(5+5*rnd.IntN(5)))})
		case 2:
			s := 10 + 20*rnd.Float64()
			out = append(out, FromRings([]Ring{square(c.X, c.Y, s), square(c.X+s/4, c.Y+s/4, s/2)}, true))
		case 3:
			if len(out) > 0 {
				out = append(out, out[rnd.IntN(len(out))])
			}
		case 4: // the same edges, moved along themselves
			if len(out) > 0 {
				d := Pt{float64(rnd.IntN(3)) * 2.5, 0}
				out = append(out, Translate(d).ApplyArea(out[rnd.IntN(len(out))]))
			}
		}
	}
	return out
}

// roundingArea is what rounding to the grid may change in an area: a step
// along every boundary, and the slivers left out.
func roundingArea(areas ...Area) float64 {
	sum := 0.01
	for _, a := range areas {
		sum += a.Perimeter() * Grid
	}
	return sum
}

func TestBooleansAgreeWithAnIndependentLibrary(t *testing.T) {
	// peterstace/simplefeatures, itself found to agree with GEOS.
	for seed := range uint64(25) {
		all := shapes(rand.New(rand.NewPCG(seed, 2)), 8)
		for i := 1; i < len(all); i++ {
			a, b := all[i-1], all[i]
			compareWithSF(t, a, b, Union(a, b), sf.Union, "union")
			compareWithSF(t, a, b, Intersect(a, b), sf.Intersection, "intersection")
			compareWithSF(t, a, b, Subtract(a, b), sf.Difference, "difference")
		}
	}
}

func compareWithSF(t *testing.T, a, b, got Area, op func(p, q sf.Geometry) (sf.Geometry, error), what string) {
	t.Helper()
	checkValid(t, got)
	want, err := op(toSF(a), toSF(b))
	if err != nil {
		t.Fatalf("the independent library failed on a %s: %v", what, err)
	}
	near(t, what, got.Area(), sfArea(want), roundingArea(a, b))
}

func TestAreasOfUnionAndIntersectionAddUp(t *testing.T) {
	for seed := range uint64(60) {
		all := shapes(rand.New(rand.NewPCG(seed, 3)), 10)
		for i := 1; i < len(all); i++ {
			a, b := all[i-1], all[i]
			both, tol := Intersect(a, b).Area(), 2*roundingArea(a, b)
			near(t, "A(a∪b)+A(a∩b)−A(a)−A(b)", Union(a, b).Area()+both-a.Area()-b.Area(), 0, tol)
			near(t, "A(a−b)−A(a)+A(a∩b)", Subtract(a, b).Area()-a.Area()+both, 0, tol)
			near(t, "A((a−b)∪(a∩b))", Union(Subtract(a, b), Intersect(a, b)).Area(), a.Area(), tol)
			near(t, "A((a−b)∩b)", Intersect(Subtract(a, b), b).Area(), 0, tol)
			near(t, "A(a∪a)", Union(a, a).Area(), a.Area(), tol)
			near(t, "A(a−a)", Subtract(a, a).Area(), 0, tol)
		}
	}
}

func TestUnionOfManyIsTheUnionOneByOne(t *testing.T) {
	for seed := range uint64(10) {
		rnd := rand.New(rand.NewPCG(seed, 4))
		all := shapes(rnd, 40)
		var one Area
		for _, a := range all {
			one = Union(one, a)
		}
		many := Union(all...)
		checkValid(t, many)
		near(t, "area of the union of many", many.Area(), one.Area(), 4*roundingArea(all...))
		for range 500 {
			p := Pt{rnd.Float64() * 80, rnd.Float64() * 80}
			in := slices.ContainsFunc(all, func(a Area) bool { return a.Contains(p) })
			if DistToEdge(p, many) > 5*Grid && many.Contains(p) != in {
				t.Fatalf("seed %d: %v in the union: %v, in a member: %v", seed, p, !in, in)
			}
		}
	}
}

func TestBooleansOfTheDegenerate(t *testing.T) {
	a := Area{square(0, 0, 10)}
	touching, corner := Area{square(10, 0, 10)}, Area{square(10, 10, 10)}
	far := Area{square(50, 50, 10)}
	cases := []struct {
		name  string
		got   Area
		area  float64
		rings int
	}{
		{"nothing united", Union(), 0, 0},
		{"the empty area united with itself", Union(nil, nil), 0, 0},
		{"an area united with nothing", Union(a, nil), 100, 1},
		{"neighbours with a common edge become one", Union(a, touching), 200, 1},
		{"neighbours with a common corner stay two", Union(a, corner), 200, 2},
		{"what is far apart stays two", Union(a, far), 200, 2},
		{"neighbours with a common edge share nothing", Intersect(a, touching), 0, 0},
		{"an area less nothing", Subtract(a, nil), 100, 1},
		{"nothing less an area", Subtract(nil, a), 0, 0},
		{"an area less a hole", Subtract(a, Area{square(4, 4, 2)}), 96, 2},
		{"an area less its middle bar falls in two", Subtract(a, Area{Box{Pt{4, -1}, Pt{6, 11}}.Ring()}), 80, 2},
		{"an area cut by one that covers it", Subtract(a, Area{square(-1, -1, 12)}), 0, 0},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			checkValid(t, c.got)
			near(t, "area", c.got.Area(), c.area, 1e-9)
			if len(c.got) != c.rings {
				t.Errorf("%d rings, want %d", len(c.got), c.rings)
			}
		})
	}
}

func TestBooleansMoveWithTheGrid(t *testing.T) {
	// A shift by whole steps must change nothing but the place; a quarter turn
	// may round a tie the other way.
	for seed := range uint64(30) {
		rnd := rand.New(rand.NewPCG(seed, 5))
		all := shapes(rnd, 6)
		for i := 1; i < len(all); i++ {
			a, b := onGrid(all[i-1]), onGrid(all[i])
			u, n := Union(a, b), Intersect(a, b)
			m := Translate(Pt{float64(rnd.IntN(2000)-1000) * Grid, float64(rnd.IntN(2000)-1000) * Grid})
			same(t, m.ApplyArea(u), Union(m.ApplyArea(a), m.ApplyArea(b)))
			same(t, m.ApplyArea(n), Intersect(m.ApplyArea(a), m.ApplyArea(b)))
			q := Rotate(90 * float64(1+rnd.IntN(3)))
			near(t, "area after a quarter turn", Union(q.ApplyArea(a), q.ApplyArea(b)).Area(), u.Area(), roundingArea(a, b))
			x := MirrorX(100)
			near(t, "area in the mirror", Intersect(x.ApplyArea(a), x.ApplyArea(b)).Area(), n.Area(), roundingArea(a, b))
		}
	}
}

// onGrid brings a onto the grid without touching it otherwise.
func onGrid(a Area) Area {
	g := gridFor(reachOf(a))
	return g.area(g.rings(a))
}

// same fails unless both areas have the same points on the grid, in order.
func same(t *testing.T, a, b Area) {
	t.Helper()
	g := gridFor(reachOf(a, b))
	if !slices.EqualFunc(g.rings(a), g.rings(b), func(p, q gridRing) bool { return slices.Equal(p, q) }) {
		t.Errorf("areas differ:\n%v\n%v", a, b)
	}
}

func TestTheSameShapesGiveTheSameAnswerEveryTime(t *testing.T) {
	all := shapes(rand.New(rand.NewPCG(1, 6)), 30)
	first := Union(all...)
	for range 5 {
		same(t, first, Union(all...))
	}
}

func TestUnionKeepsApartWhatIsApart(t *testing.T) {
	// Bunches are an economy only: the plain way must give the same area.
	for seed := range uint64(20) {
		rnd := rand.New(rand.NewPCG(seed, 7))
		var all []Area
		var rings []Ring
		for range 30 {
			a := Area{square(rnd.Float64()*200, rnd.Float64()*200, 5+20*rnd.Float64())}
			all, rings = append(all, a), append(rings, a...)
		}
		near(t, "area by bunches", Union(all...).Area(), FromRings(rings, false).Area(), 4*roundingArea(all...))
	}
}
