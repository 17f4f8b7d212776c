package mendplan_test

import (
	"reflect"
	"slices"
	"testing"

	sf "github.com/peterstace/simplefeatures/geom"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// troubled is a job of one folded leaf with many damages near one another,
// at the edge and at the fold, some with odd wishes: trouble of every kind
// that an edit can end.
func troubled(i int) mendplan.Job {
	r := seeded(i)
	j := bench()
	leaf, _ := j.Leaf("L1")
	leaf.Kind = mendplan.Bifolium
	j = j.WithLeaf(leaf)
	styles := []mendplan.Style{"", mendplan.Shaped, mendplan.Strips, mendplan.Bridges}
	sides := []mendplan.SideName{"", mendplan.Front, mendplan.Back}
	for range 4 + r.IntN(5) {
		from := geom.Pt{X: between(r, 70, 130), Y: between(r, 110, 150)}
		d := traced(mendplan.Tear, walk(r, from, r.Float64()*6.28, 2+r.IntN(6))...)
		d.Mends = []mendplan.Mend{{Style: styles[r.IntN(4)], Side: sides[r.IntN(3)], Tissue: []string{"", "", "T2", "gone"}[r.IntN(4)]}}
		switch r.IntN(6) {
		case 0:
			d.Mends[0].Rules = mendplan.Rules{mendplan.SideMargin: mendplan.Num(99)}
		case 1:
			d.Mends = append(d.Mends, mendplan.Mend{Rules: mendplan.Rules{mendplan.SecondMargin: mendplan.Num(0)}})
		case 2:
			d.Mends[0].Style = mendplan.Guard
		}
		j, _ = j.AddDamage("L1", d)
	}
	for k := range r.IntN(4) {
		y := 60 + 7*float64(k)
		j, _ = j.AddDamage("L1", traced(mendplan.Tear, geom.Pt{X: leafW, Y: y}, geom.Pt{X: leafW - 3, Y: y + 1}))
	}
	if r.IntN(4) == 0 {
		j, _ = j.AddDamage("L1", traced(mendplan.Loss, geom.Pt{X: 20, Y: 20}, geom.Pt{X: 25, Y: 20}))
	}
	return j
}

func TestEveryResolutionEndsItsProblemAndKeepsTheMargins(t *testing.T) {
	tried := map[mendplan.ProblemKind]int{}
	none := map[mendplan.ProblemKind]int{}
	for i := range 16 {
		j := troubled(i)
		_, problems := mendplan.Pieces(j)
		for _, p := range problems {
			found := j.Resolutions(mendplan.Look{}, p)
			if len(found) == 0 {
				none[p.Kind]++
			}
			for _, x := range found {
				tried[p.Kind]++
				if x.Words.IsZero() || reflect.DeepEqual(x.Job, j) {
					t.Fatalf("case %d, %s: an act without words or without effect", i, p.Kind)
				}
				pieces, left := mendplan.Pieces(x.Job)
				for _, q := range left {
					if q.Kind == p.Kind && q.Leaf == p.Leaf && q.Damage == p.Damage && slices.Equal(q.Joins, p.Joins) {
						t.Errorf("case %d: after %q there is still: %s", i, x.Words, q.Words)
					}
				}
				checkMargins(t, i, x.Job, pieces)
			}
		}
	}
	t.Logf("acts tried: %v; problems without: %v", tried, none)
	for _, kind := range []mendplan.ProblemKind{mendplan.Crowded, mendplan.OtherDamage, mendplan.EdgeRun, mendplan.BadRule,
		mendplan.NoTissue, mendplan.SameLine, mendplan.GrainConflict, mendplan.BadTrace} {
		if tried[kind] == 0 {
			t.Errorf("no resolution of the kind %q came up", kind)
		}
	}
}

// checkMargins asks the oracle that every tear keeps the margin its rules
// name, within the leaf and, where the pieces end at the fold, within its
// half of the leaf.
func checkMargins(t *testing.T, i int, j mendplan.Job, pieces []mendplan.Piece) {
	t.Helper()
	c := cover(t, pieces)
	for _, d := range j.Leaves[0].Damages {
		if d.Kind != mendplan.Tear && d.Kind != mendplan.Nicks || d.NoMend {
			continue
		}
		in := mendplan.InForce{Job: j.Rules}
		style := mendplan.Style("")
		if len(d.Mends) > 0 {
			in.Mend, style = d.Mends[0].Rules, d.Mends[0].Style
			if _, known := j.Tissue(d.Mends[0].Tissue); !known && d.Mends[0].Tissue != "" {
				continue // told: no tissue
			}
		}
		if style == mendplan.Bridges {
			continue // bridges are spaced, and cover no margin
		}
		margin := min(in.Number(mendplan.SideMargin), in.Number(mendplan.EndMargin), in.Number(mendplan.StripWidth)/2) - 0.002
		clip := leafBox(leafW, leafH, 0)
		if in.Word(mendplan.AtFold) == mendplan.EndsAtFold {
			clip = halfOf(d, clip)
		}
		for _, run := range onLeafMM(d.Points) {
			if left := uncovered(t, c, run, margin, clip); left > slackMM2 {
				t.Errorf("case %d, damage %d: %.3f mm² of the margin is bare", i, d.Number, left)
			}
		}
	}
}

// halfOf is the half of the leaf a damage lies in, short of the fold; the
// whole leaf if it comes to the fold.
func halfOf(d mendplan.Damage, whole sf.Geometry) sf.Geometry {
	lo, hi := leafW, 0.0
	for _, p := range d.Points {
		lo, hi = min(lo, p.X*px300), max(hi, p.X*px300)
	}
	box := func(x0, x1 float64) sf.Geometry {
		return sf.NewPolygon([]sf.LineString{ringOf([]geom.Pt{{X: x0}, {X: x1}, {X: x1, Y: leafH}, {X: x0, Y: leafH}})}).AsGeometry()
	}
	switch {
	case hi < leafW/2-1:
		return box(0, leafW/2-1.002)
	case lo > leafW/2+1:
		return box(leafW/2+1.002, leafW)
	}
	return whole
}

func TestPiecesEndShortOfTheFoldWhereAsked(t *testing.T) {
	for i := range 500 {
		r := seeded(i)
		d := randomTear(r)
		d = styled(d, []mendplan.Style{mendplan.Shaped, mendplan.Strips}[i%2], randomRules(r).With(mendplan.AtFold, mendplan.Choice(mendplan.EndsAtFold)))
		j := bench(d)
		leaf, _ := j.Leaf("L1")
		leaf.Kind = mendplan.Bifolium
		j = j.WithLeaf(leaf)
		pieces, _ := mendplan.Pieces(j)
		checkMargins(t, i, j, pieces)
		lo, hi := leafW, 0.0
		for _, line := range append([][]geom.Pt{d.Points}, d.Forks...) {
			for _, p := range line {
				lo, hi = min(lo, p.X*px300), max(hi, p.X*px300)
			}
		}
		for _, p := range pieces {
			b := p.Outline.Bounds()
			if hi < leafW/2-1.01 && b.Max.X > leafW/2-0.99 || lo > leafW/2+1.01 && b.Min.X < leafW/2+0.99 {
				t.Errorf("case %d: piece %s from %.2f to %.2f mm comes to the fold at %.0f", i, p.Label, b.Min.X, b.Max.X, leafW/2)
			}
		}
	}
}

func TestProblemsThatOnlyAPersonCanEndHaveNoResolution(t *testing.T) {
	j := bench(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 90, Y: 100}))
	leaf, _ := j.Leaf("L1")
	leaf.Front.Calibration = mendplan.Calibration{}
	leaf.Back.Calibration = mendplan.Calibration{}
	j = j.WithLeaf(leaf)
	_, problems := mendplan.Pieces(j)
	for _, p := range problems {
		if p.Kind == mendplan.NoScale && len(j.Resolutions(mendplan.Look{}, p)) > 0 {
			t.Error("an act claims to find the scale")
		}
	}
	bad := j.WithRule(mendplan.Fringe, mendplan.Num(-3))
	_, problems = mendplan.Pieces(bad)
	for _, p := range ofKind(problems, mendplan.BadRule) {
		found := bad.Resolutions(mendplan.Look{}, p)
		if len(found) != 1 || len(found[0].Job.Rules) != 0 {
			t.Errorf("a rule outside its range: %d acts", len(found))
		}
	}
}
