package geom

import (
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"
)

// toSF returns a as a geometry of the independent library, in whole steps of
// the grid so that its predicates are exact.
func toSF(a Area) sf.Geometry {
	var polys []sf.Polygon
	for _, part := range Parts(a) {
		var rings []sf.LineString
		for _, r := range part {
			var xy []float64
			for _, p := range r.Closed() {
				xy = append(xy, math.Round(p.X/Grid), math.Round(p.Y/Grid))
			}
			rings = append(rings, sf.NewLineString(sf.NewSequence(xy, sf.DimXY)))
		}
		polys = append(polys, sf.NewPolygon(rings))
	}
	return sf.NewMultiPolygon(polys).AsGeometry()
}

// sfArea returns the area of g in square millimetres.
func sfArea(g sf.Geometry) float64 { return g.Area() * Grid * Grid }

// checkArea holds a to what the package promises of every answer, by this
// package's exact predicates: rings neither cross themselves nor each other,
// and no hole lies outside a part.
func checkArea(t testing.TB, a Area) {
	t.Helper()
	for i, r := range a {
		if len(r) < 3 || r.SignedArea() == 0 {
			t.Fatalf("ring %d of %d points encloses nothing", i, len(r))
		}
		if SelfCrosses(r) {
			t.Fatalf("ring %d crosses itself: %v", i, r)
		}
		for _, q := range a[:i] {
			if ringsCross(r, q) {
				t.Fatalf("two rings cross")
			}
		}
	}
	n := 0
	for _, p := range Parts(a) {
		n += len(p)
		if p.Area() <= 0 {
			t.Fatalf("a part has the area %g", p.Area())
		}
	}
	if n != len(a) {
		t.Fatalf("%d rings, but %d in parts: a hole lies outside", len(a), n)
	}
}

// checkValid holds a to the rules of the OGC Simple Features standard, as the
// independent library checks them.
func checkValid(t testing.TB, a Area) {
	t.Helper()
	checkArea(t, a)
	if err := toSF(a).Validate(); err != nil {
		t.Fatalf("not a valid multipolygon: %v", err)
	}
}

func ringsCross(r, q Ring) bool {
	if !r.Bounds().Overlaps(q.Bounds()) {
		return false
	}
	g := grid{1 / Grid}
	p, o := g.ring(r), g.ring(q)
	for i := range p {
		for j := range o {
			a, b, c, d := p[i], p[(i+1)%len(p)], o[j], o[(j+1)%len(o)]
			if splits(a, b, c, d) && splits(c, d, a, b) {
				return true
			}
		}
	}
	return false
}

// near fails unless got is within tol of want.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.6f, want %.6f ± %g", what, got, want, tol)
	}
}
