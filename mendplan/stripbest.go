package mendplan

import (
	"cmp"
	"math"
)

// stripCost orders ways to break a tear: fewest pieces first, as each is work
// at the bench; then least tissue; then the most even lengths. All three add
// up over strips, in whole numbers so that equal ways compare equal.
type stripCost struct {
	pieces int
	tissue int64 // in 0.001 mm²
	spread int64 // sum of squared lengths, in 0.001 mm²
}

func (a stripCost) plus(b stripCost) stripCost {
	return stripCost{a.pieces + b.pieces, a.tissue + b.tissue, a.spread + b.spread}
}

func (a stripCost) compare(b stripCost) int {
	return cmp.Or(cmp.Compare(a.pieces, b.pieces), cmp.Compare(a.tissue, b.tissue), cmp.Compare(a.spread, b.spread))
}

// costOf is the cost of a finished strip.
func costOf(s strip) stripCost {
	l := s.length()
	return stripCost{1, int64(math.Round(l * s.width * 1000)), int64(math.Round(l * l * 1000))}
}

// state is the best known way to cover a path up to the end of one strip:
// that strip is finished but for its tail.
type state struct {
	strip strip
	cost  stripCost // of the strips before it
	prev  *state
}

// best returns the strips that cover the path at the least cost within the
// limits. within is false when even single steps break a limit; the strips
// then are the best that can be had.
//
// As the number of strips counts first, it is tried from the least that could
// do upwards: that rules out most ways at once.
func (c *chain) best() (strips []strip, within bool) {
	fits := c.fits()
	need := needed(fits)
	for most := need[0]; most < len(c.places); most++ {
		if st := c.bestOf(most, fits, need); st != nil {
			return c.unwind(st), true
		}
	}
	return c.forced(), false
}

// needed returns, for each place, the number of strips from there to the end
// that no way can do with less.
func needed(fits [][]strip) []int {
	need := make([]int, len(fits)+1)
	for i := len(fits) - 1; i >= 0; i-- {
		need[i] = len(fits) + 1
		for _, s := range fits[i] {
			need[i] = min(need[i], 1+need[s.to])
		}
	}
	return need
}

// bestOf finds the cheapest way of no more than most strips by dynamic
// programming over the places: for each stretch, the ways to arrive at it, of
// which only those are kept that no other beats in both cost and length taken
// at the joint. That leaves out no optimum, because what follows depends on
// nothing else. Nil if there is no way.
func (c *chain) bestOf(most int, fits [][]strip, need []int) *state {
	n := len(c.places) - 1
	arriving := make([][]*state, n+1) // by the place where their strip ends
	var last *state
	lastCost := stripCost{}
	for i := range n {
		for _, s := range fits[i] {
			for _, st := range c.arrive(arriving[i], s, most-1-need[s.to]) {
				if s.to < n {
					arriving[s.to] = keepState(arriving[s.to], st)
					continue
				}
				total := st.cost.plus(costOf(c.finish(st.strip)))
				if c.allowed(st.strip) && (last == nil || total.compare(lastCost) < 0) {
					last, lastCost = st, total
				}
			}
		}
	}
	return last
}

// arrive continues each way that ends where s begins by s, if it took no more
// than so many strips to get there.
func (c *chain) arrive(ways []*state, s strip, before int) []*state {
	if s.from == 0 {
		return []*state{{strip: s}}
	}
	var out []*state
	for _, w := range ways {
		if w.cost.pieces+1 > before {
			continue
		}
		ext := c.joint(w.strip, s)
		done, next := w.strip, s
		done.tail, next.head = ext, ext
		if c.allowed(done) && c.allowed(next) {
			out = append(out, &state{strip: next, cost: w.cost.plus(costOf(c.finish(done))), prev: w})
		}
	}
	return out
}

// keepState adds st to the ways that end with the same strip unless one of
// them is at least as good in both respects; those it beats go.
func keepState(ways []*state, st *state) []*state {
	kept := ways[:0]
	for _, w := range ways {
		same := w.strip.from == st.strip.from
		if same && w.cost.compare(st.cost) <= 0 && w.strip.head <= st.strip.head {
			return ways
		}
		if !same || st.cost.compare(w.cost) > 0 || st.strip.head > w.strip.head {
			kept = append(kept, w)
		}
	}
	return append(kept, st)
}

// fits returns the strips that may begin at each place, by the place.
func (c *chain) fits() [][]strip {
	n := len(c.places) - 1
	out := make([][]strip, n)
	k := c.rules
	for i := range n {
		for j := i + 1; j <= n; j++ {
			if j > i+1 && (c.brokenByHand(j-1) || c.turned(i, j) > k.turn) {
				break // the turn only grows with j
			}
			s := c.fit(i, j)
			if j > i+1 && (s.width > k.widest+1e-9 || s.hi-s.lo > math.Hypot(k.longest, k.widest)) {
				break // a longer stretch is no narrower
			}
			if j == i+1 || c.allowed(s) {
				out[i] = append(out[i], s)
			}
		}
	}
	return out
}

// allowed reports whether the strip keeps the limit of length.
func (c *chain) allowed(s strip) bool { return s.length()+c.rules.tab <= c.rules.longest+1e-9 }

// finish adds the handling tab.
func (c *chain) finish(s strip) strip {
	s.tab = c.rules.tab
	return s
}

// unwind returns the strips of a finished way in the order of the path.
func (c *chain) unwind(st *state) []strip {
	var out []strip
	tail := st.strip.tail
	for ; st != nil; st = st.prev {
		s := st.strip
		s.tail = tail
		tail = s.head
		out = append([]strip{c.finish(s)}, out...)
	}
	return out
}

// forced covers the path by single steps where no way keeps the limits.
func (c *chain) forced() []strip {
	n := len(c.places) - 1
	out := make([]strip, n)
	for i := range n {
		out[i] = c.fit(i, i+1)
		if i > 0 {
			ext := c.joint(out[i-1], out[i])
			out[i-1].tail, out[i].head = ext, ext
		}
	}
	for i := range out {
		out[i] = c.finish(out[i])
	}
	return out
}
