package geom

import (
	"cmp"
	"slices"
)

// unionChunk is how many edges one overlay of a union takes at most, where
// groups can be split: crossings grow with the square of what lies together.
const unionChunk = 1500

// unite joins groups of rings, each of which is an area by itself, in rounds:
// neighbours first, so that what is far apart meets only when it is small.
func unite(groups [][]gridRing) []gridRing {
	for len(groups) > 1 {
		var next [][]gridRing
		for len(groups) > 0 {
			n, edges := 0, 0
			for n < len(groups) && (n < 2 || edges+vertices(groups[n]) <= unionChunk) {
				edges += vertices(groups[n])
				n++
			}
			next = append(next, resolveAll(groups[:n]))
			groups = groups[n:]
		}
		groups = next
	}
	if len(groups) == 0 {
		return nil
	}
	return groups[0]
}

func resolveAll(groups [][]gridRing) []gridRing {
	l := newLoom()
	defer l.free()
	for _, rings := range groups {
		l.add(0, 1, rings...)
	}
	return l.resolve(positive)
}

func vertices(rings []gridRing) int {
	n := 0
	for _, r := range rings {
		n += len(r)
	}
	return n
}

// bunches groups areas so that bounds of different groups do not overlap,
// each in the order of its left edges; empty areas are left out.
func bunches(areas []Area) [][]Area {
	type boxed struct {
		a   Area
		box Box
	}
	var all []boxed
	for _, a := range areas {
		if !a.Empty() {
			all = append(all, boxed{a, a.Bounds()})
		}
	}
	slices.SortStableFunc(all, func(a, b boxed) int { return cmp.Compare(a.box.Min.X, b.box.Min.X) })
	group := make([]int, len(all)) // each points to an earlier member, the first to itself
	first := func(i int) int {
		for group[i] != i {
			group[i] = group[group[i]]
			i = group[i]
		}
		return i
	}
	var live []int // those the sweep in x has not left behind
	for i := range all {
		group[i] = i
		live = slices.DeleteFunc(live, func(j int) bool { return all[j].box.Max.X < all[i].box.Min.X })
		for _, j := range live {
			if all[j].box.Overlaps(all[i].box) {
				g, h := first(j), first(i)
				group[max(g, h)] = min(g, h)
			}
		}
		live = append(live, i)
	}
	var out [][]Area
	place := make([]int, len(all))
	for i, b := range all {
		if g := first(i); g != i {
			out[place[g]] = append(out[place[g]], b.a)
			continue
		}
		place[i] = len(out)
		out = append(out, []Area{b.a})
	}
	return out
}
