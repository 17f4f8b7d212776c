package nest

import "math"

// recreate puts waiting blanks back one at a time, where they fit best
// without missing the goal. It gives up, and returns false, as soon as so much
// is left over that the round will be undone.
func (s *searcher) recreate() bool {
	s.sortWaiting()
	s.short = s.dice.chance(tune.Short)
	s.squares = s.dice.chance(tune.Squares)
	s.opening = s.dice.n(tune.Opens)
	s.keep.watch(s)
	lost := 0.0
	for _, p := range s.order {
		for s.wait[p] > 0 {
			b, ok := s.find(p)
			if !ok {
				b, ok = s.openFor(p)
			}
			if !ok {
				if lost += s.g.pieces[p].area * float64(s.wait[p]); lost-tune.Tie*s.empty() > s.most {
					return false
				}
				break
			}
			t := s.grab(int(b.tree))
			again := s.keep.minds(s, t, b.leaf)
			s.put(p, b)
			if again {
				s.keep.watch(s)
			}
		}
	}
	return true
}

// empty is the area of the opened sheets without blanks.
func (s *searcher) empty() float64 {
	a := 0.0
	for _, t := range s.trees {
		k := &s.g.kinds[t.kind]
		a += float64(k.w)*float64(k.h) - t.used
	}
	return a
}

// sortWaiting makes the order to put the waiting blanks back: large ones
// first in one sense or another, with chance mixed in.
func (s *searcher) sortWaiting() {
	s.order, s.keys = s.order[:0], s.keys[:0]
	mode := s.dice.n(tune.Orders)
	for p, n := range s.wait {
		if n == 0 {
			continue
		}
		pc := &s.g.pieces[p]
		k := 1.0
		switch mode {
		case 0:
			k = pc.area
		case 1:
			k = float64(max(pc.w, pc.h))
		case 2:
			k = float64(pc.h)
		case 3:
			k = float64(pc.w)
		}
		k *= 1 - tune.Noise*s.dice.unit()
		i := len(s.order)
		s.order, s.keys = append(s.order, int32(p)), append(s.keys, k)
		for i > 0 && s.keys[i-1] < k {
			s.order[i], s.keys[i] = s.order[i-1], s.keys[i-1]
			i--
		}
		s.order[i], s.keys[i] = int32(p), k
	}
}

// find looks for the best spot for a piece in the opened trees, now and
// then overlooking one.
func (s *searcher) find(p int32) (spot, bool) {
	b := spot{score: math.Inf(1)}
	pc := &s.g.pieces[p]
	w, h := pc.w, pc.h
	turn := pc.free && w != h
	for i, t := range s.trees {
		s.work += int64(len(t.left)) + 1
		for _, l := range t.left {
			straight := w <= l.w && h <= l.h
			across := turn && h <= l.w && w <= l.h
			if !straight && !across || s.dice.chance(tune.Blink) {
				continue
			}
			held := s.keep.need > 0 && s.keep.tree == i && s.keep.leaf == l.id
			roll := s.g.kinds[t.kind].roll && t.endOfRoll(l.id)
			if straight {
				s.try(&b, i, l, w, h, false, held, roll)
			}
			if across {
				s.try(&b, i, l, h, w, true, held, roll)
			}
		}
	}
	return b, !math.IsInf(b.score, 1)
}

// try looks at both first cuts for a blank of w × h in leaf l of tree i.
func (s *searcher) try(b *spot, i int, n hole, w, h int32, turned, held, roll bool) {
	t, l := s.trees[i], n.id
	var col, row float64
	if !s.squares {
		whole := s.useful(n.w, n.h)
		col = whole - s.useful(n.w-w, n.h) - s.useful(w, n.h-h)
		row = whole - s.useful(n.w, n.h-h) - s.useful(n.w-w, h)
	} else {
		lw, lh := float64(n.w), float64(n.h)
		dw, dh := float64(n.w-w), float64(n.h-h)
		fw, fh := float64(w), float64(h)
		whole := lw * lh * lw * lh
		col = whole - dw*lh*dw*lh - fw*dh*fw*dh
		row = whole - lw*dh*lw*dh - dw*fh*dw*fh
	}
	if s.short {
		// the two first cuts still differ a little
		least := float64(min(n.w-w, n.h-h)) * 1e12
		if col < row {
			col, row = least, least+1e3
		} else {
			col, row = least+1e3, least
		}
	}
	if l == 0 && s.force != nil {
		switch s.force[t.kind] {
		case 1:
			row = math.Inf(1)
		case 2:
			col = math.Inf(1)
		}
	}
	if col < b.score && !roll && (!held || s.keep.allows(s, t, l, w, h, true)) {
		*b = spot{int32(i), l, turned, true, col}
	}
	if row < b.score && (!held || s.keep.allows(s, t, l, w, h, false)) {
		if !roll || s.rollAllows(t, l, h) {
			*b = spot{int32(i), l, turned, false, row}
		}
	}
}

// endOfRoll says whether a leaf left over is what would stay on the roll.
func (t *tree) endOfRoll(l int32) bool {
	return l == 0 || t.n[l].up == 0 && !t.n[0].along
}

// rollAllows says whether a blank laid at the end of what is used of a roll
// stays within the goal.
func (s *searcher) rollAllows(t *tree, l, h int32) bool {
	k := &s.g.kinds[t.kind]
	if k.open {
		return true
	}
	more := float64(k.fullW) * float64(h)
	if l == 0 {
		more += float64(k.fullW) * float64(k.fullH-k.h)
	}
	return s.opened+more-s.g.share*s.keep.best <= s.goal
}

// openFor opens a sheet for a piece, if the goal allows one.
func (s *searcher) openFor(p int32) (spot, bool) {
	k := s.choose(p)
	if k < 0 {
		return spot{}, false
	}
	t := s.blank()
	kd := &s.g.kinds[k]
	t.leastW, t.leastH = s.g.leastW, s.g.leastH
	t.reset(k, kd.w, kd.h)
	s.trees, s.fresh = append(s.trees, t), append(s.fresh, true)
	s.stock[k]--
	pc := &s.g.pieces[p]
	b := spot{score: math.Inf(1)}
	i, room := len(s.trees)-1, hole{kd.w, kd.h, 0}
	if pc.w <= kd.w && pc.h <= kd.h {
		s.try(&b, i, room, pc.w, pc.h, false, false, kd.roll)
	}
	if pc.free && pc.h <= kd.w && pc.w <= kd.h {
		s.try(&b, i, room, pc.h, pc.w, true, false, kd.roll)
	}
	if math.IsInf(b.score, 1) { // a roll that would be too long
		s.trees, s.fresh = s.trees[:i], s.fresh[:i]
		s.stock[k]++
		s.pool = append(s.pool, t)
		return b, false
	}
	return b, true
}

// choose picks the kind of sheet to open for a piece, or −1. Cheap ones are
// likelier.
func (s *searcher) choose(p int32) int32 {
	best, score := int32(-1), math.Inf(1)
	for k := range s.g.kinds {
		kd := &s.g.kinds[k]
		if s.stock[k] == 0 || !s.g.fits(p, int32(k)) {
			continue
		}
		if !kd.roll && !s.keep.opens(s, int32(k), p) {
			continue
		}
		v := kd.cost * (tune.Pick + s.dice.unit())
		switch s.opening {
		case 1:
			v = s.dice.unit()
		case 2:
			v = -v
		case 3:
			v = kd.cost / (float64(kd.w) * float64(kd.h)) * (1 + 0.3*s.dice.unit())
		}
		if v < score {
			best, score = int32(k), v
		}
	}
	return best
}
