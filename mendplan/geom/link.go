package geom

import "slices"

// link is a piece of strand between two nodes, given by their numbers a < b,
// and the winding of each input just below it, which the sweep fills in.
type link struct {
	a, b  int32
	d     [2]int32
	below [2]int32
}

// above returns the windings just above k.
func (k *link) above() [2]int32 {
	return [2]int32{k.below[0] + k.d[0], k.below[1] + k.d[1]}
}

// sortLinks sorts loose links by their ends and joins equal ones; runs that
// cancel vanish. Nodes are numbered, so links are dealt out by the first, and
// only the few that leave one node need comparing.
func (l *loom) sortLinks() {
	l.first = cleared(l.first, len(l.nodes)+1)
	for i := range l.loose {
		l.first[l.loose[i].a+1]++
	}
	for v := range l.nodes {
		l.first[v+1] += l.first[v]
	}
	l.links = slices.Grow(l.links[:0], len(l.loose))[:len(l.loose)]
	for i := range l.loose {
		at := &l.first[l.loose[i].a]
		l.links[*at] = l.loose[i]
		*at++
	}
	s := l.links
	for i := range s {
		for k := i; k > 0 && s[k-1].a == s[k].a && s[k-1].b > s[k].b; k-- {
			s[k-1], s[k] = s[k], s[k-1]
		}
	}
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
	l.links = out
}
