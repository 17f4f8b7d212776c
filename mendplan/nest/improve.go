package nest

import (
	"context"
	"math"
	"sync"
)

// unit is how many leaves are looked at for one unit of effort, and roundWork
// what a round takes besides, in the same measure. With both, a unit takes
// about as long for few blanks as for many.
const (
	unit      = 170_000
	roundWork = 120
)

// firstPhase is the effort of the first phase of a search.
const firstPhase = 10.0

// planned is the effort that a phase must have for plans to be worth making.
const planned = 200

// epochs is in how many parts the effort is spent; between them the searches
// tell one another of what they found.
const epochs = 40

// improver runs several searches of one group side by side.
type improver struct {
	g        *group
	best     *state
	use      float64 // of best
	bound    float64
	step     float64 // how far the goal lies below the best
	lanes    []*searcher
	total    int64   // work that may be done
	end      int64   // of this phase
	length   int64   // of this phase
	planned  uint64  // how often plans were tried
	room     float64 // taken up by all blanks, gaps included, µm²
	known    []*plan // collected so far
	allKnown bool    // there are no others
}

// begin starts from a first state.
func (m *improver) begin(s *state) {
	m.best, m.use = s, s.use()
	for i := range m.g.pieces {
		m.room += m.g.pieces[i].area * float64(m.g.pieces[i].count)
	}
}

// spent is the effort spent so far.
func (m *improver) spent() int {
	w := int64(0)
	for _, s := range m.lanes {
		w = max(w, s.work)
	}
	return int(min(w, m.total) / unit)
}

// summary tells of the best so far.
func (m *improver) summary(p *problem) Summary {
	s := Summary{Sheets: len(m.best.trees), Opened: m.best.opened * 1e-6, Bound: m.bound * 1e-6, Proven: m.proven()}
	if m.g.share > 0 {
		s.Kept = (m.best.opened - m.use) / m.g.share * 1e-6
	}
	for _, n := range m.best.wait {
		s.Unplaced += int(n)
	}
	return s
}

// improve looks for a better state within the effort. The search goes in
// phases, each about three times as long as all before; what a phase does
// depends on its own length and not on where the effort ends. So a longer
// search begins with all of a shorter one, and is never worse.
func (m *improver) improve(ctx context.Context, effort int, opt Options, tell func(*improver)) {
	m.total = int64(effort) * unit
	if m.proven() || effort <= 0 {
		return
	}
	n := opt.Workers
	if n <= 0 {
		n = 2
	}
	for i := range n {
		m.lanes = append(m.lanes, newSearcher(m.best, opt.Seed*1e9+uint64(i)))
	}
	for end := firstPhase; ; end *= math.Sqrt(10) {
		m.phase(ctx, int64(math.Round(end))*unit, opt.Seed, tell)
		if m.over(ctx) {
			return
		}
	}
}

// over says that there is nothing more to do.
func (m *improver) over(ctx context.Context) bool {
	return m.proven() || ctx.Err() != nil || m.lanes[0].work >= m.total
}

// phase searches until the work reaches end, or all that may be done.
func (m *improver) phase(ctx context.Context, end int64, seed uint64, tell func(*improver)) {
	start := m.lanes[0].work
	m.end, m.length = end, end-start
	m.known, m.allKnown = nil, false
	m.setStep(0.02)
	m.aim()
	for _, s := range m.lanes {
		s.from = s.work
	}
	for e := range int64(epochs) {
		if e >= epochs/8 && m.length >= planned*unit && m.canPlan() {
			break
		}
		limit := min(m.total, start+m.length*(e+1)/epochs)
		var wg sync.WaitGroup
		for _, s := range m.lanes {
			wg.Go(func() { m.run(ctx, s, limit) })
		}
		wg.Wait()
		m.merge()
		tell(m)
		if m.over(ctx) {
			return
		}
	}
	for c := 0; !m.over(ctx) && m.lanes[0].work < end; c++ {
		// a third of what is left each time, then all
		left := end - m.lanes[0].work
		if c < 4 {
			left /= 3
		}
		m.step = max(1, tune.Step*(m.use-m.bound))
		m.planned++
		m.tryPlans(ctx, m.lanes[0].work+max(left, 1), seed+m.planned*104729)
		tell(m)
	}
}

// proven says that the best cannot be bettered.
func (m *improver) proven() bool {
	return m.best.waits == 0 && m.use <= m.bound*(1+1e-9)
}

// setStep sets how far below the best the goal lies, as a share of what lies
// between best and bound.
func (m *improver) setStep(share float64) {
	m.step = max(1, share*(m.use-m.bound))
}

// aim sets every search's goal below the best.
func (m *improver) aim() {
	for _, s := range m.lanes {
		m.aimOne(s, m.use, m.best)
	}
}

// aimOne sets one search's goal below a use, and takes out what is too much.
func (m *improver) aimOne(s *searcher, use float64, from *state) {
	if from.waits > 0 { // all stock may be opened, and does not do yet
		s.goal = math.Inf(1)
		return
	}
	s.goal = use - m.step
	s.from += int64(tune.Reheat * float64(s.work-s.from))
	s.shed()
}

// run improves one search's state until its work reaches the limit.
func (m *improver) run(ctx context.Context, s *searcher, limit int64) {
	var least float64
	m.anneal(ctx, s, span{s.from, m.end}, limit, 1, &least)
}

// span is a stretch of a search's work.
type span struct{ from, end int64 }

// anneal runs rounds until the work reaches to. The heat falls over the span,
// of which to may be any point. Least is lowered to the least area that
// waited.
func (m *improver) anneal(ctx context.Context, s *searcher, over span, to int64, heat float64, least *float64) {
	from, end := over.from, over.end
	for n := 0; s.work < to; n++ {
		if n%64 == 0 && ctx.Err() != nil {
			return
		}
		f := float64(s.work-from) / float64(max(1, end-from))
		s.heat = heat * s.mean * tune.Heat0 * math.Pow(tune.Heat1/tune.Heat0, min(1, f))
		s.round()
		*least = min(*least, s.waits)
		if s.waits > 0 && !(math.IsInf(s.goal, 1) && (s.found == nil || s.waits < s.found.waits)) {
			continue
		}
		s.found = s.clone()
		if s.waits > 0 {
			continue
		}
		u := s.use()
		if u <= m.bound*(1+1e-9) {
			return
		}
		m.aimOne(s, u, s.found)
		from = max(from, from+int64(tune.Reheat*float64(s.work-from)))
	}
}

// merge takes over the best of what the searches found, the first of equals.
func (m *improver) merge() {
	var won *searcher
	for _, s := range m.lanes {
		f := s.found
		if f == nil {
			continue
		}
		u := f.use()
		if f.waits < m.best.waits || f.waits == m.best.waits && u < m.use {
			m.best, m.use, won = f, u, s
		}
	}
	if won == nil {
		m.step = max(1, m.step/2)
		return
	}
	for _, s := range m.lanes {
		s.found = nil
		if s == won || m.best.waits > 0 {
			continue
		}
		s.adopt(m.best)
		m.aimOne(s, m.use, m.best)
	}
}
