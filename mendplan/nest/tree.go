package nest

// Node types of a tree in the making; 0 and above is a kind of blank.
const (
	leftover int32 = -1
	divided  int32 = -2
	gone     int32 = -3 // a free slot
	none     int32 = -1 // no node
)

// tnode is a rectangle of a tree in the making. Every blank carries the gap
// on two of its sides, and the sheet is larger by one gap, so that sizes add
// up without it. The order of children has no meaning; all that is left of
// a divided node is in one child, rest.
type tnode struct {
	w, h                int32
	up, kid, next, prev int32
	typ                 int32
	rest                int32 // divided: the child that is left over, or none
	pos                 int32 // left over: index in tree.left; blank: index in tree.full
	along               bool  // divided: children side by side along x
	turned              bool  // blank: turned by 90 degrees
}

// hole is a leaf left over with its size, kept side by side with others to be
// looked through quickly.
type hole struct{ w, h, id int32 }

// tree is one opened sheet: its guillotine tree and lists of its leaves.
type tree struct {
	kind           int32   // of stock
	used           float64 // area of the blanks in it, gap included
	n              []tnode
	dead           []int32 // free slots of n
	left           []hole  // leaves left over that some blank may fit
	leastW, leastH int32   // no blank is less
	full           []int32 // leaves with a blank
	stays          bool    // used when a round is settled
}

// newTree opens an empty sheet; the root is always node 0.
func newTree(kind, w, h, leastW, leastH int32) *tree {
	t := &tree{leastW: leastW, leastH: leastH}
	t.reset(kind, w, h)
	return t
}

// reset empties the tree for another sheet, keeping its memory.
func (t *tree) reset(kind int32, w, h int32) {
	t.kind, t.used = kind, 0
	t.n, t.dead, t.left, t.full = t.n[:0], t.dead[:0], t.left[:0], t.full[:0]
	t.n = append(t.n, tnode{w: w, h: h, up: none, kid: none, next: none, prev: none, typ: leftover, rest: none})
	t.listLeft(0)
}

// copyFrom makes t equal to o, reusing its memory.
func (t *tree) copyFrom(o *tree) {
	t.kind, t.used, t.leastW, t.leastH = o.kind, o.used, o.leastW, o.leastH
	t.n = append(t.n[:0], o.n...)
	t.dead = append(t.dead[:0], o.dead...)
	t.left = append(t.left[:0], o.left...)
	t.full = append(t.full[:0], o.full...)
}

// add makes a node and links it below up, unless up is none.
func (t *tree) add(up, w, h, typ int32) int32 {
	var id int32
	if k := len(t.dead); k > 0 {
		id, t.dead = t.dead[k-1], t.dead[:k-1]
	} else {
		id = int32(len(t.n))
		t.n = append(t.n, tnode{})
	}
	first := t.n[up].kid
	t.n[id] = tnode{w: w, h: h, up: up, kid: none, next: first, prev: none, typ: typ, rest: none}
	if first != none {
		t.n[first].prev = id
	}
	t.n[up].kid = id
	return id
}

// unlink takes a node out of its parent and frees it.
func (t *tree) unlink(id int32) {
	n := &t.n[id]
	if n.prev != none {
		t.n[n.prev].next = n.next
	} else {
		t.n[n.up].kid = n.next
	}
	if n.next != none {
		t.n[n.next].prev = n.prev
	}
	t.forget(id)
}

// forget frees a node.
func (t *tree) forget(id int32) {
	t.n[id].typ = gone
	t.dead = append(t.dead, id)
}

// listLeft enters a leaf left over into the list, if it is large enough to
// matter; of the others pos is none.
func (t *tree) listLeft(id int32) {
	n := &t.n[id]
	if n.w < t.leastW || n.h < t.leastH {
		n.pos = none
		return
	}
	n.pos = int32(len(t.left))
	t.left = append(t.left, hole{n.w, n.h, id})
}

func (t *tree) unlistLeft(id int32) {
	p := t.n[id].pos
	if p == none {
		return
	}
	last := t.left[len(t.left)-1]
	t.left[p] = last
	t.n[last.id].pos = p
	t.left = t.left[:len(t.left)-1]
}

