package nest

// ruin takes blanks out of a few trees.
func (s *searcher) ruin() {
	if len(s.trees) == 0 {
		return
	}
	m := 1 + s.dice.n(tune.Trees)
	want := 1 + int(s.dice.wait()*tune.Ruin)
	if s.dice.chance(tune.Whole) {
		want = 1 << 30 // whole sheets
	}
	for range m {
		i := s.dice.n(len(s.trees))
		if len(s.trees[i].full) == 0 {
			continue
		}
		t := s.grab(i)
		if want > len(t.full) {
			s.remove(t, 0)
			continue
		}
		for k := 0; k*m < want && len(t.full) > 0; k++ {
			id := t.full[s.dice.n(len(t.full))]
			for t.n[id].up != none && s.dice.chance(tune.Climb) {
				id = t.n[id].up
			}
			s.remove(t, id)
		}
	}
	s.closeEmpty()
}

// remove takes out the subtree at id.
func (s *searcher) remove(t *tree, id int32) {
	s.opened -= s.cost(t)
	used := t.used
	t.clear(id, s.wait)
	s.waits += used - t.used
	s.opened += s.cost(t)
	s.work += 8
}

// closeEmpty puts sheets without blanks back into stock.
func (s *searcher) closeEmpty() {
	for i := 0; i < len(s.trees); i++ {
		t := s.trees[i]
		if len(t.full) > 0 || s.g.kinds[t.kind].open {
			continue
		}
		s.stock[t.kind]++
		if s.fresh[i] {
			s.pool = append(s.pool, t)
		}
		last := len(s.trees) - 1
		s.trees[i], s.fresh[i] = s.trees[last], s.fresh[last]
		s.trees, s.fresh = s.trees[:last], s.fresh[:last]
		i--
	}
}

// shed lowers the use to the goal by taking blanks out: of the emptiest
// sheet first, then here and there.
func (s *searcher) shed() {
	s.begin()
	for first := true; s.use() > s.goal; first = false {
		i := s.dice.n(len(s.trees))
		if first {
			i = s.emptiest()
		}
		t := s.grab(i)
		if len(t.full) == 0 {
			if s.placed() == 0 {
				break // nothing left to take out
			}
			continue
		}
		id := t.full[s.dice.n(len(t.full))]
		if first && s.opened-s.cost(t) <= s.goal || s.opened-s.goal > s.cost(t) {
			id = 0
		}
		s.remove(t, id)
		s.closeEmpty()
	}
	s.settle()
	s.price = s.worth()
}

// placed is how many blanks are in the trees.
func (s *state) placed() int {
	n := 0
	for _, t := range s.trees {
		n += len(t.full)
	}
	return n
}

// emptiest is the tree with the least of its sheet used.
func (s *searcher) emptiest() int {
	best := 0
	share := func(i int) float64 {
		k := &s.g.kinds[s.trees[i].kind]
		return s.trees[i].used / (float64(k.w) * float64(k.h))
	}
	for i := range s.trees {
		if share(i) < share(best) {
			best = i
		}
	}
	return best
}
