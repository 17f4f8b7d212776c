package nest

import (
	"fmt"
	"sort"
)

// missing reports the copies that no place was found for.
func (p *problem) missing(l *Layout, g *group, s *state, next []int) {
	type key struct{ blank, piece int }
	n := map[key]int{}
	var keys []key
	for i := range g.pieces {
		for _, r := range g.pieces[i].refs[next[i]:] {
			k := key{r.blank, i}
			if n[k] == 0 {
				keys = append(keys, k)
			}
			n[k]++
		}
	}
	sort.Slice(keys, func(i, j int) bool { return keys[i].blank < keys[j].blank })
	for _, k := range keys {
		reason, remedy := g.why(int32(k.piece))
		l.Unplaced = append(l.Unplaced, Unplaced{p.blanks[k.blank].ID, n[k], reason, remedy})
	}
}

// why says why a piece has no place, and what stock would do.
func (g *group) why(p int32) (reason, remedy string) {
	pc := &g.pieces[p]
	w, h := mm(pc.w-g.gap), mm(pc.h-g.gap)
	size := fmt.Sprintf("%g × %g mm", w, h)
	if len(g.kinds) == 0 {
		return "there is no stock of this tissue", "a sheet with room for " + size + " within its margins"
	}
	turned, fits := false, false
	for k := range g.kinds {
		kd := &g.kinds[k]
		fits = fits || g.fits(p, int32(k))
		turned = turned || pc.h <= kd.w && pc.w <= kd.h
	}
	switch {
	case fits:
		return "all stock that it fits is full", "more sheets of the same size"
	case turned:
		return "it fits no sheet with the grain as it must run", "a sheet with room for " + size + " (across × along the grain), or let it be turned"
	}
	return "it is larger than every sheet within its margins", "a sheet with room for " + size + " (across × along the grain), or divide the piece"
}
