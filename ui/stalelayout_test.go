package ui

import (
	"context"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/ui/oneloop"
)

// waitingPlanner finds no pieces, and lays out until it is told to stop or to
// go on.
type waitingPlanner struct {
	begun chan context.Context
	goOn  chan bool
}

func (p waitingPlanner) pieces(mendplan.Job) ([]mendplan.Piece, []mendplan.Problem) { return nil, nil }

func (p waitingPlanner) finish(ctx context.Context, _ mendplan.Search, j mendplan.Job, _ []mendplan.Piece, _ []mendplan.Problem) mendplan.Plan {
	p.begun <- ctx
	select {
	case <-ctx.Done():
		return mendplan.Plan{}
	case <-p.goOn:
		return mendplan.Plan{Problems: []mendplan.Problem{{Leaf: j.Leaves[0].ID}}}
	}
}

// TestALayoutOfAnOlderJobIsGivenUp changes the job while sheets are laid out:
// that layout is told to stop, the next is of the job as it is, and only that
// one is shown.
func TestALayoutOfAnOlderJobIsGivenUp(t *testing.T) {
	p := waitingPlanner{make(chan context.Context, 4), make(chan bool)}
	was := fyne.CurrentApp()
	_, back := oneloop.NewApp()
	t.Cleanup(func() { fyne.SetCurrentApp(was) })
	s := newSession(worker{}, p)
	until := func(what string, ok func() bool) {
		t.Helper()
		for !ok() {
			select {
			case done := <-back:
				done()
			case <-time.After(time.Minute):
				t.Fatalf("%s did not come", what)
			}
		}
	}
	s.Do("leaf", mendplan.Job{Leaves: []mendplan.Leaf{{ID: "one"}}})
	until("the first pieces", func() bool { return s.laying })
	first := <-p.begun
	s.Do("leaf", mendplan.Job{Leaves: []mendplan.Leaf{{ID: "two"}}})
	until("the second pieces", func() bool { return first.Err() != nil })
	until("the second layout", func() bool { return s.layingOf == s.rev })
	if second := <-p.begun; second.Err() != nil {
		t.Error("the layout of the job as it is was told to stop")
	}
	close(p.goOn)
	until("the plan", s.PlanIsFresh)
	if got := s.Plan().Problems; len(got) != 1 || got[0].Leaf != "two" {
		t.Errorf("shown is the plan %v", got)
	}
}
