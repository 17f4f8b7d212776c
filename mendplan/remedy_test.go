package mendplan_test

import (
	"context"
	"testing"

	"leafmend/mendplan"
)

func TestARemedyGivesEveryPieceAPlace(t *testing.T) {
	job, pieces, _ := sampleLaid(t)
	for name, stock := range map[string]func(*mendplan.Stock){
		"sheets too few":              func(s *mendplan.Stock) { s.Count = 0 },
		"sheets too small":            func(s *mendplan.Stock) { s.LengthMM, s.WidthMM, s.MarginMM = 30, 12, 0 },
		"sheets with grain the other": func(s *mendplan.Stock) { s.LengthMM, s.WidthMM, s.GrainAlong = 400, 30, "width" },
	} {
		short := job
		for _, s := range job.Stock {
			if s.Kind != mendplan.SheetStock {
				short = short.WithoutStock(s.ID)
				continue
			}
			stock(&s)
			short = short.WithStock(s)
		}
		ctx := context.Background()
		plan := mendplan.Assemble(ctx, short, pieces, nil, -1, nil)
		found := mendplan.Remedies(ctx, short, plan)
		if len(found) == 0 {
			t.Errorf("%s: no remedy", name)
		}
		for round := 0; len(found) > 0; round++ {
			if round > 5 {
				t.Fatalf("%s: the remedies do not end", name)
			}
			for _, r := range found {
				if r.More < 1 || len(r.Labels) == 0 || r.Reason == "" {
					t.Errorf("%s: remedy %+v", name, r)
				}
			}
			short = found[0].Apply(short)
			plan = mendplan.Assemble(ctx, short, pieces, nil, -1, nil)
			found = mendplan.Remedies(ctx, short, plan)
		}
		for _, l := range plan.Layouts {
			if n := len(l.Layout.Unplaced); n > 0 {
				t.Errorf("%s: %d pieces are still on no sheet", name, n)
			}
		}
	}
}