// relist lists a leaf left over anew after its size has changed.
func (t *tree) relist(id int32) {
	n := &t.n[id]
	if small := n.w < t.leastW || n.h < t.leastH; small != (n.pos == none) {
		if small {
			t.unlistLeft(id)
			t.n[id].pos = none
		} else {
			t.listLeft(id)
		}
	} else if !small {
		t.left[n.pos] = hole{n.w, n.h, id}
	}
}

func (t *tree) unlistFull(id int32) {
	p, last := t.n[id].pos, t.full[len(t.full)-1]
	t.full[p] = last
	t.n[last].pos = p
	t.full = t.full[:len(t.full)-1]
}

// fill makes node id the blank.
func (t *tree) fill(id, typ int32, turned bool) {
	n := &t.n[id]
	n.typ, n.turned, n.pos = typ, turned, int32(len(t.full))
	t.full = append(t.full, id)
	t.used += float64(n.w) * float64(n.h)
}

// place puts a blank of w × h into the leaf l left over. Along says how the
// first cut runs: true frees a column of width w, false a row of height h.
func (t *tree) place(l, typ, w, h int32, turned, along bool) {
	n := t.n[l]
	switch {
	case n.w == w && n.h == h:
		t.unlistLeft(l)
		if n.up != none {
			t.n[n.up].rest = none
		}
		t.fill(l, typ, turned)
		return
	case n.w == w:
		along = false
	case n.h == h:
		along = true
	}
	strip := t.strip(l, w, h, along)
	s := &t.n[strip]
	if s.w == w && s.h == h {
		t.fill(strip, typ, turned)
		return
	}
	s.typ, s.along = divided, !along
	sw, sh := s.w, s.h
	p := t.add(strip, w, h, 0)
	t.fill(p, typ, turned)
	var rest int32
	if along {
		rest = t.add(strip, sw, sh-h, leftover)
	} else {
		rest = t.add(strip, sw-w, sh, leftover)
	}
	t.n[strip].rest = rest
	t.listLeft(rest)
}

// strip cuts a strip off leaf l, whole across, and returns its node.
func (t *tree) strip(l, w, h int32, along bool) int32 {
	n := t.n[l]
	up := n.up
	if up == none || t.n[up].along != along {
		// the leaf is divided; its rest is a new leaf
		t.unlistLeft(l)
		if up != none {
			t.n[up].rest = none
		}
		t.n[l].typ, t.n[l].along = divided, along
		r := t.add(l, n.w, n.h, leftover)
		t.n[l].rest = r
		t.listLeft(r)
		up, l = l, r
	}
	if along {
		t.n[l].w -= w
		t.relist(l)
		return t.add(up, w, n.h, 0)
	}
	t.n[l].h -= h
	t.relist(l)
	return t.add(up, n.w, h, 0)
}

// clear takes out all blanks below and at id, counts them in out by kind,
// and joins the place to what is left over beside it. It returns the leaf
// left over that now covers the place.
func (t *tree) clear(id int32, out []int32) int32 {
	t.drop(id, out)
	n := &t.n[id]
	n.typ, n.kid, n.rest = leftover, none, none
	for {
		up := t.n[id].up
		if up == none {
			t.listLeft(id)
			return id
		}
		p := &t.n[up]
		if r := p.rest; r != none {
			if p.along {
				t.n[r].w += t.n[id].w
			} else {
				t.n[r].h += t.n[id].h
			}
			t.relist(r)
			t.unlink(id)
			id = r
		} else {
			p.rest = id
			t.listLeft(id)
		}
		if t.n[id].prev != none || t.n[id].next != none {
			return id
		}
		t.unlistLeft(id)
		t.unlink(id)
		id = up
		t.n[id].typ, t.n[id].kid, t.n[id].rest = leftover, none, none
	}
}

// drop forgets all below id and takes id off the lists.
func (t *tree) drop(id int32, out []int32) {
	n := &t.n[id]
	switch n.typ {
	case leftover:
		t.unlistLeft(id)
		if n.up != none && t.n[n.up].rest == id {
			t.n[n.up].rest = none
		}
	case divided:
		for k := n.kid; k != none; {
			next := t.n[k].next
			t.drop(k, out)
			t.forget(k)
			k = next
		}
	default:
		out[n.typ]++
		t.used -= float64(n.w) * float64(n.h)
		t.unlistFull(id)
	}
}
