package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// crowd draws tears that all pass near one place, on both sides.
func crowd(i int) mendplan.Job {
	r := seeded(i)
	j := bench()
	for range 5 + r.IntN(6) {
		start := geom.Pt{X: between(r, 95, 115), Y: between(r, 132, 152)}
		d := traced(mendplan.Tear, walk(r, start, between(r, 0, 6.28), 2+r.IntN(6))...)
		d.Mends = []mendplan.Mend{{Style: []mendplan.Style{mendplan.Shaped, mendplan.Strips}[r.IntN(2)],
			Side: []mendplan.SideName{mendplan.Front, mendplan.Back}[r.IntN(2)]}}
		j, _ = j.AddDamage("L1", d)
	}
	return j
}

// deepestPoint counts layers on a grid of points, the slow and obvious way.
func deepestPoint(pieces []mendplan.Piece, side mendplan.SideName) int {
	most := 0
	for y := 60.0; y < 230; y += 1.5 {
		for x := 20.0; x < 190; x += 1.5 {
			n := 0
			for _, p := range pieces {
				if p.Side == side && p.Outline.Contains(geom.Pt{X: x, Y: y}) {
					n++
				}
			}
			most = max(most, n)
		}
	}
	return most
}

func TestCrowdingIsFoundWhereLayersStack(t *testing.T) {
	crowdedJobs := 0
	for i := range 150 {
		pieces, problems := mendplan.Pieces(crowd(i))
		for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
			told := false
			for _, p := range ofKind(problems, mendplan.Crowded) {
				told = told || p.Side == side
			}
			if deepestPoint(pieces, side) > 3 {
				crowdedJobs++
				if !told {
					t.Errorf("case %d: more than three layers on the %s, and no word of it", i, side)
				}
			}
		}
	}
	if crowdedJobs < 50 {
		t.Errorf("only %d sides were crowded", crowdedJobs)
	}
}

func TestJoiningKeepsMarginsAndLimits(t *testing.T) {
	for i := range 120 {
		j := crowd(i)
		var numbers []int
		for _, d := range j.Leaves[0].Damages {
			numbers = append(numbers, d.Number)
			d.Mends[0].Side = mendplan.Back
			j = j.WithDamage("L1", d)
		}
		pieces, _ := mendplan.Pieces(j.Join("L1", numbers...))
		c := cover(t, pieces)
		for _, d := range j.Leaves[0].Damages {
			for _, run := range onLeafMM(d.Points) {
				if left := uncovered(t, c, run, 5-0.002, leafBox(leafW, leafH, 0)); left > slackMM2 {
					t.Errorf("case %d: joining bared %.3f mm² of the margin of damage %d", i, left, d.Number)
				}
			}
		}
		for _, p := range pieces {
			if long := longSide(narrowest(t, p)); long > 75.01 {
				t.Errorf("case %d: %s is %.2f mm long", i, p.Label, long)
			}
		}
	}
}
