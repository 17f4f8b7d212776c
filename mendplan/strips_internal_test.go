package mendplan

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/geom"
)

// exhaustive tries every way to break a chain and returns the cheapest cost
// within the limits; ok is false when there is none. It shares with the
// solver what a strip and a joint are, and nothing of the search.
func exhaustive(c *chain) (best stripCost, ok bool) {
	n := len(c.places) - 1
	for mask := range 1 << (n - 1) {
		var strips []strip
		from, good := 0, true
		for to := 1; to <= n && good; to++ {
			if to < n && mask>>(to-1)&1 == 0 {
				continue
			}
			s := c.fit(from, to)
			if to > from+1 && (c.turned(from, to) > c.rules.turn || s.width > c.rules.widest+1e-9) {
				good = false
			}
			strips = append(strips, s)
			from = to
		}
		if cost, fits := joinAll(c, strips); good && fits && (!ok || cost.compare(best) < 0) {
			best, ok = cost, true
		}
	}
	return best, ok
}

// joinAll adds what the joints take and sums up.
func joinAll(c *chain, strips []strip) (stripCost, bool) {
	for k := 1; k < len(strips); k++ {
		ext := c.joint(strips[k-1], strips[k])
		strips[k-1].tail, strips[k].head = ext, ext
	}
	sum := stripCost{}
	for _, s := range strips {
		s.tab = c.rules.tab
		if s.length() > c.rules.longest+1e-9 {
			return sum, false
		}
		sum = sum.plus(costOf(s))
	}
	return sum, true
}

func TestStripsAreTheBestOfAllWays(t *testing.T) {
	compared := 0
	for i := range 3000 {
		r := rand.New(rand.NewPCG(uint64(i), 7))
		line := geom.Path{{X: 50, Y: 50}}
		heading, step := r.Float64()*2*math.Pi, 3+6*r.Float64()
		for range 2 + r.IntN(9) {
			heading += 0.4 * r.NormFloat64()
			sin, cos := math.Sincos(heading)
			line = append(line, line[len(line)-1].Add(geom.Pt{X: step * cos, Y: step * sin}))
		}
		k := stripRules{margins: margins{side: 5, end: 2 + 5*r.Float64(), overhang: 10}, least: 2 + 3*r.Float64(),
			width: 10, widest: 11 + 6*r.Float64(), longest: 30 + 30*r.Float64(), overlap: 1 + 4*r.Float64(), turn: 20 + 30*r.Float64()}
		if i%4 == 0 {
			k.tab = 5
		}
		c := chainOf(tearPath{line: line, start: pathEnd{place: line[0]}, end: pathEnd{place: line[len(line)-1]}}, k, nil)
		if len(c.places) > 13 {
			continue
		}
		want, ok := exhaustive(&c)
		strips, within := c.best()
		if within != ok {
			t.Fatalf("case %d: within limits %v, by trying all ways %v", i, within, ok)
		}
		if !ok {
			continue
		}
		compared++
		got := stripCost{}
		for _, s := range strips {
			got = got.plus(costOf(s))
		}
		if got != want {
			t.Errorf("case %d: got %+v, the best of all ways is %+v", i, got, want)
		}
	}
	if compared < 1500 {
		t.Errorf("only %d cases compared", compared)
	}
	t.Logf("%d cases compared", compared)
}

func TestStripCostsPutFewestPiecesBeforeLeastTissue(t *testing.T) {
	few, little := stripCost{1, 900, 0}, stripCost{2, 800, 0}
	if few.compare(little) >= 0 {
		t.Error("one strip of more tissue should come before two of less")
	}
	if (stripCost{2, 800, 50}).compare(stripCost{2, 800, 60}) >= 0 {
		t.Error("of equals, the more even should come first")
	}
}
