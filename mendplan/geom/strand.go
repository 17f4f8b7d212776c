package geom

import (
	"slices"
	"sync"
)

// strand is a straight edge before noding, from a to b with a before b, and
// how often each of two inputs runs along it: forwards less backwards.
type strand struct {
	a, b gridPt
	d    [2]int32
	back bool // whether its ring runs from b to a
}

// newStrand returns the strand for one run from p to q.
func newStrand(p, q gridPt, input int, runs int32) strand {
	s := strand{a: p, b: q}
	if q.before(p) {
		s = strand{a: q, b: p, back: true}
		runs = -runs
	}
	s.d[input] = runs
	return s
}

// start returns the end of s at which its ring enters it. As rings are
// closed, every end of a strand is the start of one.
func (s *strand) start() gridPt {
	if s.back {
		return s.b
	}
	return s.a
}

// loom holds what one overlay works on, so that the next can use the memory
// again. Rings go in with add, resolve gives the answer; a loom works once
// between taking and giving back.
type loom struct {
	strands, sorted []strand
	order, hot      []uint64
	nodes           []gridPt // where strands meet, by x, then y
	loose, links    []link   // as cut, and sorted and joined
	first, spot     []int32  // by node: where its links or halves begin; scratch
	passed, active  []int32
	fan, walked     []int32
	halves, out     []half
	rings           []gridRing

	lone gridRing // the ring put in, while it is the only one
	runs [2]int32 // and how often each input runs through it
}

var looms = sync.Pool{New: func() any { return new(loom) }}

// newLoom takes an empty loom.
func newLoom() *loom { return looms.Get().(*loom) }

// free gives l back. Rings it returned stay valid.
func (l *loom) free() {
	l.strands, l.rings, l.lone = l.strands[:0], nil, nil
	looms.Put(l)
}

// add puts in the edges of rings as the given input, each run through the
// given number of times.
func (l *loom) add(input int, runs int32, rings ...gridRing) {
	for _, r := range rings {
		if len(r) < 2 {
			continue
		}
		l.runs = [2]int32{}
		if l.lone = nil; len(l.strands) == 0 {
			l.lone, l.runs[input] = r, runs
		}
		p := r[len(r)-1]
		for _, q := range r {
			if p != q {
				l.strands = append(l.strands, newStrand(p, q, input, runs))
			}
			p = q
		}
	}
}

// resolve is the whole overlay: node, wind, trace. It returns the rings around
// all places that keep holds for.
func (l *loom) resolve(keep rule) []gridRing {
	if len(l.strands) == 0 {
		return nil
	}
	turned := l.upright()
	if l.node(); l.simple() {
		return l.alone(keep)
	}
	l.sortLinks()
	l.wind()
	rings := l.trace(keep)
	if turned {
		turnBack(rings)
	}
	return rings
}

// simple reports, after noding, whether all there is is one ring that nowhere
// meets itself: as many nodes and links as it has points.
func (l *loom) simple() bool {
	n := len(l.lone)
	return n > 2 && len(l.strands) == n && len(l.nodes) == n && len(l.loose) == n
}

// alone is the answer for a simple ring: all of it or nothing.
func (l *loom) alone(keep rule) []gridRing {
	r := l.lone
	if r.doubled() < 0 {
		r = slices.Clone(r)
		slices.Reverse(r)
		l.runs = [2]int32{-l.runs[0], -l.runs[1]}
	}
	if !keep(l.runs) {
		return nil
	}
	out := r.tidied()
	if out.doubled() < minDoubled {
		return nil
	}
	return []gridRing{out}
}

// upright mirrors strands at the diagonal when they reach further in y than
// in x, for the sweep runs in x and is quick when little is abreast.
func (l *loom) upright() bool {
	s := l.strands
	lo, hi := s[0].a, s[0].a
	for i := range s {
		p := s[i].start()
		lo.x, hi.x = min(lo.x, p.x), max(hi.x, p.x)
		lo.y, hi.y = min(lo.y, p.y), max(hi.y, p.y)
	}
	if hi.y-lo.y <= hi.x-lo.x {
		return false
	}
	for i := range s {
		a, b := gridPt{s[i].a.y, s[i].a.x}, gridPt{s[i].b.y, s[i].b.x}
		// Mirroring turns every winding about; so does swapping the ends.
		if b.before(a) {
			s[i].a, s[i].b, s[i].back = b, a, !s[i].back
		} else {
			s[i].a, s[i].b, s[i].d = a, b, [2]int32{-s[i].d[0], -s[i].d[1]}
		}
	}
	return true
}

// turnBack undoes upright in the rings of the answer.
func turnBack(rings []gridRing) {
	for _, r := range rings {
		slices.Reverse(r)
		for i, p := range r {
			r[i] = gridPt{p.y, p.x}
		}
		r.rotateToLowest()
	}
	slices.SortFunc(rings, compareRings)
}

// cleared returns s with n zeros in it, in its own memory if there is room.
func cleared(s []int32, n int) []int32 {
	s = slices.Grow(s[:0], n)[:n]
	clear(s)
	return s
}
