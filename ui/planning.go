package ui

import (
	"context"
	"slices"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// planner finds the plan of a job in two steps, so that pieces are drawn at
// once while the sheets are still being laid out.
type planner interface {
	pieces(j mendplan.Job) ([]mendplan.Piece, []mendplan.Problem)
	finish(ctx context.Context, s mendplan.Search, j mendplan.Job, pieces []mendplan.Piece, problems []mendplan.Problem) mendplan.Plan
}

// planning keeps the plan up to date aside of the user's work.
type planning struct {
	work        worker
	planner     planner
	plan        mendplan.Plan
	rev         int // of the job
	piecesOf    int // revision the pieces belong to
	planOf      int // revision the whole plan belongs to
	piecing     bool
	laying      bool
	layingOf    int                // revision whose pieces are being laid out
	stopLaying  context.CancelFunc // ends that layout; it is of no use once the pieces are others
	pieceFaults []mendplan.Problem // by finding the pieces, before the layout
	failed      error              // why there is no plan of the last revision
	search      layoutSearch       // a longer one, on request
}

// Plan returns the last plan made; pieces may be a moment, sheets and
// estimate a little longer behind the job.
func (s *Session) Plan() mendplan.Plan { return s.plan }

// PlanIsFresh reports whether all of the plan belongs to the job as it is.
func (s *Session) PlanIsFresh() bool { return s.planOf == s.rev }

// replan has the job planned. While pieces are being found no second search
// is begun; when it is done and the job has moved on, the newest is planned.
func (s *Session) replan() {
	s.rev++
	s.findPieces()
}

func (s *Session) findPieces() {
	if s.piecing {
		return
	}
	s.piecing = true
	job, rev := s.Job(), s.rev
	var pieces []mendplan.Piece
	var problems []mendplan.Problem
	s.work.start(func() error {
		pieces, problems = s.planner.pieces(job)
		return nil
	}, func(err error) {
		s.piecing = false
		if rev != s.rev {
			s.findPieces()
			return
		}
		s.failed = err
		if err == nil {
			s.plan.Pieces, s.plan.Problems = pieces, slices.Concat(problems, layoutProblems(s.plan.Problems))
			s.pieceFaults, s.piecesOf = problems, rev
			s.layOut()
		}
		s.planChanged.emit()
	})
}

// layoutProblems are those of the last layout; they stand until the next.
func layoutProblems(problems []mendplan.Problem) []mendplan.Problem {
	return slices.DeleteFunc(slices.Clone(problems), func(p mendplan.Problem) bool {
		return p.Kind != mendplan.DoesNotFit && p.Kind != mendplan.NoStock
	})
}

// quickEffort is the budget of the layouts that follow every edit.
const quickEffort = 100

// layOut lays the pieces of the newest revision on the stock. What is being
// done for an older revision is given up for it.
func (s *Session) layOut() {
	s.search.giveUp(s.piecesOf)
	if s.laying && s.layingOf != s.piecesOf {
		s.stopLaying() // and begins anew when that has ended
	}
	if s.laying || s.planOf == s.piecesOf {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	s.laying, s.layingOf, s.stopLaying = true, s.piecesOf, stop
	job, rev, pieces, problems := s.Job(), s.piecesOf, s.plan.Pieces, s.pieceFaults
	var plan mendplan.Plan
	s.work.start(func() error {
		plan = s.planner.finish(ctx, mendplan.Search{Effort: quickEffort}, job, pieces, problems)
		return nil
	}, func(err error) {
		stop()
		s.laying = false
		if rev != s.piecesOf {
			s.layOut()
			return
		}
		s.failed = err
		if err == nil {
			s.plan, s.planOf = plan, rev
		}
		s.planChanged.emit()
	})
}

// Problems returns all there is to say about the job: what reading found,
// then what planning found, the heaviest first, otherwise in their order.
func (s *Session) Problems() []mendplan.Problem {
	all := slices.Concat(s.found, s.plan.Problems)
	if s.failed != nil {
		all = append(all, mendplan.Problem{Weight: mendplan.Wrong, Words: phrase.Of("%s", inWords(s.failed).what), Hint: phrase.Of("%s", inWords(s.failed).remedy)})
	}
	rank := map[mendplan.Weight]int{mendplan.Wrong: 0, mendplan.Doubt: 1, mendplan.Advice: 2}
	slices.SortStableFunc(all, func(a, b mendplan.Problem) int { return rank[a.Weight] - rank[b.Weight] })
	return all
}

// PiecesOf returns the pieces that answer a damage.
func (s *Session) PiecesOf(number int) []mendplan.Piece {
	var out []mendplan.Piece
	for _, p := range s.plan.Pieces {
		if p.Damage == number {
			out = append(out, p)
		}
	}
	return out
}
