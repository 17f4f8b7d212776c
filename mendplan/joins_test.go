package mendplan_test

import (
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// star is four tears that meet at one place of the leaf.
func star() mendplan.Job {
	c := geom.Pt{X: 100, Y: 140}
	var ds []mendplan.Damage
	for _, off := range []geom.Pt{{X: 30}, {X: -30}, {Y: 30}, {Y: -30}} {
		ds = append(ds, traced(mendplan.Tear, c, c.Add(off)))
	}
	return bench(ds...)
}

func ofKind(problems []mendplan.Problem, kind mendplan.ProblemKind) []mendplan.Problem {
	var out []mendplan.Problem
	for _, p := range problems {
		if p.Kind == kind {
			out = append(out, p)
		}
	}
	return out
}

func TestFourTearsThatMeetCrowdAndJoiningResolvesIt(t *testing.T) {
	j := star()
	_, problems := mendplan.Pieces(j)
	crowded := ofKind(problems, mendplan.Crowded)
	if len(crowded) != 1 || len(crowded[0].Joins) != 4 || crowded[0].At == nil {
		t.Fatalf("crowded: got %+v, want one of four damages with a place", crowded)
	}
	if got := crowded[0].At.Mul(px300); got.Dist(geom.Pt{X: 100, Y: 140}) > 8 {
		t.Errorf("place: got %v mm, want near 100, 140", got)
	}
	joined := j.Join("L1", crowded[0].Joins...)
	pieces, problems := mendplan.Pieces(joined)
	if left := ofKind(problems, mendplan.Crowded); len(left) != 0 {
		t.Errorf("still crowded after joining: %v", left)
	}
	if left := ofKind(problems, mendplan.OtherDamage); len(left) != 0 {
		t.Errorf("joined damages still reported as strangers: %v", left)
	}
	c := cover(t, pieces)
	for _, d := range joined.Leaves[0].Damages {
		for _, run := range onLeafMM(d.Points) {
			if left := uncovered(t, c, run, 5-0.002, leafBox(leafW, leafH, 0)); left > slackMM2 {
				t.Errorf("damage %d lost %.3f mm² of margin by joining", d.Number, left)
			}
		}
	}
	for _, p := range pieces {
		if p.Damage != 1 || !strings.HasPrefix(p.Label, "3b-1") {
			t.Errorf("piece %s of damage %d: want all in damage 1", p.Label, p.Damage)
		}
	}
	if back, _ := mendplan.Pieces(joined.Unjoin("L1", 1)); len(back) != 4 {
		t.Errorf("after taking the join back: got %d pieces, want 4", len(back))
	}
}

func TestPiecesThatEndOnOneLineOnBothSidesAreFound(t *testing.T) {
	d := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100})
	d.Mends = []mendplan.Mend{{Style: mendplan.Strips, Side: mendplan.Front}}
	same := d
	same.Mends = []mendplan.Mend{{Style: mendplan.Strips, Side: mendplan.Back}}
	_, problems := mendplan.Pieces(bench(d, same))
	if got := ofKind(problems, mendplan.SameLine); len(got) != 1 {
		t.Errorf("two equal strips on two sides: got %d problems of that kind, want 1", len(got))
	}
	d.Mends = append(d.Mends, mendplan.Mend{Style: mendplan.Strips})
	pieces, problems := mendplan.Pieces(bench(d))
	if got := ofKind(problems, mendplan.SameLine); len(got) != 0 {
		t.Errorf("a second side, wider by its rule: got %v", got)
	}
	if len(pieces) != 2 || pieces[1].Side != mendplan.Back || pieces[1].Role != mendplan.RoleSecond {
		t.Fatalf("second side: got %+v", pieces)
	}
	// F26a: wider by 2 mm each side, here and past the ends.
	if got := pieces[1].BlankWidthMM - pieces[0].BlankWidthMM; !within(got, 4, 0.01) {
		t.Errorf("second side wider by %.3f mm in all, want 4", got)
	}
}

func TestAPieceThatRunsIntoAnotherDamageOrTheFoldIsTold(t *testing.T) {
	a := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 96, Y: 100})
	b := traced(mendplan.Loss, geom.Pt{X: 62, Y: 103}, geom.Pt{X: 70, Y: 103}, geom.Pt{X: 66, Y: 110})
	j := bench(a, b)
	_, problems := mendplan.Pieces(j)
	if got := ofKind(problems, mendplan.OtherDamage); len(got) != 1 {
		t.Errorf("tear beside a loss: got %d problems, want 1: %v", len(got), got)
	}
	leaf := j.Leaves[0]
	leaf.Kind = mendplan.Bifolium
	_, problems = mendplan.Pieces(j.WithLeaf(leaf).WithoutDamage("L1", 2))
	if got := ofKind(problems, mendplan.OtherDamage); len(got) != 1 || !strings.Contains(got[0].Words.String(), "fold") {
		t.Errorf("tear that ends 4 mm from the fold at x = 100: got %v", got)
	}
}
