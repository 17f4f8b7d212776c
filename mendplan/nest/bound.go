package nest

import (
	"math"
	"slices"
)

// bound is a use, µm², that no layout of the group can go below, when the
// largest remnant counts as saved by a share.
func (g *group) bound(share float64) float64 {
	open := g.openBound()
	if !g.keeps || share <= 0 {
		return open
	}
	if g.discounted {
		big := 0.0
		for i := range g.kinds {
			big = max(big, float64(g.kinds[i].fullW)*float64(g.kinds[i].fullH))
		}
		return max(0, open-share*big)
	}
	// what is kept has no blanks in it: kept ≤ opened − net
	return (1-share)*open + min(share, 1)*(g.net()-g.openRoom())
}

// net is the area that all blanks take up for certain, µm². With margins of
// half the gap or more each blank has half a gap around it to itself.
func (g *group) net() float64 {
	rim := true
	for i := range g.kinds {
		k := &g.kinds[i]
		rim = rim && k.least*2 >= g.gap && !k.open
	}
	sum := 0.0
	for i := range g.pieces {
		p := &g.pieces[i]
		if rim {
			sum += p.area * float64(p.count)
		} else {
			sum += float64(p.w-g.gap) * float64(p.h-g.gap) * float64(p.count)
		}
	}
	return sum
}

// openBound is an area of stock, µm², that must be opened at the least.
func (g *group) openBound() float64 {
	for i := range g.kinds {
		if g.kinds[i].open || g.kinds[i].roll {
			return g.looseBound()
		}
	}
	if len(g.kinds) == 1 {
		return g.kinds[0].cost * float64(g.sheetBound(g.kinds[0].w, g.kinds[0].h))
	}
	var w, h int32
	for i := range g.kinds {
		w, h = max(w, g.kinds[i].w), max(h, g.kinds[i].h)
	}
	return g.leastStock(g.sheetBound(w, h))
}

// looseBound is by area alone, for rolls and sheets opened already.
func (g *group) looseBound() float64 {
	need := -g.openRoom()
	for i := range g.pieces {
		p := &g.pieces[i]
		need += float64(p.w-g.gap) * float64(p.h-g.gap) * float64(p.count)
	}
	return max(0, need)
}

// openRoom is the area of the empty parts of sheets opened already, µm².
func (g *group) openRoom() float64 {
	a := 0.0
	for i := range g.kinds {
		if k := &g.kinds[i]; k.open {
			a += float64(k.fullW) * float64(k.fullH)
		}
	}
	return a
}

// leastStock is the least cost of stock with room for all blanks by area, in
// at least n sheets: a knapsack, searched depth first and given up for the
// bound of fractions when it grows too long.
func (g *group) leastStock(n int) float64 {
	need := 0.0
	for i := range g.pieces {
		need += g.pieces[i].area * float64(g.pieces[i].count)
	}
	type item struct {
		room, cost float64
		copies     int32
	}
	var it []item
	for i := range g.kinds {
		k := &g.kinds[i]
		usable := false
		for p := range g.pieces {
			usable = usable || g.fits(int32(p), int32(i))
		}
		if usable && k.copies > 0 {
			it = append(it, item{float64(k.w) * float64(k.h), k.cost, k.copies})
		}
	}
	slices.SortStableFunc(it, func(a, b item) int {
		switch x, y := a.cost/a.room, b.cost/b.room; {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	if len(it) == 0 {
		return 0
	}
	part := func(i int, need float64) float64 { // by fractions
		c := 0.0
		for ; i < len(it) && need > 0; i++ {
			take := min(need, it[i].room*float64(it[i].copies))
			c += take / it[i].room * it[i].cost
			need -= take
		}
		return c
	}
	least := math.Inf(1)
	for i := range it {
		least = min(least, it[i].cost)
	}
	best, steps := math.Inf(1), 0
	var dive func(i int, need, cost float64, n int)
	dive = func(i int, need, cost float64, n int) {
		steps++
		if steps > 200000 || max(cost+part(i, need), cost+float64(max(n, 0))*least) >= best-1 {
			return
		}
		if need <= 0 && n <= 0 {
			best = cost
			return
		}
		if i == len(it) {
			return
		}
		most := int32(min(max(math.Ceil(need/it[i].room), float64(n)), float64(it[i].copies)))
		for k := most; k >= 0; k-- {
			dive(i+1, need-float64(k)*it[i].room, cost+float64(k)*it[i].cost, n-int(k))
		}
	}
	dive(0, need, 0, n)
	if steps > 200000 || math.IsInf(best, 1) {
		return max(part(0, need), float64(n)*least)
	}
	return best
}
