package nest

import (
	"cmp"
	"math"
	"slices"
)

// order is one way to sort blanks and to choose the next sheet.
type order struct {
	key   func(p *piece) (float64, float64)
	small bool // open the least sheet that takes the blank, not the largest
	style int8
}

func orders() []order {
	area := func(p *piece) (float64, float64) { return p.area, float64(p.w) }
	tall := func(p *piece) (float64, float64) { return float64(p.h), float64(p.w) }
	wide := func(p *piece) (float64, float64) { return float64(p.w), float64(p.h) }
	long := func(p *piece) (float64, float64) { return float64(max(p.w, p.h)), float64(min(p.w, p.h)) }
	var o []order
	for _, k := range []func(p *piece) (float64, float64){area, tall, wide, long} {
		for _, style := range []int8{0, columns, rows} {
			o = append(o, order{k, false, style}, order{k, true, style})
		}
	}
	return o
}

// first makes layouts in several orders and returns the best.
func first(g *group) *state {
	var best *state
	looks := 0
	for _, o := range orders() {
		if looks > mostLooks {
			break // very many blanks: time is better spent on one layout
		}
		s := o.lay(g)
		looks += s.looks
		if best == nil || s.betters(best) {
			best = s
		}
	}
	return best
}

// betters says whether s is a better layout: less waits, less use, less to
// cut, in this order.
func (s *state) betters(o *state) bool {
	sc, ss := s.toil()
	oc, os := o.toil()
	return cmp.Or(cmp.Compare(s.waits, o.waits), cmp.Compare(s.use(), o.use()), cmp.Compare(sc+ss, oc+os)) < 0
}

// lay puts all blanks in this order where they fit best.
func (o order) lay(g *group) *state {
	s := newState(g)
	s.style = o.style
	idx := make([]int32, len(g.pieces))
	for i := range idx {
		idx[i] = int32(i)
	}
	slices.SortStableFunc(idx, func(a, b int32) int {
		a1, a2 := o.key(&g.pieces[a])
		b1, b2 := o.key(&g.pieces[b])
		return cmp.Or(cmp.Compare(b1, a1), cmp.Compare(b2, a2))
	})
	for _, p := range idx {
		for s.wait[p] > 0 {
			b, ok := s.best(p)
			if !ok {
				if k := o.next(s, p); k >= 0 {
					s.open(k)
					b, ok = s.best(p)
				}
			}
			if !ok {
				break
			}
			s.put(p, b)
		}
	}
	return s
}

// next chooses the kind of sheet to open for a blank, or −1.
func (o order) next(s *state, p int32) int32 {
	best, score := int32(-1), math.Inf(1)
	for k := range s.g.kinds {
		kd := &s.g.kinds[k]
		if s.stock[k] == 0 || !s.g.fits(p, int32(k)) {
			continue
		}
		v := float64(kd.w) * float64(kd.h)
		if !o.small {
			v = -v
		}
		if kd.roll {
			v = -float64(kd.w)
		}
		if v < score {
			best, score = int32(k), v
		}
	}
	return best
}
