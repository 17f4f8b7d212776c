package mendplan_test

import (
	"math"
	"reflect"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// sameShapes reports how far the outlines of two answers differ at most, as
// the largest area that one has and the other has not, mm².
func sameShapes(a, b []mendplan.Piece) float64 {
	if len(a) != len(b) {
		return math.Inf(1)
	}
	worst := 0.0
	for i := range a {
		worst = max(worst, geom.Subtract(a[i].Outline, b[i].Outline).Area(), geom.Subtract(b[i].Outline, a[i].Outline).Area())
	}
	return worst
}

// mapped applies a change to every traced point of the job's only leaf and to
// its corners.
func mapped(j mendplan.Job, side func(mendplan.Side) mendplan.Side, p func(geom.Pt) geom.Pt) mendplan.Job {
	leaf := j.Leaves[0]
	leaf.Front, leaf.Back = side(leaf.Front), side(leaf.Back)
	all := func(pts []geom.Pt) []geom.Pt {
		out := make([]geom.Pt, len(pts))
		for i, q := range pts {
			out[i] = p(q)
		}
		return out
	}
	leaf.Front.TrueEdge, leaf.Back.TrueEdge = all(leaf.Front.TrueEdge), all(leaf.Back.TrueEdge)
	for i, d := range leaf.Damages {
		d.Points = all(d.Points)
		forks := make([][]geom.Pt, len(d.Forks))
		for k, f := range d.Forks {
			forks[k] = all(f)
		}
		if d.Forks != nil {
			d.Forks = forks
		}
		j = j.WithDamage(leaf.ID, d)
		leaf.Damages = append([]mendplan.Damage(nil), leaf.Damages...)
		leaf.Damages[i] = d
	}
	return j.WithLeaf(leaf)
}

func TestALeafScannedUpsideDownGetsTheSamePieces(t *testing.T) {
	w, h := leafW/px300, leafH/px300
	for i := range 1000 {
		j := bench(randomDamage(i))
		a, _ := mendplan.Pieces(j)
		turned := mapped(j, func(s mendplan.Side) mendplan.Side { return s }, func(p geom.Pt) geom.Pt { return geom.Pt{X: w - p.X, Y: h - p.Y} })
		b, _ := mendplan.Pieces(turned)
		if off := sameShapes(a, b); off > 0.2 {
			t.Errorf("case %d: outlines differ by %.3f mm²", i, off)
		}
	}
}

func TestUnitsShownChangeNothing(t *testing.T) {
	for i := range 200 {
		j := bench(randomDamage(i))
		a, _ := mendplan.Pieces(j)
		j.Units = mendplan.Inches
		if b, _ := mendplan.Pieces(j); !reflect.DeepEqual(a, b) {
			t.Errorf("case %d: inches give other pieces", i)
		}
	}
}

func TestATraceOnTheBackIsTheMirrorOfTheFront(t *testing.T) {
	w := leafW / px300
	for i := range 1000 {
		d := randomDamage(i)
		d.Mends[0].Side = mendplan.Front
		a, _ := mendplan.Pieces(bench(d))
		mirrored := mapped(bench(d), func(s mendplan.Side) mendplan.Side { return s }, func(p geom.Pt) geom.Pt { return geom.Pt{X: w - p.X, Y: p.Y} })
		leaf := mirrored.Leaves[0]
		leaf.Front, leaf.Back = side300(leafW, leafH), side300(leafW, leafH)
		leaf.Damages[0].Side = mendplan.Back
		b, _ := mendplan.Pieces(mirrored.WithLeaf(leaf))
		if off := sameShapes(a, b); off > 0.2 {
			t.Errorf("case %d: outlines differ by %.3f mm²", i, off)
		}
	}
}

func TestPointsGoToTheLeafAndBack(t *testing.T) {
	for i := range 2000 {
		r := seeded(i)
		s := side300(leafW, leafH)
		tilt := geom.Rotate(between(r, -180, 180))
		for k := range s.TrueEdge {
			s.TrueEdge[k] = tilt.Apply(s.TrueEdge[k])
		}
		s.Calibration.MMPerPxY *= between(r, 0.99, 1.01)
		if i%2 == 0 {
			s.Calibration.Homography = []float64{px300, 0.001, 2, 0.002, px300, 3, between(r, 0, 1e-5), between(r, 0, 1e-5), 1}
		}
		leaf := mendplan.Leaf{ID: "L1", Front: s, Back: s}
		side := []mendplan.SideName{mendplan.Front, mendplan.Back}[r.IntN(2)]
		f, _, fault := mendplan.FrameOf(leaf, side)
		if fault != nil {
			t.Fatalf("case %d: %s", i, fault.Words)
		}
		p := geom.Pt{X: between(r, 0, 2000), Y: between(r, 0, 3000)}
		if back := f.ToScan(f.ToLeaf(p)); back.Dist(p) > 1e-6 {
			t.Errorf("case %d: %v came back as %v", i, p, back)
		}
	}
}

func TestRecalibratingScalesWhatWasTracedButNoMargin(t *testing.T) {
	for i := range 1000 {
		r := seeded(i)
		s := between(r, 0.8, 1.25)
		j := bench(randomDamage(i))
		rescaled := mapped(j, func(side mendplan.Side) mendplan.Side {
			side.Calibration.MMPerPxX *= s
			side.Calibration.MMPerPxY *= s
			return side
		}, func(p geom.Pt) geom.Pt { return p })
		drawnLarger := mapped(j, func(side mendplan.Side) mendplan.Side { return side }, func(p geom.Pt) geom.Pt { return p.Mul(s) })
		a, _ := mendplan.Pieces(rescaled)
		b, _ := mendplan.Pieces(drawnLarger)
		if off := sameShapes(a, b); off > 0.2 {
			t.Errorf("case %d: scale × %.3f differs from drawing it larger by %.3f mm²", i, s, off)
		}
	}
}

func TestASideWithoutScaleGivesAProblemAndNoPieces(t *testing.T) {
	j := bench(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100}))
	leaf := j.Leaves[0]
	leaf.Front.Calibration = mendplan.Calibration{}
	pieces, problems := mendplan.Pieces(j.WithLeaf(leaf))
	got := ofKind(problems, mendplan.NoScale)
	if len(pieces) != 0 || len(got) != 1 || got[0].Weight != mendplan.Wrong || got[0].Side != mendplan.Front {
		t.Errorf("got %d pieces and %v", len(pieces), problems)
	}
}

