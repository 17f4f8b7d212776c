package nest

// ruin takes blanks out of a few trees.
func (s *searcher) ruin() {
	if len(s.trees) == 0 {
		return
	}
	m := 1 + s.dice.n(tune.Trees)
	want := 1 + int(s.dice.wait()*tune.Ruin)
	if s.gentle {
		want = 1 + s.dice.n(4)
	} else if s.dice.chance(tune.Whole) {
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
		quota := max(1, (want+m-1)/m)
		for quota > 0 && len(t.full) > 0 {
			quota -= s.removeSome(t, quota)
		}
	}
	s.closeEmpty()
}

// removeSome takes out a subtree of at most quota blanks, found by climbing
// from a leaf, and returns how many went.
func (s *searcher) removeSome(t *tree, quota int) int {
	id := t.full[s.dice.n(len(t.full))]
	if s.dice.chance(tune.Near) && len(t.left) > 0 {
		id = t.left[s.dice.n(len(t.left))].id
		if t.n[id].up >= 0 {
			id = t.n[t.n[id].up].kid // beside what is left over
		}
	}
	n := t.count(id, quota+1)
	if n > quota || n == 0 {
		id, n = t.full[s.dice.n(len(t.full))], 1
	}
	for t.n[id].up != none && s.dice.chance(tune.Climb) {
		up := t.n[id].up
		k := t.count(up, quota+1)
		if k > quota {
			break
		}
		id, n = up, k
	}
	s.remove(t, id)
	return n
}

// count is how many blanks are below a node, counted no further than most.
func (t *tree) count(id int32, most int) int {
	switch t.n[id].typ {
	case leftover:
		return 0
	case divided:
		n := 0
		for k := t.n[id].kid; k != none && n < most; k = t.n[k].next {
			n += t.count(k, most-n)
		}
		return n
	}
	return 1
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

// shed lowers the use to the goal by taking blanks out: beside the largest
// remnant, or all of the emptiest sheet.
func (s *searcher) shed() {
	s.begin()
	for s.use() > s.goal && s.placed() > 0 {
		s.keep.watch(s)
		roll := s.aRoll()
		switch {
		case s.keep.leaf > 0 && (len(s.trees) == 1 || s.dice.chance(0.7)):
			s.shedBeside(s.keep.tree, s.keep.leaf)
		case roll >= 0 && (len(s.trees) == 1 || s.dice.chance(0.7)):
			t := s.trees[roll]
			s.shedBeside(roll, t.n[0].rest)
		default:
			s.remove(s.grab(s.emptiest()), 0)
		}
		s.closeEmpty()
	}
	s.settle()
	s.price = s.worth()
}

// shedBeside takes out one neighbour of a leaf left over.
func (s *searcher) shedBeside(i int, leaf int32) {
	t := s.grab(i)
	if len(t.full) == 0 {
		return
	}
	id := t.full[s.dice.n(len(t.full))]
	if leaf > 0 {
		var next []int32
		for c := t.n[t.n[leaf].up].kid; c != none; c = t.n[c].next {
			if c != leaf {
				next = append(next, c)
			}
		}
		if len(next) > 0 {
			id = next[s.dice.n(len(next))]
		}
	}
	s.remove(t, id)
}

// aRoll is a roll that is cut into, or −1.
func (s *searcher) aRoll() int {
	for i, t := range s.trees {
		if k := &s.g.kinds[t.kind]; k.roll && !k.open && len(t.full) > 0 {
			return i
		}
	}
	return -1
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
	best := s.dice.n(len(s.trees))
	share := func(i int) float64 {
		k := &s.g.kinds[s.trees[i].kind]
		return s.trees[i].used / (float64(k.w) * float64(k.h))
	}
	for i, t := range s.trees {
		if len(t.full) > 0 && (share(i) < share(best) || len(s.trees[best].full) == 0) {
			best = i
		}
	}
	return best
}
