package nest

import "math"

// state is a layout in the making: opened trees, and blanks that wait.
type state struct {
	g      *group
	trees  []*tree
	wait   []int32 // by piece: how many wait
	stock  []int32 // by kind: copies left
	opened float64 // cost of the trees
	waits  float64 // area that waits
	style  int8    // of a first layout: 0 as it fits best, or in columns or rows
	looks  int     // leaves looked at for a first layout
}

// Styles of a first layout.
const (
	columns int8 = 1
	rows    int8 = 2
)

func newState(g *group) *state {
	s := &state{g: g, wait: make([]int32, len(g.pieces)), stock: make([]int32, len(g.kinds))}
	for i, p := range g.pieces {
		s.wait[i] = p.count
		s.waits += p.area * float64(p.count)
	}
	for i, k := range g.kinds {
		s.stock[i] = k.copies
		if k.open {
			for s.stock[i] > 0 {
				s.open(int32(i))
			}
		}
	}
	return s
}

// open adds an empty sheet of kind k.
func (s *state) open(k int32) *tree {
	kd := &s.g.kinds[k]
	t := newTree(k, kd.w, kd.h, s.g.leastW, s.g.leastH)
	s.trees = append(s.trees, t)
	s.stock[k]--
	return t
}

// cost is the area opened by a tree, µm².
func (s *state) cost(t *tree) float64 {
	k := &s.g.kinds[t.kind]
	if t.n[0].typ == leftover {
		return 0 // it is not cut into
	}
	if k.open || !k.roll {
		return k.cost
	}
	return float64(k.fullW) * float64(k.fullH-k.h+rollUsed(t))
}

// rollUsed is the length of a roll that is taken up, gap included.
func rollUsed(t *tree) int32 {
	used := t.n[0].h
	if r := t.n[0].rest; r != none && !t.n[0].along {
		used -= t.n[r].h
	}
	return used
}

// spot is a way to put a blank: into leaf of tree, turned, first cut along.
type spot struct {
	tree   int32
	leaf   int32
	turned bool
	along  bool
	score  float64
}

// try looks at one way to put w × h into a leaf and keeps it if better.
// The score says how much of what is left over is broken up.
func (b *spot) try(t int32, leaf int32, n *tnode, w, h int32, turned, roll bool, style int8) {
	if w > n.w || h > n.h {
		return
	}
	lw, lh := float64(n.w), float64(n.h)
	dw, dh := float64(n.w-w), float64(n.h-h)
	whole := lw * lh * lw * lh
	fw, fh := float64(w), float64(h)
	// column first: rest dw×lh and w×dh; row first: lw×dh and dw×h
	col := whole - dw*lh*dw*lh - fw*dh*fw*dh
	row := whole - lw*dh*lw*dh - dw*fh*dw*fh
	if style != 0 {
		if w == n.w || h == n.h {
			col, row = col-1e300, row-1e300 // in line with what is there
		} else if n.up <= 0 && style == columns {
			row = math.Inf(1)
		} else if n.up <= 0 {
			col = math.Inf(1)
		}
	}
	if col < b.score && !roll {
		*b = spot{t, leaf, turned, true, col}
	}
	if row < b.score {
		*b = spot{t, leaf, turned, false, row}
	}
}

// A first layout of very many blanks looks everywhere until it has taken
// mostLooks, then only at the last few sheets and their newest leaves: so its
// time grows with the number of blanks, not with its square.
const (
	mostLooks  = 10_000_000
	lastTrees  = 6
	lastLeaves = 150
)

// best finds the best spot for a blank of the kind in the opened trees.
func (s *state) best(p int32) (spot, bool) {
	pc := &s.g.pieces[p]
	b := spot{score: math.Inf(1)}
	from, most := 0, math.MaxInt
	if s.looks > mostLooks {
		from, most = max(0, len(s.trees)-lastTrees), lastLeaves
	}
	for i, t := range s.trees[from:] {
		i += from
		roll := s.g.kinds[t.kind].roll
		left := t.left[max(0, len(t.left)-most):]
		s.looks += len(left) + 1
		for _, l := range left {
			n := &t.n[l.id]
			roll := roll && t.endOfRoll(l.id)
			b.try(int32(i), l.id, n, pc.w, pc.h, false, roll, s.style)
			if pc.free && pc.w != pc.h {
				b.try(int32(i), l.id, n, pc.h, pc.w, true, roll, s.style)
			}
		}
	}
	return b, !math.IsInf(b.score, 1)
}

// put places a waiting blank.
func (s *state) put(p int32, b spot) {
	pc := &s.g.pieces[p]
	w, h := pc.w, pc.h
	if b.turned {
		w, h = h, w
	}
	t := s.trees[b.tree]
	s.opened -= s.cost(t)
	t.place(b.leaf, p, w, h, b.turned, b.along)
	s.opened += s.cost(t)
	s.wait[p]--
	s.waits -= pc.area
}

// fits says whether a blank goes into an empty sheet of the kind.
func (g *group) fits(p, k int32) bool {
	pc, kd := &g.pieces[p], &g.kinds[k]
	return pc.w <= kd.w && pc.h <= kd.h || pc.free && pc.h <= kd.w && pc.w <= kd.h
}

// kept is the area of the largest remnant of a tree worth keeping, as it
// would be cut: with the rims it can be made to reach.
func (s *state) kept(t *tree) float64 {
	if !s.g.keeps {
		return 0
	}
	best := 0.0
	for _, l := range t.left {
		if a := s.g.keepArea(t, l.id); a > best {
			best = a
		}
	}
	return best
}

// keepArea is the real area of a leaf left over, µm², or 0 when it is not
// worth keeping.
func (g *group) keepArea(t *tree, l int32) float64 {
	n := &t.n[l]
	if n.up == none {
		k := &g.kinds[t.kind]
		if !k.open {
			return 0
		}
		return g.worthKeeping(k.fullW, k.fullH)
	}
	return g.restArea(t.kind, n.w, n.h, n.up == 0, t.n[n.up].along)
}

// restArea is the real area of what is left over in a sheet of the kind, w ×
// h with the gap: it can be made to reach the rim on one side each way, and
// beside the root's children, cut along x or not, on both.
func (g *group) restArea(kind, w, h int32, root, along bool) float64 {
	k := &g.kinds[kind]
	if w <= g.gap || h <= g.gap {
		return 0
	}
	w, h = w-g.gap+k.rimX, h-g.gap+k.rimY
	switch {
	case root && along:
		h = k.fullH
	case root && k.roll:
		return 0 // it stays on the roll
	case root:
		w = k.fullW
	}
	return g.worthKeeping(w, h)
}

// worthKeeping is the area of a remnant, or 0 when it is too small to keep.
func (g *group) worthKeeping(w, h int32) float64 {
	a := float64(w) * float64(h)
	if w < g.keepW || h < g.keepH || a < g.keepA {
		return 0
	}
	return a
}

// use is the figure of merit of a state, what waits left aside.
func (s *state) use() float64 {
	kept := 0.0
	for _, t := range s.trees {
		kept = max(kept, s.kept(t))
	}
	return s.opened - s.g.share*kept
}
