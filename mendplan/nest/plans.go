package nest

import (
	"cmp"
	"context"
	"math"
	"slices"
	"sync"
)

// A plan says beforehand which stock may be opened and how the sheet with the
// largest remnant is first cut. With few sheets there are few plans worth
// trying, and each is best searched for itself: no small change leads from
// one to another.
type plan struct {
	copies []int32 // by kind: how many may be opened
	force  []int8  // by kind: 1 first cut into columns, 2 into rows, 0 either
	cost   float64 // of the sheets, µm²
	room   float64
	sheets int
	need   float64 // share of the room that blanks and the remnant take up
	run    *searcher
	waits  float64 // least area that waited
}

// mostPlanned is the number of sheets up to which plans are made, and mostTried
// how many plans are tried in one go, of mostKnown remembered.
const (
	mostPlanned = 12
	mostTried   = 10
	mostKnown   = 500
)

// plans lists the most promising plans for a goal, best first.
func (m *improver) plans(goal float64) []*plan {
	live := m.live(goal)
	if len(live) < mostTried && !m.allKnown {
		m.collect(goal)
		live = m.live(goal)
	}
	return m.g.shaped(live, goal)
}

// live are the plans collected that may still reach the goal.
func (m *improver) live(goal float64) []*plan {
	var out []*plan
	for _, p := range m.known {
		if need := m.need(p.cost, p.room, p.sheets, goal); need < 1 {
			out = append(out, &plan{copies: p.copies, cost: p.cost, room: p.room, sheets: p.sheets, need: need})
		}
	}
	slices.SortStableFunc(out, byNeed)
	return out
}

func byNeed(a, b *plan) int { return cmp.Compare(a.need, b.need) }

// need is the share of a plan's room that blanks take up, and the remnant
// that the goal asks for. Many sheets make a little more waste.
func (m *improver) need(cost, room float64, sheets int, goal float64) float64 {
	need := m.room
	if cost > goal {
		if !m.g.keeps || m.g.share == 0 {
			return math.Inf(1)
		}
		need += (cost - goal) / m.g.share
	}
	return need / room * (1 + 0.004*float64(sheets))
}

// collect goes through the sets of sheets that may reach the goal and keeps
// the most promising.
func (m *improver) collect(goal float64) {
	g := m.g
	var kinds []int
	big, share := 0.0, 0.0
	if g.keeps {
		share = g.share
	}
	for i := range g.kinds {
		if g.kinds[i].copies > 0 {
			kinds = append(kinds, i)
			big = max(big, g.kinds[i].cost)
		}
	}
	slices.SortStableFunc(kinds, func(a, b int) int { return cmp.Compare(g.kinds[b].cost, g.kinds[a].cost) })
	m.known = nil
	steps, most, worst := 0, int(min(1_000_000, m.length/40)), 1.0
	cur := make([]int32, len(g.kinds))
	var dive func(at int, cost, room float64, sheets int)
	dive = func(at int, cost, room float64, sheets int) {
		if steps++; steps > most || cost > goal+share*big || sheets > mostPlanned {
			return
		}
		if room > 0 {
			if need := m.need(cost, room, sheets, goal); need < worst && g.holds(cur) {
				m.known = append(m.known, &plan{copies: slices.Clone(cur), cost: cost, room: room, sheets: sheets, need: need})
				if len(m.known) > 2*mostKnown {
					slices.SortStableFunc(m.known, byNeed)
					m.known = m.known[:mostKnown]
					worst = m.known[mostKnown-1].need
				}
			}
		}
		for i := at; i < len(kinds); i++ {
			k := kinds[i]
			kd := &g.kinds[k]
			if cur[k] >= kd.copies {
				continue
			}
			cur[k]++
			dive(i, cost+kd.cost, room+float64(kd.w)*float64(kd.h), sheets+1)
			cur[k]--
		}
	}
	dive(0, 0, 0, 0)
	m.allKnown = worst == 1
	m.spend(int64(steps) * 2)
}

