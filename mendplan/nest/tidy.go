package nest

import (
	"context"
	"slices"
)

// tidyShare is the part of the effort, one in so many, that goes into fewer
// cuts and ruler settings once the use is settled; where the user weighs them,
// one in weighedShare.
const (
	tidyShare    = 10
	weighedShare = 2
)

// tidy looks for a layout of the same use, or as much more as the user's
// weights are worth, with fewer cuts and ruler settings.
func (m *improver) tidy(ctx context.Context, w Weights, seed uint64) {
	if m.best.waits > 0 || len(m.best.trees) == 0 {
		return
	}
	const least = 1e6 // 1 mm²: decides between equals
	cuts, settings := max(least, w.FewerCuts*1e6), max(least, w.FewerSettings*1e6)
	s := newSearcher(m.best, seed)
	s.gentle = true
	trouble := func() float64 {
		c, r := s.toil()
		return s.use() + cuts*float64(c) + settings*float64(r)
	}
	now := trouble()
	worth := max(0, now-s.use())
	if w.FewerCuts <= 0 && w.FewerSettings <= 0 {
		worth = 0 // not a bit more use
	}
	use := s.use()
	s.goal, s.most = use+worth, 0
	share := int64(tidyShare)
	if w.FewerCuts > 0 || w.FewerSettings > 0 {
		share = weighedShare
	}
	for n := 0; s.work < m.total/share; n++ {
		if n%64 == 0 && ctx.Err() != nil {
			break
		}
		opened, waits := s.opened, s.waits
		s.begin()
		s.work += int64(s.placed()) / 2
		s.ruin()
		if s.recreate() && s.waits == 0 {
			if t := trouble(); t <= now && s.use() <= s.goal {
				now = t
				s.settle()
				continue
			}
		}
		s.undo(opened, waits)
	}
	m.best, m.use = s.state, s.use()
}

// toil counts the cuts of all trees, and the ruler settings: different
// widths side by side in one strip.
func (s *state) toil() (cuts, settings int) {
	var sizes []int32
	for _, t := range s.trees {
		for i := range t.n {
			n := &t.n[i]
			if n.typ != divided {
				continue
			}
			sizes = sizes[:0]
			for c := n.kid; c != none; c = t.n[c].next {
				if c == n.rest {
					continue
				}
				cuts++
				if n.along {
					sizes = append(sizes, t.n[c].w)
				} else {
					sizes = append(sizes, t.n[c].h)
				}
			}
			slices.Sort(sizes)
			settings += len(slices.Compact(sizes))
		}
	}
	return cuts, settings
}
