package geom

import "slices"

// wind fills in the winding below every link by a sweep in x (then y, so that
// an upright link counts as leaning over a little).
func (l *loom) wind() {
	ends := cleared(l.spot, len(l.nodes))
	l.spot = ends
	for i := range l.links {
		ends[l.links[i].b]++
	}
	l.active = l.active[:0] // links under the sweep line, bottom to top
	next := 0
	for v := range l.nodes {
		first := next
		for next < len(l.links) && l.links[next].a == int32(v) {
			next++
		}
		if first == next && ends[v] == 0 {
			continue
		}
		lo := l.lowest(l.nodes[v])
		hi := min(lo+int(ends[v]), len(l.active))
		l.fanOut(first, next)
		var w [2]int32
		if lo > 0 {
			w = l.links[l.active[lo-1]].above()
		}
		for _, e := range l.fan {
			l.links[e].below = w
			w = l.links[e].above()
		}
		l.active = slices.Replace(l.active, lo, hi, l.fan...)
	}
}

// lowest returns the place among the active links of the first that p is not
// above.
func (l *loom) lowest(p gridPt) int {
	lo, hi := 0, len(l.active)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		k := &l.links[l.active[mid]]
		if side(l.nodes[k.a], l.nodes[k.b], p) > 0 {
			lo = mid + 1
		} else {
			hi = mid
		}
	}
	return lo
}

// fanOut sets fan to the links from first up to next, which share their first
// node, from the lowest to the highest slope.
func (l *loom) fanOut(first, next int) {
	l.fan = l.fan[:0]
	for e := first; e < next; e++ {
		at := len(l.fan)
		for at > 0 {
			k := &l.links[l.fan[at-1]]
			if side(l.nodes[k.a], l.nodes[k.b], l.nodes[l.links[e].b]) > 0 {
				break
			}
			at--
		}
		l.fan = slices.Insert(l.fan, at, int32(e))
	}
}
