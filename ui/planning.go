package ui

import (
	"slices"

	"leafmend/mendplan"
)

// planning keeps the plan up to date aside of the user's work.
type planning struct {
	work    worker
	compute func(mendplan.Job) mendplan.Plan
	plan    mendplan.Plan
	planOf  int // revision the plan belongs to; −1 before the first
	rev     int // of the job
	busy    bool
	failed  error // why there is no plan of the last revision
}

// Plan returns the last plan made; it may be a moment behind the job.
func (s *Session) Plan() mendplan.Plan { return s.plan }

// PlanIsFresh reports whether the plan belongs to the job as it is.
func (s *Session) PlanIsFresh() bool { return s.planOf == s.rev }

// replan has the job planned. While one plan is being made no second is
// begun; when it is done and the job has moved on, the newest is planned.
func (s *Session) replan() {
	s.rev++
	if !s.busy {
		s.planNow()
	}
}

func (s *Session) planNow() {
	s.busy = true
	job, rev := s.Job(), s.rev
	var plan mendplan.Plan
	s.work.start(func() error {
		plan = s.compute(job)
		return nil
	}, func(err error) {
		s.busy = false
		if rev != s.rev {
			s.planNow()
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
		all = append(all, mendplan.Problem{Weight: mendplan.Wrong, Words: inWords(s.failed).what, Hint: inWords(s.failed).remedy})
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
