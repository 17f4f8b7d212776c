package geom

import (
	"cmp"
	"math/bits"
	"slices"
)

// strand is a straight edge before noding, from a to b with a before b, and
// how often each of two inputs runs along it: forwards less backwards.
type strand struct {
	a, b gridPt
	d    [2]int32
}

// link is a piece of strand between two nodes, given by their numbers a < b,
// and the winding of each input just below it, which the sweep fills in.
type link struct {
	a, b  int32
	d     [2]int32
	below [2]int32
}

// newStrand returns the strand for one run from p to q.
func newStrand(p, q gridPt, input int, runs int32) strand {
	if q.before(p) {
		p, q, runs = q, p, -runs
	}
	s := strand{a: p, b: q}
	s.d[input] = runs
	return s
}

// addRing appends the edges of r, each run through the given number of times.
func addRing(s []strand, r gridRing, input int, runs int32) []strand {
	if len(r) < 2 {
		return s
	}
	p := r[len(r)-1]
	for _, q := range r {
		if p != q {
			s = append(s, newStrand(p, q, input, runs))
		}
		p = q
	}
	return s
}

// mergeStrands sorts strands and joins equal ones; runs that cancel vanish.
func mergeStrands(s []strand) []strand {
	slices.SortFunc(s, func(s, t strand) int {
		if s.a.x != t.a.x {
			return int(s.a.x) - int(t.a.x)
		}
		return cmp.Or(int(s.a.y)-int(t.a.y), int(s.b.x)-int(t.b.x), int(s.b.y)-int(t.b.y))
	})
	out := s[:0]
	for _, t := range s {
		if n := len(out) - 1; n >= 0 && out[n].a == t.a && out[n].b == t.b {
			out[n].d[0] += t.d[0]
			out[n].d[1] += t.d[1]
			if out[n].d == [2]int32{} {
				out = out[:n]
			}
			continue
		}
		out = append(out, t)
	}
	return out
}

// node cuts strands wherever they meet, by snap rounding: every end and every
// crossing, rounded, makes its grid cell hot, and each strand is led through
// the middle of every hot cell it passes. Cells own their left and lower
// edges only, and crossings round the same way, so that no tie is ever left
// open. The links that result share ends but never cross, and no node lies
// inside a link. Strands must be sorted, as mergeStrands leaves them.
func node(s []strand) ([]gridPt, []link) {
	hot := hotCells(s)
	nodes := make([]gridPt, len(hot))
	for i, k := range hot {
		nodes[i] = pointOf(k)
	}
	links := make([]link, 0, len(s)+len(s)/2)
	var passed []int32
	from := 0
	for i := range s {
		for nodes[from].x < s[i].a.x {
			from++
		}
		passed = passedCells(passed[:0], nodes, from, &s[i])
		for k := 1; k < len(passed); k++ {
			p, q, d := passed[k-1], passed[k], s[i].d
			if p > q {
				p, q, d = q, p, [2]int32{-d[0], -d[1]}
			}
			links = append(links, link{a: p, b: q, d: d})
		}
	}
	return nodes, mergeLinks(links, len(nodes))
}

// hotCells returns the keys of all ends and rounded crossings, sorted.
func hotCells(s []strand) []uint64 {
	hot := make([]uint64, 0, 3*len(s))
	for i := range s {
		e := &s[i]
		hot = append(hot, e.a.key(), e.b.key())
		lo, hi := min(e.a.y, e.b.y), max(e.a.y, e.b.y)
		for j := i + 1; j < len(s) && s[j].a.x <= e.b.x; j++ {
			f := &s[j]
			if max(f.a.y, f.b.y) < lo || min(f.a.y, f.b.y) > hi {
				continue
			}
			if p, ok := crossing(e, f); ok {
				hot = append(hot, p.key())
			}
		}
	}
	slices.Sort(hot)
	return slices.Compact(hot)
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

// mergeLinks sorts links, for the given number of nodes, and joins equal
// ones; runs that cancel vanish.
func mergeLinks(l []link, nodes int) []link {
	// Nodes are numbered, so links are dealt out by the first and only the few
	// that leave one node need comparing.
	first := make([]int32, nodes+1)
	for i := range l {
		first[l[i].a+1]++
	}
	for v := range nodes {
		first[v+1] += first[v]
	}
	sorted := make([]link, len(l))
	for i := range l {
		at := &first[l[i].a]
		sorted[*at] = l[i]
		*at++
	}
	for i := range sorted {
		for k := i; k > 0 && sorted[k-1].a == sorted[k].a && sorted[k-1].b > sorted[k].b; k-- {
			sorted[k-1], sorted[k] = sorted[k], sorted[k-1]
		}
	}
	out := sorted[:0]
	for _, t := range sorted {
		if n := len(out) - 1; n >= 0 && out[n].a == t.a && out[n].b == t.b {
			out[n].d[0] += t.d[0]
			out[n].d[1] += t.d[1]
			if out[n].d == [2]int32{} {
				out = out[:n]
			}
			continue
		}
		out = append(out, t)
	}
	return out
}
