package collate_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/collate"
	"leafmend/mendplan/geom"
)

// randomGathering makes a gathering with singletons, insets and missing
// leaves.
func randomGathering(rng *rand.Rand) mendplan.Gathering {
	g := mendplan.Gathering{ID: "g", Cover: rng.IntN(4) == 0}
	for i := range 1 + rng.IntN(14) {
		s := mendplan.SheetPlace{Leaf: fmt.Sprint("s", i), Inset: rng.IntN(5) == 0}
		switch rng.IntN(6) {
		case 0:
			s.Half = mendplan.FirstHalf
		case 1:
			s.Half = mendplan.SecondHalf
		case 2:
			s.Missing = []mendplan.Missing{mendplan.FirstMissing, mendplan.SecondMissing, mendplan.AllMissing}[rng.IntN(3)]
		}
		g.Sheets = append(g.Sheets, s)
	}
	return g
}

// crossing reports whether two lines of a diagram cross or touch.
func crossing(a, b geom.Path) bool {
	for i := 1; i < len(a); i++ {
		for j := 1; j < len(b); j++ {
			if geom.SegmentsCross(a[i-1], a[i], b[j-1], b[j]) {
				return true
			}
		}
	}
	return false
}

func TestDiagramsNestWithoutACrossing(t *testing.T) {
	for seed := range uint64(400) {
		job := withLeaves(randomGathering(rand.New(rand.NewPCG(seed, 7))))
		d := collate.DiagramOf(job, 0)
		if len(d.Leaves) != collate.Leaves(job.Gatherings[0]) {
			t.Fatalf("seed %d: %d lines for %d leaves", seed, len(d.Leaves), collate.Leaves(job.Gatherings[0]))
		}
		var lines []geom.Path
		for i, l := range d.Leaves {
			if i > 0 && l.Line[0].Y <= d.Leaves[i-1].Line[0].Y {
				t.Errorf("seed %d: leaf %d does not lie below the one before", seed, i)
			}
			if (len(l.Hatch) > 0) != l.Place.Missing || (l.Stub != nil) != l.Single {
				t.Errorf("seed %d: leaf %d: missing %v with %d strokes, single %v with stub %v", seed, i, l.Place.Missing, len(l.Hatch), l.Single, l.Stub)
			}
			lines = append(lines, l.Line)
		}
		whole := 0
		for _, s := range job.Gatherings[0].Sheets {
			if s.Half == mendplan.WholeSheet {
				whole++
			}
		}
		if len(d.Joins) != whole {
			t.Errorf("seed %d: %d folds for %d bifolia", seed, len(d.Joins), whole)
		}
		for i, j := range d.Joins {
			if i > 0 && j.Sheet <= d.Joins[i-1].Sheet {
				t.Errorf("seed %d: the folds are not listed from the outermost inwards", seed)
			}
			joinsItsLeaves(t, d, j)
			lines = append(lines, j.Line)
		}
		for i, a := range lines {
			for _, p := range a {
				if p.X < 0 || p.Y < 0 || p.X > d.Width || p.Y > d.Height {
					t.Errorf("seed %d: a line leaves the diagram at %v of %v × %v", seed, p, d.Width, d.Height)
				}
			}
			for k, b := range lines[:i] {
				// A fold meets the ends of its own two leaves and nothing else.
				if crossing(a, b) && !meets(a, b) {
					t.Errorf("seed %d: lines %d and %d cross", seed, i, k)
				}
			}
		}
	}
}

func meets(a, b geom.Path) bool {
	for _, p := range []geom.Pt{a[0], a[len(a)-1]} {
		for _, q := range []geom.Pt{b[0], b[len(b)-1]} {
			if p.Dist(q) < 1e-9 {
				return true
			}
		}
	}
	return false
}

// joinsItsLeaves checks that a fold begins and ends at its own two leaves.
func joinsItsLeaves(t *testing.T, d collate.Diagram, j collate.DiagramJoin) {
	t.Helper()
	n := 0
	for _, l := range d.Leaves {
		if l.Place.Sheet == j.Sheet && (l.Line[0].Dist(j.Line[0]) < 1e-9 || l.Line[0].Dist(j.Line[len(j.Line)-1]) < 1e-9) {
			n++
		}
	}
	if n != 2 {
		t.Errorf("the fold of sheet %d meets %d of its leaves", j.Sheet, n)
	}
}
