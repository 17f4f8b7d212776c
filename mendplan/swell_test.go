package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// nested is a job of n bifolia of 300 × 200 mm, fold at 150 mm, each with a
// guard over its whole fold and the same tear near the right fore-edge.
func nested(n int) mendplan.Job {
	j := bench()
	j.Leaves = nil
	j.Tissues[0].ThicknessMM = 0.03
	for i := range n {
		id := string(rune('A' + i))
		j = j.WithLeaf(mendplan.Leaf{ID: id, Mark: id, Front: side300(300, 200), Back: side300(300, 200)})
		split := traced(mendplan.Split, geom.Pt{X: 150, Y: 20}, geom.Pt{X: 150, Y: 120})
		split.Mends = []mendplan.Mend{{Style: mendplan.Guard}}
		j, _ = j.AddDamage(id, split)
		j, _ = j.AddDamage(id, traced(mendplan.Tear, geom.Pt{X: 270, Y: 190}, geom.Pt{X: 290, Y: 190}))
	}
	return j
}

func TestSwellAddsUpThroughTheGathering(t *testing.T) {
	j := nested(4)
	pieces, _ := mendplan.Pieces(j)
	s := mendplan.Swells(j, pieces)
	if len(s) != 1 {
		t.Fatalf("got %d gatherings, want one", len(s))
	}
	// Closed form: each guard lies on both halves, so four of 0.03 mm count
	// twice at the fold; at the corner there is one piece on each sheet.
	if got := s[0].At(4, 100); !within(got, 8*0.03, 1e-9) {
		t.Errorf("beside the fold: got %.3f mm, want 0.24", got)
	}
	if !within(s[0].Fold, 0.24, 1e-9) || !within(s[0].Corner, 0.12, 1e-9) || s[0].CornerHead {
		t.Errorf("fold %.3f, corner %.3f at the head %v; want 0.24, 0.12, tail", s[0].Fold, s[0].Corner, s[0].CornerHead)
	}
	if s[0].Estimated {
		t.Error("the thickness was measured, not estimated")
	}
	if got := s[0].At(80, 50); got != 0 {
		t.Errorf("where nothing was mended: got %.3f mm", got)
	}
}

func TestTheBodyOfAnInfillAddsNothing(t *testing.T) {
	j := nested(1)
	j.Leaves[0].Damages = nil
	j.Tissues[1].ThicknessMM = 0.1
	j, _ = j.AddDamage("A", traced(mendplan.Loss, geom.Pt{X: 200, Y: 60}, geom.Pt{X: 240, Y: 60}, geom.Pt{X: 240, Y: 100}, geom.Pt{X: 200, Y: 100}))
	pieces, _ := mendplan.Pieces(j)
	s := mendplan.Swells(j, pieces)[0]
	if got := s.At(70, 80); got != 0 {
		t.Errorf("in the middle of the loss: got %.3f mm, want 0", got)
	}
	if got := s.At(49.5, 80); !within(got, 0.1, 1e-9) {
		t.Errorf("on its overlap: got %.3f mm, want 0.1", got)
	}
}
