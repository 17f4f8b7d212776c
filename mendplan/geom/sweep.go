package geom

import "slices"

// windings fills in the winding below every link by a sweep in x (then y, so
// that an upright link counts as leaning over a little). Links must be sorted
// by their first node and must not cross.
func windings(nodes []gridPt, links []link) {
	ends := make([]int32, len(nodes))
	for i := range links {
		ends[links[i].b]++
	}
	active := make([]int32, 0, 64) // links under the sweep line, bottom to top
	var fan []int32
	next := 0
	for v := range nodes {
		first := next
		for next < len(links) && links[next].a == int32(v) {
			next++
		}
		if first == next && ends[v] == 0 {
			continue
		}
		lo := lowest(nodes, links, active, nodes[v])
		hi := min(lo+int(ends[v]), len(active))
		fan = fanOut(fan[:0], nodes, links, first, next)
		var w [2]int32
		if lo > 0 {
			w = links[active[lo-1]].above()
		}
		for _, e := range fan {
			links[e].below = w
			w = links[e].above()
		}
		active = slices.Replace(active, lo, hi, fan...)
	}
}

// above returns the windings just above l.
func (l *link) above() [2]int32 {
	return [2]int32{l.below[0] + l.d[0], l.below[1] + l.d[1]}
}

// lowest returns the place in active of the first link that p is not above.
func lowest(nodes []gridPt, links []link, active []int32, p gridPt) int {
	lo, hi := 0, len(active)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		l := &links[active[mid]]
		if side(nodes[l.a], nodes[l.b], p) > 0 {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// fanOut appends to fan the links from first up to next, which share their
// first node, from the lowest to the highest slope.
func fanOut(fan []int32, nodes []gridPt, links []link, first, next int) []int32 {
	for e := first; e < next; e++ {
		k := len(fan)
		for k > 0 {
			l := &links[fan[k-1]]
			if side(nodes[l.a], nodes[l.b], nodes[links[e].b]) > 0 {
				break
			}
			k--
		}
		fan = slices.Insert(fan, k, int32(e))
	}
	return fan
}
