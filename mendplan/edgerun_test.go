package mendplan_test

import (
	"slices"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

func TestNicksCloseTogetherAreOfferedOneStrip(t *testing.T) {
	nick := func(y float64) mendplan.Damage {
		return traced(mendplan.Tear, geom.Pt{X: 196, Y: y}, geom.Pt{X: 200, Y: y + 1})
	}
	deep := traced(mendplan.Tear, geom.Pt{X: 180, Y: 118}, geom.Pt{X: 200, Y: 118})
	// Gaps of 8, 9 and 31 mm against the rule of 10; one tear too deep.
	j := bench(nick(100), nick(108), nick(117), nick(148), deep)
	_, problems := mendplan.Pieces(j)
	runs := ofKind(problems, mendplan.EdgeRun)
	if len(runs) != 1 || !slices.Equal(runs[0].Joins, []int{1, 2, 3}) {
		t.Fatalf("got %+v, want one run of damages 1, 2 and 3", runs)
	}
	j, number := j.AsNicks("L1", runs[0].Joins...)
	pieces, problems := mendplan.Pieces(j)
	if len(ofKind(problems, mendplan.EdgeRun)) != 0 {
		t.Errorf("still offered: %v", problems)
	}
	var strips []mendplan.Piece
	for _, p := range pieces {
		if p.Damage <= 3 {
			t.Errorf("%s: damage %d is mended twice", p.Label, p.Damage)
		}
		if p.Damage == number {
			strips = append(strips, p)
		}
	}
	if len(strips) != 1 || strips[0].Style != mendplan.EdgeStrip {
		t.Fatalf("got %d pieces for the run, want one edge strip", len(strips))
	}
	for _, y := range []float64{100, 108, 117} {
		path := []geom.Pt{{X: 196, Y: y}, {X: 200, Y: y + 1}}
		if left := uncovered(t, cover(t, strips), path, 5-0.002, leafBox(leafW, leafH, 10-0.002)); left > slackMM2 {
			t.Errorf("nick at %.0f mm: %.3f mm² of its margin is bare", y, left)
		}
	}
	if same, n := j.AsNicks("L1", 4); n != 0 || len(same.Leaves[0].Damages) != len(j.Leaves[0].Damages) {
		t.Error("a single nick was made into a run")
	}
}
