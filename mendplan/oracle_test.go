package mendplan_test

import (
	"math"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// The oracle is peterstace/simplefeatures, a geometry library the product
// does not use. It decides containment, area and validity.

// ringOf closes a ring for the oracle.
func ringOf(r []geom.Pt) sf.LineString {
	xy := make([]float64, 0, 2*len(r)+2)
	for _, p := range r {
		xy = append(xy, p.X, p.Y)
	}
	xy = append(xy, r[0].X, r[0].Y)
	return sf.NewLineString(sf.NewSequence(xy, sf.DimXY))
}

// asked hands an area to the oracle, part by part.
func asked(t *testing.T, a geom.Area) sf.Geometry {
	t.Helper()
	var parts []sf.Geometry
	for _, part := range geom.Parts(a) {
		var rings []sf.LineString
		for _, r := range part {
			rings = append(rings, ringOf(r))
		}
		parts = append(parts, sf.NewPolygon(rings).AsGeometry())
	}
	return union(t, parts)
}

func union(t *testing.T, parts []sf.Geometry) sf.Geometry {
	t.Helper()
	g, err := sf.UnionMany(parts)
	if err != nil {
		t.Fatalf("oracle: union: %v", err)
	}
	return g
}

// capsule is the hull of two discs of radius r, a polygon inside the true one.
func capsule(p, q geom.Pt, r float64) sf.Geometry {
	const n = 48
	var pts []geom.Pt
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / n)
		pts = append(pts, p.Add(geom.Pt{X: r * cos, Y: r * sin}), q.Add(geom.Pt{X: r * cos, Y: r * sin}))
	}
	return sf.NewPolygon([]sf.LineString{ringOf(geom.Hull(pts))}).AsGeometry()
}

// uncovered is the largest area that a capsule about a segment of the path,
// clipped, has outside all covers. They are taken away one by one: the
// oracle's union of many rectangles at once leaves holes that aren't there.
func uncovered(t *testing.T, covers []sf.Geometry, path []geom.Pt, r float64, clip sf.Geometry) float64 {
	t.Helper()
	worst := 0.0
	for i := range path {
		q := path[min(i+1, len(path)-1)]
		left, err := sf.Intersection(capsule(path[i], q, r), clip)
		for _, c := range covers {
			if err == nil && !left.IsEmpty() {
				left, err = sf.Difference(left, c)
			}
		}
		if err != nil {
			t.Fatalf("oracle: difference: %v", err)
		}
		worst = max(worst, left.Area())
	}
	return worst
}

// cover hands all outlines to the oracle.
func cover(t *testing.T, pieces []mendplan.Piece) []sf.Geometry {
	t.Helper()
	var parts []sf.Geometry
	for _, p := range pieces {
		parts = append(parts, asked(t, p.Outline))
	}
	return parts
}

// leafBox is the leaf of the test jobs grown by d, for clipping.
func leafBox(w, h, d float64) sf.Geometry {
	return sf.NewPolygon([]sf.LineString{ringOf([]geom.Pt{{X: -d, Y: -d}, {X: w + d, Y: -d}, {X: w + d, Y: h + d}, {X: -d, Y: h + d}})}).AsGeometry()
}
