package nest

// searcher improves a state by ruin and recreate towards a goal. Each of
// several runs for itself.
type searcher struct {
	*state
	dice    dice
	goal    float64 // use allowed, µm²
	price   float64 // of the state now
	heat    float64 // how much worse a round may make it
	most    float64 // what the state may be worth after this round
	work    int64   // leaves looked at so far
	from    int64   // work when the goal was set
	found   *state  // the last state that reached its goal
	mean    float64 // area of a blank
	large   float64 // an empty rectangle of this area is half as useful as a large one
	before  []*tree // the trees before this round
	fresh   []bool  // by tree: made in this round
	pool    []*tree // memory for trees
	order   []int32 // pieces that wait, in the order to put them
	keys    []float64
	waited  []int32 // by piece: how many waited before this round
	keep    keeper
	squares bool   // this round prefers spots that leave one very large rest
	opening int    // this round's way to choose sheets to open
	gentle  bool   // only a few blanks at a time
	force   []int8 // by kind: how its sheets are first cut; see plan
	short   bool   // this round chooses spots by the shortest side left over
}

// newSearcher starts from a state, which it leaves alone.
func newSearcher(from *state, seed uint64) *searcher {
	s := &searcher{dice: dice(seed), waited: make([]int32, len(from.wait))}
	s.adopt(from)
	for _, p := range s.g.pieces {
		s.mean += p.area * float64(p.count)
	}
	s.mean /= float64(max(1, s.g.copies))
	s.large = tune.Large * s.mean
	s.price = s.worth()
	return s
}

// adopt goes on from another state.
func (s *searcher) adopt(from *state) {
	s.state = from.clone()
	s.price = s.worth()
}

// clone is a deep copy.
func (s *state) clone() *state {
	c := &state{g: s.g, opened: s.opened, waits: s.waits}
	c.wait = append(c.wait, s.wait...)
	c.stock = append(c.stock, s.stock...)
	for _, t := range s.trees {
		n := &tree{}
		n.copyFrom(t)
		c.trees = append(c.trees, n)
	}
	return c
}

// worth is what the search makes small: the area that waits, less a little
// for what is left over in useful form.
func (s *searcher) worth() float64 {
	useful := 0.0
	for _, t := range s.trees {
		roll := s.g.kinds[t.kind].roll
		for _, l := range t.left {
			if !roll || !t.endOfRoll(l.id) {
				useful += s.useful(l.w, l.h)
			}
		}
		s.work += int64(len(t.left)) / 4
	}
	return s.waits - tune.Tie*useful
}

// useful is what an empty rectangle is worth for later blanks: next to
// nothing when it is small, nothing when none fits, all its area when it is
// large.
func (s *searcher) useful(w, h int32) float64 {
	if w < s.g.leastW || h < s.g.leastH {
		return 0
	}
	a := float64(w) * float64(h)
	return a * a / (a + s.large)
}

// round is one ruin and recreate, undone unless it is good enough.
func (s *searcher) round() {
	opened, waits := s.opened, s.waits
	s.begin()
	s.ruin()
	s.most = s.price + s.heat*s.dice.wait()
	if s.recreate() {
		if w := s.worth(); s.waits == 0 || w <= s.most {
			s.settle()
			s.price = w
			return
		}
	}
	s.undo(opened, waits)
}

// begin remembers the state before a round.
func (s *searcher) begin() {
	s.before = append(s.before[:0], s.trees...)
	s.fresh = s.fresh[:0]
	for range s.trees {
		s.fresh = append(s.fresh, false)
	}
	copy(s.waited, s.wait)
	s.work += int64(roundWork + len(s.trees) + len(s.wait)/4)
}

// grab gives tree i to be changed, keeping the old one.
func (s *searcher) grab(i int) *tree {
	if s.fresh[i] {
		return s.trees[i]
	}
	t := s.blank()
	t.copyFrom(s.trees[i])
	s.trees[i], s.fresh[i] = t, true
	s.work += int64(len(t.n) / 4)
	return t
}

// blank is memory for a tree.
func (s *searcher) blank() *tree {
	if k := len(s.pool); k > 0 {
		t := s.pool[k-1]
		s.pool = s.pool[:k-1]
		return t
	}
	return &tree{}
}

// undo goes back to the state before the round.
func (s *searcher) undo(opened, waits float64) {
	for i, t := range s.trees {
		if s.fresh[i] {
			s.pool = append(s.pool, t)
		}
		s.stock[t.kind]++
	}
	s.trees = append(s.trees[:0], s.before...)
	for _, t := range s.trees {
		s.stock[t.kind]--
	}
	copy(s.wait, s.waited)
	s.opened, s.waits = opened, waits
}

// settle makes the round's state the one to go on from, and frees the memory
// of trees that were replaced or closed.
func (s *searcher) settle() {
	for _, t := range s.before {
		t.stays = false
	}
	for i, t := range s.trees {
		t.stays = !s.fresh[i]
	}
	for _, t := range s.before {
		if !t.stays {
			s.pool = append(s.pool, t)
		}
	}
}
