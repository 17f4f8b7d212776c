package mendplan_test

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// randomDamage is any damage that gets mends, in any style that suits it.
func randomDamage(i int) mendplan.Damage {
	r := seeded(i)
	var d mendplan.Damage
	switch i % 5 {
	case 0:
		d = randomRing(r, mendplan.Loss)
	case 1:
		d = randomRing(r, mendplan.WeakArea)
	default:
		d = randomTear(r)
	}
	styles := mendplan.StylesFor(d.Kind)
	return styled(d, styles[r.IntN(len(styles))], randomRules(r))
}

func TestOutlinesAreSoundAndTheirSizesRight(t *testing.T) {
	n := 0
	for i := range 2000 {
		d := randomDamage(i)
		pieces, _ := mendplan.Pieces(bench(d))
		for _, p := range pieces {
			n++
			for _, part := range geom.Parts(p.Outline) {
				var rings []sf.LineString
				for _, r := range part {
					rings = append(rings, ringOf(r))
				}
				// The oracle refuses rings that cross themselves or each other.
				poly := sf.NewPolygon(rings)
				if err := poly.Validate(); err != nil {
					t.Errorf("case %d, %s: %v", i, p.Label, err)
				}
			}
			if want := asked(t, p.Outline).Area(); !within(p.AreaMM2, want, want/1000) {
				t.Errorf("case %d, %s: area %.3f, the oracle says %.3f", i, p.Label, p.AreaMM2, want)
			}
			checkBlank(t, i, d, p)
		}
	}
	t.Logf("%d pieces", n)
}

// checkBlank asks that the blank holds the piece and the fringe all round,
// and that its grain is within the tolerance.
func checkBlank(t *testing.T, i int, d mendplan.Damage, p mendplan.Piece) {
	t.Helper()
	fringe := inForce(d, mendplan.Fringe)
	along := geom.Direction(p.BlankDeg)
	for _, q := range p.Outline.Points() {
		v := q.Sub(p.BlankCentre)
		u, w := math.Abs(v.Dot(along)), math.Abs(v.Cross(along))
		if u+fringe > p.BlankLengthMM/2+1e-6 || w+fringe > p.BlankWidthMM/2+1e-6 {
			t.Errorf("case %d, %s: the blank does not hold the piece and %.1f mm of fringe", i, p.Label, fringe)
			return
		}
	}
	off := math.Abs(math.Remainder(p.BlankDeg-p.GrainDeg, 180))
	if tol := inForce(d, mendplan.GrainTolerance); !p.GrainFree && off > tol+1e-6 {
		t.Errorf("case %d, %s: grain off by %.2f°, allowed %.2f°", i, p.Label, off, tol)
	}
}

func TestNoPieceForATearIsLongerThanAllowed(t *testing.T) {
	n := 0
	for i := range 1500 {
		r := seeded(i)
		style := []mendplan.Style{mendplan.Shaped, mendplan.Strips}[i%2]
		d := styled(randomTear(r), style, randomRules(r))
		pieces, problems := mendplan.Pieces(bench(d))
		if len(ofKind(problems, mendplan.DoesNotFit)) > 0 {
			continue // said so
		}
		limit := inForce(d, mendplan.LongestStrip)
		for _, p := range pieces {
			n++
			if long := longSide(narrowest(t, p)); long > limit+0.01 {
				t.Errorf("case %d, %s: %.3f mm long, allowed %.1f", i, p.Label, long, limit)
			}
		}
	}
	if n < 2000 {
		t.Errorf("only %d pieces checked", n)
	}
}

// narrowest is the oracle's own narrowest rectangle about a piece.
func narrowest(t *testing.T, p mendplan.Piece) sf.Geometry {
	t.Helper()
	return sf.RotatedMinimumWidthBoundingRectangle(asked(t, p.Outline))
}

func longSide(rect sf.Geometry) float64 {
	seq := rect.MustAsPolygon().ExteriorRing().Coordinates()
	a, b, c := seq.GetXY(0), seq.GetXY(1), seq.GetXY(2)
	return max(a.Sub(b).Length(), b.Sub(c).Length())
}

