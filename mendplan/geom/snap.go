package geom

import (
	"math/bits"
	"slices"
)

// node cuts strands wherever they meet, by snap rounding: every end and every
// crossing, rounded, makes its grid cell hot, and each strand is led through
// the middle of every hot cell it passes. Cells own their left and lower
// edges only, and crossings round the same way, so that no tie is ever left
// open. The links that result share ends but never cross, and no node lies
// inside a link.
func (l *loom) node() {
	l.sortStrands()
	l.findHot()
	l.nodes = l.nodes[:0]
	for _, k := range l.hot {
		l.nodes = append(l.nodes, pointOf(k))
	}
	l.loose = l.loose[:0]
	from := 0
	for i := range l.sorted {
		s := &l.sorted[i]
		for l.nodes[from].x < s.a.x {
			from++
		}
		l.passed = passedCells(l.passed[:0], l.nodes, from, s)
		for k := 1; k < len(l.passed); k++ {
			p, q, d := l.passed[k-1], l.passed[k], s.d
			if p > q {
				p, q, d = q, p, [2]int32{-d[0], -d[1]}
			}
			l.loose = append(l.loose, link{a: p, b: q, d: d})
		}
	}
}

// sortStrands puts strands in the order of their left ends.
func (l *loom) sortStrands() {
	l.order = l.order[:0]
	for i := range l.strands {
		l.order = append(l.order, uint64(l.strands[i].a.x+maxGrid)<<32|uint64(i))
	}
	slices.Sort(l.order)
	l.sorted = l.sorted[:0]
	for _, k := range l.order {
		l.sorted = append(l.sorted, l.strands[uint32(k)])
	}
}

// findHot gathers the keys of all ends and rounded crossings, sorted.
func (l *loom) findHot() {
	l.hot = l.hot[:0]
	s := l.sorted
	for i := range s {
		e := &s[i]
		l.hot = append(l.hot, e.start().key())
		lo, hi := min(e.a.y, e.b.y), max(e.a.y, e.b.y)
		for j := i + 1; j < len(s) && s[j].a.x <= e.b.x; j++ {
			f := &s[j]
			if max(f.a.y, f.b.y) < lo || min(f.a.y, f.b.y) > hi {
				continue
			}
			if p, ok := crossing(e, f); ok {
				l.hot = append(l.hot, p.key())
			}
		}
	}
	slices.Sort(l.hot)
	l.hot = slices.Compact(l.hot)
}

// crossing returns the rounded point where e and f cross properly. Ends that
// merely touch need no point of their own: their cells are hot already.
func crossing(e, f *strand) (gridPt, bool) {
	c, d := side(e.a, e.b, f.a), side(e.a, e.b, f.b)
	if c == 0 || d == 0 || (c > 0) == (d > 0) {
		return gridPt{}, false
	}
	a, b := side(f.a, f.b, e.a), side(f.a, f.b, e.b)
	if a == 0 || b == 0 || (a > 0) == (b > 0) {
		return gridPt{}, false
	}
	num, den := a, a-b
	if den < 0 {
		num, den = -num, -den
	}
	dx, dy := int64(e.b.x)-int64(e.a.x), int64(e.b.y)-int64(e.a.y)
	return gridPt{
		e.a.x + int32(mulDiv(dx, num, den)),
		e.a.y + int32(mulDiv(dy, num, den)),
	}, true
}

// mulDiv returns d·num/den rounded to the nearest whole, halves up, for
// 0 < num < den < 2⁵⁵ and |d| < 2²⁷, in 128 bits where 64 are too few.
func mulDiv(d, num, den int64) int64 {
	neg := d < 0
	if neg {
		d = -d
	}
	hi, lo := bits.Mul64(uint64(2*d), uint64(num))
	var carry uint64
	if neg {
		// −x rounds up at halves where x rounds down: ceil(x−½)=floor((2·d·num+den−1)/(2·den)).
		lo, carry = bits.Add64(lo, uint64(den-1), 0)
	} else {
		lo, carry = bits.Add64(lo, uint64(den), 0)
	}
	q, _ := bits.Div64(hi+carry, lo, uint64(2*den))
	if neg {
		return -int64(q)
	}
	return int64(q)
}

// passedCells appends the numbers of the hot cells that s passes, in its own
// order from a to b. Nodes are sorted; none before from can be meant.
func passedCells(out []int32, nodes []gridPt, from int, s *strand) []int32 {
	lo, hi := min(s.a.y, s.b.y), max(s.a.y, s.b.y)
	dx, dy := int64(s.b.x)-int64(s.a.x), int64(s.b.y)-int64(s.a.y)
	width := dx + max(dy, -dy)
	run := len(out) // where the cells of the present column begin
	for i := from; i < len(nodes) && nodes[i].x <= s.b.x; i++ {
		p := nodes[i]
		if p.y < lo || p.y > hi {
			continue
		}
		c := 2 * (dx*(int64(p.y)-int64(s.a.y)) - dy*(int64(p.x)-int64(s.a.x)))
		if c >= width || c <= -width {
			// Touching a corner counts only at the lower left one, and only a
			// falling strand can touch that without entering.
			if !(dx > 0 && dy < 0 && c == width) {
				continue
			}
		}
		if dy < 0 {
			if run < len(out) && nodes[out[run]].x != p.x {
				run = len(out)
			}
			out = slices.Insert(out, run, int32(i)) // within a column downwards
			continue
		}
		out = append(out, int32(i))
	}
	return out
}
