package nest

import (
	"fmt"
	"strings"
)

// tiny is less than any length that matters, mm.
const tiny = 1e-6

// cutter writes the steps that cut a sheet's tree.
type cutter struct {
	sheet *Sheet
	parts int // numbers given so far
}

// cut writes the steps for the whole sheet and puts its places in the order
// in which the pieces come free.
func (s *Sheet) cut() {
	c := cutter{sheet: s}
	c.divide(s.Root, 0)
	s.sortPlaces()
	s.Settings = 0
	for i := range s.Cuts {
		if i > 0 {
			p := &s.Cuts[i-1]
			s.Cuts[i].Again = p.Upright == s.Cuts[i].Upright && abs(p.At-s.Cuts[i].At) < tiny
		}
		if !s.Cuts[i].Again {
			s.Settings++
		}
	}
}

func abs(x float64) float64 { return max(x, -x) }

// span is where a node lies across the cuts of its parent.
func (n *Node) span(upright bool) (lo, hi float64) {
	if upright {
		return n.X, n.X + n.W
	}
	return n.Y, n.Y + n.H
}

// part names a node as what a cut leaves.
func (c *cutter) part(n *Node) Part {
	switch n.Kind {
	case Piece:
		return Part{Place: n.Place, Left: -1}
	case Left:
		return Part{Place: -1, Left: n.Place}
	}
	c.parts++
	return Part{Number: c.parts, Place: -1, Left: -1}
}

var waste = Part{Place: -1, Left: -1}

// divide cuts one part into the node's children, all of them before any is
// cut further: strips first.
func (c *cutter) divide(n *Node, part int) {
	if n.Kind != Divided {
		return
	}
	at, end := n.span(n.Upright)
	names := make([]Part, len(n.Children))
	if lo, _ := n.Children[0].span(n.Upright); lo-at > tiny {
		far := c.rest(n, 0, end, names)
		c.step(n, part, at, lo, lo, waste, far)
		part, at = far.Number, lo
	} else if _, hi := n.Children[0].span(n.Upright); len(n.Children) == 1 && end-hi <= tiny {
		names[0].Number = part // nothing to cut here
	}
	for i, k := range n.Children {
		_, hi := k.span(n.Upright)
		if i == len(n.Children)-1 {
			if end-hi > tiny {
				names[i] = c.part(k)
				c.step(n, part, at, hi, hi, names[i], waste)
			}
			break
		}
		next, _ := n.Children[i+1].span(n.Upright)
		names[i] = c.part(k)
		far := c.rest(n, i+1, end, names)
		c.step(n, part, at, hi, next, names[i], far)
		part, at = far.Number, next
	}
	c.strips(n, names)
}

// strips cuts the children further. Those alike may be laid on one another
// and cut or torn together: their steps name the step of the first.
func (c *cutter) strips(n *Node, names []Part) {
	first := map[string]int{}
	for i, k := range n.Children {
		if k.Kind != Divided {
			continue
		}
		from := len(c.sheet.Cuts)
		c.divide(k, names[i].Number)
		sig := k.signature()
		at, seen := first[sig]
		if !seen {
			first[sig] = from
			continue
		}
		for j := from; j < len(c.sheet.Cuts); j++ {
			c.sheet.Cuts[j].With = c.sheet.Cuts[at+j-from].Step
		}
	}
}

// signature is equal for nodes that are cut alike, wherever they lie.
func (n *Node) signature() string {
	var b strings.Builder
	var walk func(k *Node)
	walk = func(k *Node) {
		fmt.Fprintf(&b, "(%.3f %.3f %.3f %.3f %d %v", k.X-n.X, k.Y-n.Y, k.W, k.H, k.Kind, k.Upright)
		for _, c := range k.Children {
			walk(c)
		}
		b.WriteByte(')')
	}
	walk(n)
	return b.String()
}

// rest names what lies beyond a cut, from child i on: that child itself if
// it is the last and needs no more cut, else a part still to be cut.
func (c *cutter) rest(n *Node, i int, end float64, names []Part) Part {
	k := n.Children[i]
	if _, hi := k.span(n.Upright); i == len(n.Children)-1 && end-hi <= tiny {
		names[i] = c.part(k)
		return names[i]
	}
	c.parts++
	return Part{Number: c.parts, Place: -1, Left: -1}
}

// step writes one cut of a part that begins at from: the line is at to, and
// the far side begins at next.
func (c *cutter) step(n *Node, part int, from, to, next float64, near, far Part) {
	k := Cut{Step: len(c.sheet.Cuts) + 1, Part: part, Upright: n.Upright, At: exact(to - from), Near: near, Far: far, Band: exact(next - to)}
	if n.Upright {
		k.X1, k.X2, k.Y1, k.Y2 = to, to, n.Y, n.Y+n.H
	} else {
		k.X1, k.X2, k.Y1, k.Y2 = n.X, n.X+n.W, to, to
	}
	c.sheet.Cuts = append(c.sheet.Cuts, k)
}

// sortPlaces puts the places in the order in which their pieces come free.
func (s *Sheet) sortPlaces() {
	to := make([]int, len(s.Places))
	for i := range to {
		to[i] = -1
	}
	sorted := make([]Place, 0, len(s.Places))
	free := func(i int) {
		if i >= 0 && to[i] < 0 {
			to[i] = len(sorted)
			sorted = append(sorted, s.Places[i])
		}
	}
	for _, c := range s.Cuts {
		free(c.Near.Place)
		free(c.Far.Place)
	}
	for i := range s.Places {
		free(i) // a blank as large as its sheet needs no cut
	}
	for i := range s.Cuts {
		for _, p := range []*Part{&s.Cuts[i].Near, &s.Cuts[i].Far} {
			if p.Place >= 0 {
				p.Place = to[p.Place]
			}
		}
	}
	s.Places = sorted
	s.Root.renumber(to)
}

func (n *Node) renumber(to []int) {
	if n.Kind == Piece {
		n.Place = to[n.Place]
	}
	for _, k := range n.Children {
		k.renumber(to)
	}
}
