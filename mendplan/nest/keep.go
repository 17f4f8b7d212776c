package nest

// keeper watches the largest remnant while blanks are put back: a leaf that
// the goal needs whole is held.
type keeper struct {
	best   float64 // area of the largest remnant worth keeping, µm²
	second float64 // of the next
	need   float64 // what the goal needs of the largest; 0 or less if nothing is held
	asked  float64 // what the goal needs of it, held or not
	tree   int     // where the largest is
	leaf   int32
}

// watch looks over all leaves anew.
func (k *keeper) watch(s *searcher) {
	if !s.g.keeps || s.g.share == 0 {
		*k = keeper{}
		return
	}
	k.best, k.second, k.tree, k.leaf = 0, 0, -1, none
	for i, t := range s.trees {
		for _, l := range t.left {
			switch a := s.g.keepArea(t, l.id); {
			case a > k.best:
				k.second = k.best
				k.best, k.tree, k.leaf = a, i, l.id
			case a > k.second:
				k.second = a
			}
		}
		s.work += int64(len(t.left)) / 2
	}
	k.asked = (s.opened - s.goal) / s.g.share
	k.need = k.asked
	if k.second >= k.need {
		k.need = 0
	}
}

// minds says whether a blank put into a leaf can change what is held.
func (k *keeper) minds(s *searcher, t *tree, l int32) bool {
	if !s.g.keeps || s.g.share == 0 {
		return false
	}
	kd := &s.g.kinds[t.kind]
	if !kd.open && (kd.roll || len(t.full) == 0) {
		return true
	}
	return k.asked > 0 && s.g.keepArea(t, l) >= min(k.asked, k.best)
}

// allows says whether enough is left of the held leaf when a blank goes in.
func (k *keeper) allows(s *searcher, t *tree, l, w, h int32, along bool) bool {
	n := &t.n[l]
	var a, b float64
	deep := n.up != none && t.n[n.up].along != along
	up := n.up
	if deep || up == none {
		up = l
	}
	root := up == 0
	if along {
		a = s.g.restArea(t.kind, n.w-w, n.h, root, true)
		b = s.g.restArea(t.kind, w, n.h-h, false, false)
	} else {
		a = s.g.restArea(t.kind, n.w, n.h-h, root, false)
		b = s.g.restArea(t.kind, n.w-w, h, false, false)
	}
	return max(a, b, k.second) >= k.need
}

// opens says whether the goal allows one more sheet of the kind for a piece.
func (k *keeper) opens(s *searcher, kind, p int32) bool {
	kd := &s.g.kinds[kind]
	opened := s.opened + kd.cost
	if opened-s.g.share*k.best <= s.goal {
		return true
	}
	if !s.g.keeps {
		return false
	}
	pc := &s.g.pieces[p]
	left := max(s.g.restArea(kind, kd.w-pc.w, kd.h, true, true), s.g.restArea(kind, kd.w, kd.h-pc.h, true, false))
	if pc.free {
		left = max(left, s.g.restArea(kind, kd.w-pc.h, kd.h, true, true), s.g.restArea(kind, kd.w, kd.h-pc.w, true, false))
	}
	return opened-s.g.share*left <= s.goal
}