func TestNeighbouringStripsOverlapAsTheRulesSay(t *testing.T) {
	n := 0
	for i := range 1500 {
		r := seeded(i)
		d := styled(randomTear(r), mendplan.Strips, randomRules(r))
		d.Forks, d.Start, d.End = nil, mendplan.EndBlind, mendplan.EndBlind
		pieces, _ := mendplan.Pieces(bench(d))
		slices.SortStableFunc(pieces, func(a, b mendplan.Piece) int { return a.Order - b.Order })
		for k := 1; k < len(pieces); k++ {
			n++
			x, err := sf.Intersection(asked(t, pieces[k-1].Outline), asked(t, pieces[k].Outline))
			if err != nil {
				t.Fatal(err)
			}
			if got, want := extent(x, pieces[k-1]), inForce(d, mendplan.PieceOverlap); got < want-0.01 {
				t.Errorf("case %d: %s and %s overlap by %.3f mm, want %.1f", i, pieces[k-1].Label, pieces[k].Label, got, want)
			}
		}
	}
	t.Logf("%d joints", n)
}

// extent is how far an area reaches along the strip.
func extent(g sf.Geometry, p mendplan.Piece) float64 {
	ring := p.Outline[0]
	dir := ring[1].Sub(ring[0]).Unit()
	lo, hi := math.Inf(1), math.Inf(-1)
	seq := g.DumpCoordinates()
	for i := range seq.Length() {
		xy := seq.GetXY(i)
		u := geom.Pt{X: xy.X, Y: xy.Y}.Dot(dir)
		lo, hi = min(lo, u), max(hi, u)
	}
	return hi - lo
}

func TestPiecesHangOverTheEdgeByTheOverhang(t *testing.T) {
	for i := range 1000 {
		r := seeded(i)
		style := []mendplan.Style{mendplan.Shaped, mendplan.Strips}[i%2]
		end := geom.Pt{X: between(r, 20, leafW-20), Y: leafH}
		slant := between(r, -0.9, 0.9) // up to 51° off square
		d := styled(traced(mendplan.Tear, end.Add(geom.Pt{X: -30 * math.Sin(slant), Y: -30 * math.Cos(slant)}), end), style, randomRules(r))
		pieces, _ := mendplan.Pieces(bench(d))
		over := inForce(d, mendplan.EdgeOverhang)
		out := end.Add(geom.Pt{Y: over - 0.01})
		if style == mendplan.Strips {
			out = end.Add(geom.Pt{X: math.Tan(slant) * (over - 0.01), Y: over - 0.01})
		}
		held := false
		for _, p := range pieces {
			held = held || p.Outline.Contains(out)
			if b := p.Outline.Bounds(); style == mendplan.Shaped && b.Max.Y > leafH+over+0.01 {
				t.Errorf("case %d: hangs over by %.3f mm, want no more than %.1f", i, b.Max.Y-leafH, over)
			}
		}
		if !held {
			t.Errorf("case %d, %s: the tear's line does not hang over by %.1f mm", i, style, over)
		}
	}
}

func TestEqualJobsGiveEqualPiecesWithAndWithoutMemo(t *testing.T) {
	var memo mendplan.Memo
	for i := range 150 {
		var ds []mendplan.Damage
		for k := range 6 {
			ds = append(ds, randomDamage(6*i+k))
		}
		j := bench(ds...)
		a, pa := mendplan.Pieces(j)
		b, pb := mendplan.Pieces(j)
		if !reflect.DeepEqual(a, b) || !reflect.DeepEqual(pa, pb) {
			t.Fatalf("case %d: two answers for one job", i)
		}
		memo.Pieces(j)
		edited := j.WithDamage("L1", mendplan.Damage{Number: 3, Kind: mendplan.Tear, Side: mendplan.Back, Points: randomTear(seeded(i + 9000)).Points})
		c, pc := memo.Pieces(edited)
		e, pe := mendplan.Pieces(edited)
		if !reflect.DeepEqual(c, e) || !reflect.DeepEqual(pc, pe) {
			t.Fatalf("case %d: the memo's answer after an edit differs", i)
		}
	}
}

func ExampleCompute() {
	j := bench(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100}))
	plan := mendplan.Compute(j.WithRule(mendplan.TearStyle, mendplan.Choice("strips")))
	for _, p := range plan.Pieces {
		fmt.Printf("%s: blank %.1f × %.1f mm, %.0f mm²\n", p.Label, p.BlankLengthMM, p.BlankWidthMM, p.AreaMM2)
	}
	// Output: 3b-1a: blank 64.0 × 14.0 mm, 600 mm²
}
