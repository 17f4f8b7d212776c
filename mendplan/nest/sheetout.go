package nest

import (
	"cmp"
	"slices"
)

// rect is a rectangle on a sheet, µm.
type rect struct{ x, y, w, h int32 }

// drawer turns one tree in the making into a Sheet.
type drawer struct {
	g     *group
	k     *kind
	t     *tree
	sheet *Sheet
	take  func(p int32) ref // the next copy of a piece
	prob  *problem
	keep  map[int32]bool // nodes on the way to the largest remnant
}

// draw fills in the sheet's tree, places and remnants.
func (d *drawer) draw() *Node {
	d.keep = map[int32]bool{}
	best, leaf := 0.0, none
	for _, l := range d.t.left {
		if a := d.g.keepArea(d.t, l.id); a > best {
			best, leaf = a, l.id
		}
	}
	for l := leaf; l != none; l = d.t.n[l].up {
		d.keep[l] = true
	}
	k := d.k
	in := rect{k.ox, k.oy, k.w - d.g.gap, k.h - d.g.gap}
	out := rect{k.ex, k.ey, k.fullW, k.fullH}
	if k.roll {
		cut := k.h - rollUsed(d.t) // it stays on the roll
		in.h -= cut
		out.h -= cut
	}
	return d.node(0, in, out)
}

// node draws the tree below id. In is the room for blanks there, out the
// paper that comes with it: more where it reaches the rim of the sheet.
func (d *drawer) node(id int32, in, out rect) *Node {
	n := &d.t.n[id]
	if n.typ == leftover {
		return d.remnant(out)
	}
	if n.typ >= 0 {
		return trim(out, in, d.place(n, in))
	}
	if !d.keep[id] {
		return trim(out, in, d.divide(id, in, in))
	}
	return d.divide(id, in, out)
}

// divide draws the children of a node side by side.
func (d *drawer) divide(id int32, in, out rect) *Node {
	n := &d.t.n[id]
	node := d.rect(out)
	node.Upright = n.along
	kids := d.kids(id)
	x, y := in.x, in.y
	for i, c := range kids {
		cn := &d.t.n[c]
		ci, co := rect{x, y, cn.w - d.g.gap, cn.h - d.g.gap}, rect{x, y, cn.w - d.g.gap, cn.h - d.g.gap}
		if n.along {
			x += cn.w
			co.y, co.h = out.y, out.h
			co = d.reach(co, out, i == 0, i == len(kids)-1, cn.typ, d.keep[c], true)
		} else {
			y += cn.h
			co.x, co.w = out.x, out.w
			co = d.reach(co, out, i == 0, i == len(kids)-1, cn.typ, d.keep[c], false)
		}
		if cn.typ == leftover && (co.w <= 0 || co.h <= 0) {
			continue
		}
		kid := d.node(c, ci, co)
		if len(kids) == 1 && co == out {
			return kid // all that is cut off a roll
		}
		node.Children = append(node.Children, kid)
	}
	return node
}

// reach widens a child at the end of its row to the rim, if it is left over
// or holds the largest remnant.
func (d *drawer) reach(c, out rect, isFirst, isLast bool, typ int32, keep, along bool) rect {
	if typ != leftover && !keep {
		return c
	}
	if isFirst {
		if along {
			c.w += c.x - out.x
			c.x = out.x
		} else {
			c.h += c.y - out.y
			c.y = out.y
		}
	}
	if isLast {
		if along {
			c.w = out.x + out.w - c.x
		} else {
			c.h = out.y + out.h - c.y
		}
	}
	return c
}

// kids are a node's children in the order to cut them: equal sizes side by
// side, large ones first, the largest remnant's last.
func (d *drawer) kids(id int32) []int32 {
	n := &d.t.n[id]
	var out []int32
	for c := n.kid; c != none; c = d.t.n[c].next {
		if d.k.roll && id == 0 && d.t.n[c].typ == leftover && !n.along {
			continue // it stays on the roll
		}
		out = append(out, c)
	}
	rank := func(c int32) int {
		switch {
		case d.keep[c]:
			return 2
		case d.t.n[c].typ == leftover:
			return 1
		}
		return 0
	}
	slices.SortStableFunc(out, func(a, b int32) int {
		na, nb := &d.t.n[a], &d.t.n[b]
		return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(nb.w, na.w), cmp.Compare(nb.h, na.h),
			cmp.Compare(na.typ, nb.typ), cmp.Compare(a, b))
	})
	return out
}

func (d *drawer) rect(r rect) *Node {
	return &Node{X: mm(r.x), Y: mm(r.y), W: mm(r.w), H: mm(r.h)}
}

// remnant draws what is left over.
func (d *drawer) remnant(r rect) *Node {
	g := d.g
	keep := g.keeps && r.w >= g.keepW && r.h >= g.keepH && float64(r.w)*float64(r.h) >= g.keepA
	n := d.rect(r)
	n.Kind, n.Place = Left, len(d.sheet.Remnants)
	d.sheet.Remnants = append(d.sheet.Remnants, Remnant{n.X, n.Y, n.W, n.H, keep})
	return n
}

// place draws a blank.
func (d *drawer) place(n *tnode, r rect) *Node {
	f := d.take(n.typ)
	b := &d.prob.blanks[f.blank]
	node := d.rect(r)
	node.Kind, node.Place = Piece, len(d.sheet.Places)
	// a free blank may have been listed lying down
	turned := n.turned != (b.Turn == Free && um(b.W) > um(b.H))
	d.sheet.Places = append(d.sheet.Places, Place{Blank: b.ID, Index: f.index,
		X: node.X, Y: node.Y, W: node.W, H: node.H, Turned: turned})
	return node
}

// trim cuts out down to in, first across, and puts node there.
func trim(out, in rect, node *Node) *Node {
	if out.y != in.y || out.h != in.h {
		mid := rect{out.x, in.y, out.w, in.h}
		return &Node{X: mm(out.x), Y: mm(out.y), W: mm(out.w), H: mm(out.h), Children: []*Node{trim(mid, in, node)}}
	}
	if out.x != in.x || out.w != in.w {
		return &Node{X: mm(out.x), Y: mm(out.y), W: mm(out.w), H: mm(out.h), Upright: true, Children: []*Node{node}}
	}
	return node
}
