package geom

import (
	"cmp"
	"slices"
)

// minDoubled is twice the area, in square steps, below which a ring is taken
// for a sliver of rounding and left out: 0.001 mm².
const minDoubled = 2 * 1000

// rule tells from the windings of two inputs whether a place belongs to the
// answer.
type rule func(w [2]int32) bool

// half is a link of the boundary, turned so that the inside lies where y
// turns to from x, which makes outer rings positive.
type half struct {
	from, to int32
	used     bool
}

// trace returns the rings around all places that keep holds for. Each ring
// visits a node once only, so that shapes that touch at a point stay aparl.
func (l *loom) trace(keep rule) []gridRing {
	l.boundary(keep)
	l.deal()
	for i := range l.out {
		if !l.out[i].used {
			l.walk(int32(i))
		}
	}
	slices.SortFunc(l.rings, compareRings)
	return l.rings
}

// boundary gathers the links that have the inside on one side only.
func (l *loom) boundary(keep rule) {
	l.halves = l.halves[:0]
	for i := range l.links {
		k := &l.links[i]
		below, above := keep(k.below), keep(k.above())
		switch {
		case above && !below:
			l.halves = append(l.halves, half{from: k.a, to: k.b})
		case below && !above:
			l.halves = append(l.halves, half{from: k.b, to: k.a})
		}
	}
}

// deal sorts halves into out by the node they leave, in the order they come.
func (l *loom) deal() {
	l.first, l.spot = cleared(l.first, len(l.nodes)+1), cleared(l.spot, len(l.nodes))
	for _, h := range l.halves {
		l.first[h.from+1]++
	}
	for v := range l.nodes {
		l.spot[v] = l.first[v] // borrowed: where the next half of a node goes
		l.first[v+1] += l.first[v]
	}
	l.out = slices.Grow(l.out[:0], len(l.halves))[:len(l.halves)]
	for _, h := range l.halves {
		l.out[l.spot[h.from]] = h
		l.spot[h.from]++
	}
	for v := range l.spot {
		l.spot[v] = -1
	}
}

// walk follows the boundary from half h round to its beginning and cuts off a
// ring whenever it comes back to a node it has passed.
func (l *loom) walk(h int32) {
	walk := append(l.walked[:0], l.out[h].from)
	l.spot[l.out[h].from] = 0
	for h >= 0 {
		l.out[h].used = true
		v := l.out[h].to
		if k := l.spot[v]; k >= 0 {
			l.emit(walk[k:])
			for _, u := range walk[k+1:] {
				l.spot[u] = -1
			}
			walk = walk[:k+1]
		} else {
			l.spot[v] = int32(len(walk))
			walk = append(walk, v)
		}
		h = l.follow(l.out[h].from, v)
	}
	for _, u := range walk {
		l.spot[u] = -1
	}
	l.walked = walk
}

// follow returns the unused half that leaves v next clockwise (in the sense
// of negative area) from the way back to u, or −1 when the walk is over.
func (l *loom) follow(u, v int32) int32 {
	best := int32(-1)
	for i := l.first[v]; i < l.first[v+1]; i++ {
		if l.out[i].used {
			continue
		}
		if best < 0 || sooner(l.nodes[v], l.nodes[u], l.nodes[l.out[i].to], l.nodes[l.out[best].to]) {
			best = i
		}
	}
	return best
}

// sooner reports whether, turning in the negative sense around v from the
// direction of u, that of p comes before that of q.
func sooner(v, u, p, q gridPt) bool {
	hp, hq := beyond(v, u, p), beyond(v, u, q)
	if hp != hq {
		return hq
	}
	return side(v, p, q) < 0
}

// beyond reports whether p lies more than half a turn from u, turning around
// v in the negative sense.
func beyond(v, u, p gridPt) bool { return side(v, u, p) > 0 }

// emit adds the ring through walk unless it is a sliver.
func (l *loom) emit(walk []int32) {
	if len(walk) < 3 {
		return
	}
	low := 0
	for i, v := range walk {
		if v < walk[low] {
			low = i
		}
	}
	r := make(gridRing, 0, len(walk))
	last := int32(-1) // the node of r's last point
	needless := func(p gridPt) bool {
		n := len(r)
		return n > 1 && l.plain(last) && side(r[n-2], r[n-1], p) == 0
	}
	for i := range walk {
		v := walk[(low+i)%len(walk)]
		if needless(l.nodes[v]) {
			r = r[:len(r)-1]
		}
		r, last = append(r, l.nodes[v]), v
	}
	if needless(r[0]) {
		r = r[:len(r)-1]
	}
	if d := r.doubled(); d <= -minDoubled || d >= minDoubled {
		l.rings = append(l.rings, r)
	}
}

// plain reports whether the boundary passes v only once, so that v may go
// where it lies on a straight line. Points where rings touch must stay.
func (l *loom) plain(v int32) bool { return l.first[v+1]-l.first[v] == 1 }

// compareRings orders rings by their first points, so that the same area is
// always listed the same way and an outer ring comes before its holes.
func compareRings(a, b gridRing) int {
	if c := cmp.Compare(a[0].key(), b[0].key()); c != 0 {
		return c
	}
	return slices.CompareFunc(a[1:], b[1:], func(p, q gridPt) int { return cmp.Compare(p.key(), q.key()) })
}
