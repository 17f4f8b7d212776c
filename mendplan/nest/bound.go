package nest

import (
	"cmp"
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

// knapsack is the search for the cheapest stock with room enough.
type knapsack struct {
	items []stockItem // cheapest room first
	least float64     // cost of the cheapest
	best  float64
	steps int
}

// stockItem is a kind of sheet as the knapsack sees it.
type stockItem struct {
	room, cost float64
	copies     int32
}

// mostSteps is when a knapsack is given up for the bound of fractions.
const mostSteps = 200_000

// leastStock is the least cost of stock with room for all blanks by area, in
// at least n sheets: a knapsack, searched depth first and given up for the
// bound of fractions when it grows too long.
func (g *group) leastStock(n int) float64 {
	need := 0.0
	for i := range g.pieces {
		need += g.pieces[i].area * float64(g.pieces[i].count)
	}
	k := knapsack{items: g.stockItems(), least: math.Inf(1), best: math.Inf(1)}
	if len(k.items) == 0 {
		return 0
	}
	for _, it := range k.items {
		k.least = min(k.least, it.cost)
	}
	k.dive(0, need, 0, n)
	if k.steps > mostSteps || math.IsInf(k.best, 1) {
		return max(k.part(0, need), float64(n)*k.least)
	}
	return k.best
}

// stockItems are the kinds that some blank fits, cheapest room first.
func (g *group) stockItems() []stockItem {
	var out []stockItem
	for i := range g.kinds {
		k := &g.kinds[i]
		usable := false
		for p := range g.pieces {
			usable = usable || g.fits(int32(p), int32(i))
		}
		if usable && k.copies > 0 {
			out = append(out, stockItem{float64(k.w) * float64(k.h), k.cost, k.copies})
		}
	}
	slices.SortStableFunc(out, func(a, b stockItem) int { return cmp.Compare(a.cost/a.room, b.cost/b.room) })
	return out
}

// part is the cost of room from item i on, bought by fractions of sheets.
func (k *knapsack) part(i int, need float64) float64 {
	c := 0.0
	for ; i < len(k.items) && need > 0; i++ {
		it := k.items[i]
		take := min(need, it.room*float64(it.copies))
		c += take / it.room * it.cost
		need -= take
	}
	return c
}

// dive tries all numbers of item i, and those after it.
func (k *knapsack) dive(i int, need, cost float64, n int) {
	k.steps++
	if k.steps > mostSteps || max(cost+k.part(i, need), cost+float64(max(n, 0))*k.least) >= k.best-1 {
		return
	}
	if need <= 0 && n <= 0 {
		k.best = cost
		return
	}
	if i == len(k.items) {
		return
	}
	it := k.items[i]
	most := int32(min(max(math.Ceil(need/it.room), float64(n)), float64(it.copies)))
	for c := most; c >= 0; c-- {
		k.dive(i+1, need-float64(c)*it.room, cost+float64(c)*it.cost, n-int(c))
	}
}
