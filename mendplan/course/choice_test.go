package course_test

import (
	"context"
	"math"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// choiceJob has a leaf with a tear, graded severe, and a loss; two tissues
// for tears and one for infills, each with sheets at a price.
func choiceJob() (mendplan.Job, mendplan.Plan) {
	job := mendplan.Job{
		Tissues: []mendplan.Tissue{{ID: "A", Grammage: 5, Use: mendplan.ForTears}, {ID: "B", Grammage: 3.5, Use: mendplan.ForTears}, {ID: "C", Grammage: 45, Use: mendplan.ForInfills}},
		Leaves: []mendplan.Leaf{{ID: "L1", Mark: "1", Damages: []mendplan.Damage{
			{Number: 1, Kind: mendplan.Tear, Severity: mendplan.Severe}, {Number: 2, Kind: mendplan.Loss}}}},
	}
	for i, t := range job.Tissues {
		job.Stock = append(job.Stock, mendplan.Stock{ID: "S" + t.ID, Tissue: t.ID, Kind: mendplan.SheetStock, LengthMM: 500, WidthMM: 400, Count: 3, Price: float64(4 + i), Currency: "EUR"})
	}
	plan := mendplan.Plan{Pieces: []mendplan.Piece{
		{Label: "1b-1a", Leaf: "L1", Damage: 1, Tissue: "A", Role: mendplan.RoleMend, BlankLengthMM: 50, BlankWidthMM: 10, AreaMM2: 500, PasteMM2: 500},
		{Label: "1b-2a", Leaf: "L1", Damage: 2, Tissue: "C", Role: mendplan.RoleFill, BlankLengthMM: 40, BlankWidthMM: 30, AreaMM2: 1000, PasteMM2: 1000},
	}}
	plan.Layouts, _ = mendplan.Layouts(context.Background(), job, plan.Pieces, -1, nil)
	return job, plan
}

func TestAnOwnerIsOfferedOtherWays(t *testing.T) {
	job, plan := choiceJob()
	got := course.Choices(context.Background(), job, plan)
	want := []struct {
		name, tissue string
		pieces       int
		cost         float64
	}{
		{course.ChoiceAll, "", 2, 4 + 6},
		{course.ChoiceNoFills, "", 1, 4},
		{course.ChoiceSevere, "", 1, 4},
		{course.ChoiceWithTissue, "B", 2, 5 + 6},
	}
	if len(got) != len(want) {
		t.Fatalf("%d ways, want %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		g := got[i]
		if g.Name != w.name || g.Tissue != w.tissue || g.Pieces != w.pieces || len(g.Costs) != 1 || g.Costs[0] != (course.Cost{Amount: w.cost, Currency: "EUR"}) || g.Unplaced != 0 {
			t.Errorf("got %+v, want %+v", g, w)
		}
	}
	// 15 minutes to get ready, 7.5 for 50 mm of tear, 30 for 10 cm² of fill.
	if h := got[0].Hours * 60; math.Abs(h-52.5) > 1e-9 {
		t.Errorf("everything takes %.2f minutes, want 52.5", h)
	}
	if h := got[1].Hours * 60; math.Abs(h-22.5) > 1e-9 {
		t.Errorf("without fills it takes %.2f minutes, want 22.5", h)
	}
	if course.Choices(context.Background(), job, mendplan.Plan{}) != nil {
		t.Error("a plan without pieces has choices")
	}
}

func TestHoursByRoleAddUpToThoseByLeaf(t *testing.T) {
	job, plan := choiceJob()
	byLeaf, byRole := 0.0, 0.0
	for _, l := range course.Hours(job, plan) {
		byLeaf += l.Minutes()
	}
	roles := course.HoursByRole(job, plan)
	for _, r := range roles {
		byRole += r.Minutes
	}
	if math.Abs(byLeaf-byRole) > 1e-9 || len(roles) != 3 || roles[0].Role != "" || roles[0].Count != 1 {
		t.Errorf("%.2f minutes by leaf, %.2f by role: %+v", byLeaf, byRole, roles)
	}
}

func TestTheTallyTakesTicksOfSinglePieces(t *testing.T) {
	job, plan := choiceJob()
	job.Leaves[0].PiecesOn = []string{"1b-1a", "gone"}
	c := course.Count(job, plan)
	if c.PiecesDone != 1 || c.Mends[0].Done != 1 || c.Mends[1].Done != 0 {
		t.Errorf("%d pieces done, mends %+v", c.PiecesDone, c.Mends)
	}
	if a, b := c.Tissue[0], c.Tissue[1]; a.PiecesDone != 1 || a.MassDoneG != 500e-6*5 || b.PiecesDone != 0 || b.MassDoneG != 0 || b.MassG != 1000e-6*45 {
		t.Errorf("tissue %+v", c.Tissue)
	}
	job = job.AddSteps(step("L1", mendplan.MendedStep, "2026-03-02", ""))
	if c := course.Count(job, plan); c.PiecesDone != 2 || c.Mends[1].Done != 1 {
		t.Errorf("after the step %+v", c)
	}
}
