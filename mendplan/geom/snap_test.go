package geom

import (
	"math/big"
	"math/rand/v2"
	"testing"
)

// checkNoding is the promise of noding: no two links cross properly, no node
// lies inside a link, the runs of each input balance at every node, and
// nothing winds outside. It reports how many places break it.
func checkNoding(nodes []gridPt, links []link) (faults []string) {
	fault := func(s string) {
		if len(faults) < 4 {
			faults = append(faults, s)
		}
	}
	balance := make([][2]int32, len(nodes))
	used := make([]bool, len(nodes))
	for i := range links {
		l := &links[i]
		used[l.a], used[l.b] = true, true
		for k := range 2 {
			balance[l.a][k] += l.d[k]
			balance[l.b][k] -= l.d[k]
		}
		a, b := nodes[l.a], nodes[l.b]
		for j := range links[:i] {
			m := &links[j]
			c, d := nodes[m.a], nodes[m.b]
			if min(a.x, b.x) <= max(c.x, d.x) && min(c.x, d.x) <= max(a.x, b.x) &&
				splits(a, b, c, d) && splits(c, d, a, b) {
				fault("two links cross")
			}
		}
	}
	for v, p := range nodes {
		if !used[v] {
			continue
		}
		if balance[v] != [2]int32{} {
			fault("runs do not balance at a node")
		}
		for i := range links {
			a, b := nodes[links[i].a], nodes[links[i].b]
			if p != a && p != b && side(a, b, p) == 0 && !p.before(a) && !b.before(p) {
				fault("a node lies inside a link")
			}
		}
	}
	return faults
}

// checkWindings compares the winding below every link, as the sweep found
// it, with a count along a ray from just below its middle.
func checkWindings(nodes []gridPt, links []link, stride int) (faults []string) {
	for i := 0; i < len(links); i += stride {
		l := &links[i]
		a, b := nodes[l.a], nodes[l.b]
		if a.x == b.x {
			continue
		}
		var w [2]int32
		for j := range links {
			m := &links[j]
			c, d := nodes[m.a], nodes[m.b]
			// Middles have halves: everything is doubled. Links over the same x
			// lie below when their height there is less.
			x2, y2 := int64(a.x)+int64(b.x), int64(a.y)+int64(b.y)
			if !(2*int64(c.x) <= x2 && x2 < 2*int64(d.x)) {
				continue
			}
			dx, dy := int64(d.x)-int64(c.x), int64(d.y)-int64(c.y)
			at := 2*int64(c.y)*dx + dy*(x2-2*int64(c.x))
			if at < y2*dx {
				w[0] += m.d[0]
				w[1] += m.d[1]
			}
		}
		if w != l.below {
			return append(faults, "the sweep and a ray disagree on a winding")
		}
	}
	return nil
}

func nodedRing(rings ...gridRing) ([]gridPt, []link) {
	l := new(loom)
	for i, r := range rings {
		l.add(i%2, 1, r)
	}
	l.node()
	l.sortLinks()
	l.wind()
	return l.nodes, l.links
}

func randomRing(rnd *rand.Rand, n, size int) gridRing {
	r := make(gridRing, n)
	for i := range r {
		r[i] = gridPt{int32(rnd.IntN(size)), int32(rnd.IntN(size))}
	}
	return r
}

func TestNodingLeavesNoCrossingAndNoTie(t *testing.T) {
	// Small lattices are the hard case: nearly every crossing is a tie or close
	// to one, and segments pass the corners of cells exactly.
	cases := []struct{ n, size, rounds int }{
		{5, 4, 3000}, {8, 6, 2000}, {12, 10, 1500}, {20, 16, 600}, {30, 40, 300}, {60, 200, 60}, {100, 100000, 10},
	}
	for _, c := range cases {
		for seed := range uint64(c.rounds) {
			rnd := rand.New(rand.NewPCG(seed, uint64(c.size)))
			nodes, links := nodedRing(randomRing(rnd, c.n, c.size), randomRing(rnd, c.n, c.size))
			for _, f := range append(checkNoding(nodes, links), checkWindings(nodes, links, 1)...) {
				t.Fatalf("%d points on a lattice of %d, seed %d: %s", c.n, c.size, seed, f)
			}
		}
	}
}