// holds says whether every piece fits one of the sheets.
func (g *group) holds(copies []int32) bool {
	for p := range g.pieces {
		ok := false
		for k, n := range copies {
			if n > 0 && g.fits(int32(p), int32(k)) {
				ok = true
				break
			}
		}
		if !ok {
			return false
		}
	}
	return true
}

// shaped makes of each plan that needs a remnant two, by the first cut of its
// largest sheet, and returns the first few of all.
func (g *group) shaped(in []*plan, goal float64) []*plan {
	var out []*plan
	for _, p := range in {
		if len(out) >= mostTried {
			break
		}
		cost, big := 0.0, 0
		for k, n := range p.copies {
			cost += float64(n) * g.kinds[k].cost
			if n > 0 && (p.copies[big] == 0 || g.kinds[k].cost > g.kinds[big].cost) {
				big = k
			}
		}
		p.force = make([]int8, len(p.copies))
		if cost <= goal {
			out = append(out, p)
			continue
		}
		for _, f := range []int8{1, 2} {
			q := &plan{copies: p.copies, need: p.need, force: slices.Clone(p.force)}
			q.force[big] = f
			out = append(out, q)
		}
	}
	return out
}

// canPlan says whether plans are worth making.
func (m *improver) canPlan() bool {
	g := m.g
	if m.best.waits > 0 || len(m.best.trees) > mostPlanned-2 || len(g.kinds) == 1 && !g.keeps {
		return false
	}
	for i := range g.kinds {
		if g.kinds[i].open || g.kinds[i].roll {
			return false
		}
	}
	return true
}

// tryPlans spends work up to limit on the most promising plans: a little on
// each, twice as much on the better half, and so on.
func (m *improver) tryPlans(ctx context.Context, limit int64, seed uint64) {
	goal := m.use - m.step
	list := m.plans(goal)
	for i, p := range list {
		p.run = m.start(p, goal, seed+uint64(i)*7919)
	}
	spent := m.lanes[0].work
	all := (limit - spent) * int64(len(m.lanes))
	rounds := int64(math.Ceil(math.Log2(float64(len(list)+1)))) + 1
	for r := range rounds {
		if len(list) == 0 || m.proven() || ctx.Err() != nil {
			break
		}
		slice := all / rounds / int64(len(list))
		for i := 0; i < len(list); i += len(m.lanes) {
			m.slice(ctx, list[i:min(i+len(m.lanes), len(list))], slice, r)
			m.spend(slice)
			if m.over(ctx) {
				return
			}
		}
		slices.SortStableFunc(list, func(a, b *plan) int { return cmp.Compare(a.waits, b.waits) })
		list = list[:(len(list)+1)/2]
	}
	for _, s := range m.lanes {
		s.work = max(s.work, limit)
	}
}

// spend notes work done on plans.
func (m *improver) spend(work int64) {
	for _, s := range m.lanes {
		s.work += work
	}
}

// start lays out a plan afresh.
func (m *improver) start(p *plan, goal float64, seed uint64) *searcher {
	empty := newState(m.g)
	copy(empty.stock, p.copies)
	s := newSearcher(empty, seed)
	s.goal, s.force = goal, p.force
	s.begin()
	s.most = math.Inf(1)
	s.recreate()
	s.settle()
	s.price = s.worth()
	p.waits = s.waits
	return s
}

// slice works on a few plans side by side and takes over what they find.
func (m *improver) slice(ctx context.Context, list []*plan, work, r int64) {
	may := min(work, m.total-m.lanes[0].work)
	var wg sync.WaitGroup
	for _, p := range list {
		wg.Go(func() {
			s := p.run
			if g := m.use - m.step; s.goal > g {
				s.goal = g
				s.shed()
			}
			p.waits = math.Inf(1)
			from := s.work
			m.anneal(ctx, s, span{from, from + work}, from+may, 1/float64(1+r), &p.waits)
		})
	}
	wg.Wait()
	for _, p := range list {
		f := p.run.found
		if f == nil {
			continue
		}
		if u := f.use(); u < m.use {
			m.best, m.use = f, u
			p.waits = -1 // it goes on
		}
		p.run.found = nil
	}
}
