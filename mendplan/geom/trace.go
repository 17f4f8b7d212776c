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

// tracer follows boundaries from half to half.
type tracer struct {
	nodes []gridPt
	out   []half  // sorted by from
	first []int32 // where the halves that leave a node begin in out
	spot  []int32 // place of a node on the present walk, or −1
	rings []gridRing
}

// trace returns the rings around all places that keep holds for. Each ring
// visits a node once only, so that shapes that touch at a point stay apart.
func trace(nodes []gridPt, links []link, keep rule) []gridRing {
	t := tracer{nodes: nodes, first: make([]int32, len(nodes)+1), spot: make([]int32, len(nodes))}
	t.deal(boundary(links, keep))
	for i := range t.out {
		if !t.out[i].used {
			t.walk(int32(i))
		}
	}
	slices.SortFunc(t.rings, compareRings)
	return t.rings
}

// boundary returns the links that have the inside on one side only.
func boundary(links []link, keep rule) []half {
	out := make([]half, 0, len(links))
	for i := range links {
		l := &links[i]
		below, above := keep(l.below), keep(l.above())
		switch {
		case above && !below:
			out = append(out, half{from: l.a, to: l.b})
		case below && !above:
			out = append(out, half{from: l.b, to: l.a})
		}
	}
	return out
}

// deal sorts halves by the node they leave, in the order they come.
func (t *tracer) deal(halves []half) {
	at := t.spot // borrowed: where the next half of a node goes
	for _, h := range halves {
		t.first[h.from+1]++
	}
	for v := range t.nodes {
		at[v] = t.first[v]
		t.first[v+1] += t.first[v]
	}
	t.out = make([]half, len(halves))
	for _, h := range halves {
		t.out[at[h.from]] = h
		at[h.from]++
	}
	for v := range t.spot {
		t.spot[v] = -1
	}
}

// walk follows the boundary from half h round to its beginning and cuts off a
// ring whenever it comes back to a node it has passed.
func (t *tracer) walk(h int32) {
	walk := []int32{t.out[h].from}
	t.spot[t.out[h].from] = 0
	for h >= 0 {
		t.out[h].used = true
		v := t.out[h].to
		if k := t.spot[v]; k >= 0 {
			t.emit(walk[k:])
			for _, u := range walk[k+1:] {
				t.spot[u] = -1
			}
			walk = walk[:k+1]
		} else {
			t.spot[v] = int32(len(walk))
			walk = append(walk, v)
		}
		h = t.follow(t.out[h].from, v)
	}
	for _, u := range walk {
		t.spot[u] = -1
	}
}

// follow returns the unused half that leaves v next clockwise (in the sense
// of negative area) from the way back to u, or −1 when the walk is over.
func (t *tracer) follow(u, v int32) int32 {
	best := int32(-1)
	for i := t.first[v]; i < t.first[v+1]; i++ {
		if t.out[i].used {
			continue
		}
		if best < 0 || sooner(t.nodes[v], t.nodes[u], t.nodes[t.out[i].to], t.nodes[t.out[best].to]) {
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
func (t *tracer) emit(walk []int32) {
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
		return n > 1 && t.plain(last) && side(r[n-2], r[n-1], p) == 0
	}
	for i := range walk {
		v := walk[(low+i)%len(walk)]
		if needless(t.nodes[v]) {
			r = r[:len(r)-1]
		}
		r, last = append(r, t.nodes[v]), v
	}
	if needless(r[0]) {
		r = r[:len(r)-1]
	}
	if d := r.doubled(); d <= -minDoubled || d >= minDoubled {
		t.rings = append(t.rings, r)
	}
}

// plain reports whether the boundary passes v only once, so that v may go
// where it lies on a straight line. Points where rings touch must stay.
func (t *tracer) plain(v int32) bool { return t.first[v+1]-t.first[v] == 1 }

// compareRings orders rings by their first points, so that the same area is
// always listed the same way and an outer ring comes before its holes.
func compareRings(a, b gridRing) int {
	if c := cmp.Compare(a[0].key(), b[0].key()); c != 0 {
		return c
	}
	return slices.CompareFunc(a[1:], b[1:], func(p, q gridPt) int { return cmp.Compare(p.key(), q.key()) })
}
