package ui

import (
	"context"
	"errors"
	"time"

	"leafmend/mendplan"
)

// layoutSearch is a longer search for a layout: asked for, shown while it
// runs, and ended when it is good enough. The job is not changed by it.
type layoutSearch struct {
	rev   int // of the job it belongs to
	stop  context.CancelCauseFunc
	state mendplan.SearchState
	began time.Time
	told  time.Time
}

// errGivenUp is the cause of a search whose result is not wanted.
var errGivenUp = errors.New("given up")

// tellEvery is how often a search tells where it is.
const tellEvery = 120 * time.Millisecond

// giveUp ends a search that belongs to another revision than rev.
func (l *layoutSearch) giveUp(rev int) {
	if l.stop != nil && l.rev != rev {
		l.stop(errGivenUp)
	}
}

// Searching returns how far the longer search is; false when none runs.
func (s *Session) Searching() (state mendplan.SearchState, took time.Duration, running bool) {
	return s.search.state, time.Since(s.search.began), s.search.stop != nil
}

// SearchLonger looks for a better layout with a budget of work for each
// tissue, aside. The better of the old and the new layout becomes the plan's.
// It reports whether a search was begun: one at a time, and only of a plan
// that is up to date. When it ends with a result, then gets the plan of before
// and that of now.
func (s *Session) SearchLonger(effort int, then func(before, after mendplan.Plan)) bool {
	if s.search.stop != nil || !s.PlanIsFresh() {
		return false
	}
	ctx, stop := context.WithCancelCause(context.Background())
	s.search = layoutSearch{rev: s.planOf, stop: stop, began: time.Now()}
	job, pieces, problems := s.Job(), s.plan.Pieces, s.pieceFaults
	var plan mendplan.Plan
	search := mendplan.Search{Effort: effort, Anew: true, Progress: s.progressOf(ctx)}
	s.work.start(func() error {
		plan = s.planner.finish(ctx, search, job, pieces, problems)
		return nil
	}, func(err error) {
		cause, rev := context.Cause(ctx), s.search.rev
		stop(nil)
		s.search = layoutSearch{}
		wanted := cause == nil || errors.Is(cause, mendplan.ErrGoodEnough)
		before := s.plan
		if err != nil {
			s.failed = err
		} else if wanted && rev == s.planOf && rev == s.piecesOf {
			s.plan = plan
		}
		s.planChanged.emit()
		if err == nil && wanted {
			then(before, s.plan)
		}
	})
	return true
}

// progressOf returns what notes a search's progress and shows it now and
// then.
func (s *Session) progressOf(ctx context.Context) func(mendplan.SearchState) {
	var told time.Time
	return func(state mendplan.SearchState) {
		if now := time.Now(); now.Sub(told) > tellEvery {
			told = now
			s.work.report(func() {
				if ctx.Err() == nil && s.search.stop != nil {
					s.search.state = state
					s.searchChanged.emit()
				}
			})
		}
	}
}

// StopSearch ends the longer search: with the best layout so far, or with the
// one from before.
func (s *Session) StopSearch(goodEnough bool) {
	if s.search.stop == nil {
		return
	}
	if goodEnough {
		s.search.stop(mendplan.ErrGoodEnough)
	} else {
		s.search.stop(errGivenUp)
	}
}