func TestCrossingsRoundHalvesUpInBothSigns(t *testing.T) {
	// math/big as the independent reference.
	rnd := rand.New(rand.NewPCG(3, 1))
	for range 20000 {
		bitsOf := func(n int) int64 { return rnd.Int64N(int64(1)<<(1+rnd.IntN(n))) + 1 }
		den := bitsOf(54) + 1
		num := rnd.Int64N(den-1) + 1
		d := bitsOf(25)
		if rnd.IntN(2) == 0 {
			d = -d
		}
		if rnd.IntN(4) == 0 { // force a tie
			den, num = 2*(den/2+1), den/2+1
			d |= 1
		}
		// floor((2·d·num + den) / (2·den))
		n := new(big.Int).Mul(big.NewInt(2*d), big.NewInt(num))
		n.Add(n, big.NewInt(den))
		want := new(big.Int).Div(n, big.NewInt(2*den)) // Euclidean: floor for a positive divisor
		if got := mulDiv(d, num, den); got != want.Int64() {
			t.Fatalf("mulDiv(%d, %d, %d) = %d, want %v", d, num, den, got, want)
		}
	}
}

func TestCellsOwnTheirLowerLeftCornerOnly(t *testing.T) {
	// A cell is [−½,½)²: a falling strand through (−½,−½) passes it, one
	// through (½,½) does not, nor does a rising one through either other corner.
	cases := []struct {
		name string
		a, b gridPt
		want bool
	}{
		{"falling through the lower left corner", gridPt{-3, 2}, gridPt{2, -3}, true},
		{"falling through the upper right corner", gridPt{-2, 3}, gridPt{3, -2}, false},
		{"rising through the lower right corner", gridPt{-2, -3}, gridPt{3, 2}, false},
		{"rising through the upper left corner", gridPt{-3, -2}, gridPt{2, 3}, false},
		{"through the middle", gridPt{-3, -3}, gridPt{3, 3}, true},
		{"just inside the lower edge", gridPt{-5, -1}, gridPt{4, 0}, true},
		{"level, a step beside", gridPt{-5, 1}, gridPt{5, 1}, false},
		{"upright through it", gridPt{0, -4}, gridPt{0, 4}, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := newStrand(c.a, c.b, 0, 1)
			nodes := []gridPt{{0, 0}}
			if got := len(passedCells(nil, nodes, 0, &s)) == 1; got != c.want {
				t.Errorf("passes the cell at the origin: %v, want %v", got, c.want)
			}
		})
	}
}

func TestPredicatesHoldAtTheLimitOfTheGrid(t *testing.T) {
	// The furthest corners: side must equal the same thing in big integers, and
	// two diagonals of everything must cross in the middle.
	m := int32(maxGrid)
	a, b, p := gridPt{-m, -m}, gridPt{m, m}, gridPt{-m, m}
	want := new(big.Int).Mul(big.NewInt(2*int64(m)), big.NewInt(2*int64(m)))
	if got := side(a, b, p); big.NewInt(got).Cmp(want) != 0 {
		t.Errorf("side = %d, want %v", got, want)
	}
	e, f := newStrand(a, b, 0, 1), newStrand(p, gridPt{m, -m}, 0, 1)
	if c, ok := crossing(&e, &f); !ok || c != (gridPt{0, 0}) {
		t.Errorf("the diagonals cross at %v (%v), want the origin", c, ok)
	}
}

func TestKeysSortByXThenYAndUnpack(t *testing.T) {
	ps := []gridPt{{-maxGrid, 5}, {-2, -1}, {-1, -7}, {-1, 3}, {0, 0}, {0, 1}, {9, -9}, {maxGrid, 0}}
	for i, p := range ps {
		if pointOf(p.key()) != p {
			t.Errorf("%v does not survive packing", p)
		}
		if i > 0 && !(ps[i-1].key() < p.key() && ps[i-1].before(p)) {
			t.Errorf("%v should sort before %v", ps[i-1], p)
		}
	}
}