func TestHopelessTracesAreToldAndNothingPanics(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	cases := map[string][]geom.Pt{
		"no point at all":         nil,
		"a single point":          {{X: 500, Y: 500}},
		"the same point twice":    {{X: 500, Y: 500}, {X: 500, Y: 500}},
		"no numbers":              {{X: nan, Y: 1}, {X: inf, Y: 2}, {X: 3, Y: -inf}},
		"far outside the picture": {{X: 90000, Y: 90000}, {X: 91000, Y: 90000}, {X: 91000, Y: 92000}},
		"absurdly far":            {{X: 1e300, Y: 1e300}, {X: -1e300, Y: 1e300}, {X: 1e300, Y: -1e300}},
	}
	for name, pts := range cases {
		for _, kind := range mendplan.MendedKinds() {
			for _, style := range append(mendplan.StylesFor(kind), "", "nonsense") {
				d := mendplan.Damage{Kind: kind, Side: mendplan.Front, Points: pts, Mends: []mendplan.Mend{{Style: style}}}
				pieces, problems := mendplan.Pieces(bench(d))
				bad := ofKind(problems, mendplan.BadTrace)
				if style != mendplan.Guard && (len(pieces) > 0 || len(bad) == 0) {
					t.Errorf("%s as %s in style %q: %d pieces, problems %v", name, kind, style, len(pieces), problems)
				}
			}
		}
	}
}
