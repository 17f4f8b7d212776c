package nest

import (
	"fmt"
	"sort"
)

// missing reports the copies that no place was found for: of each piece all
// but the first so many.
func (p *problem) missing(l *Layout, g *group, placed []int) {
	type lack struct{ blank, n, piece int }
	var lacks []lack
	add := func(refs []ref, i int) {
		for _, r := range refs {
			if k := len(lacks) - 1; k >= 0 && lacks[k].blank == r.blank {
				lacks[k].n++
			} else {
				lacks = append(lacks, lack{r.blank, 1, i})
			}
		}
	}
	for i := range g.pieces {
		add(g.pieces[i].refs[placed[i]:], i)
	}
	for i := range g.never {
		add(g.never[i].refs, len(g.pieces)+i)
	}
	sort.SliceStable(lacks, func(i, j int) bool { return lacks[i].blank < lacks[j].blank })
	for _, k := range lacks {
		var reason, remedy string
		if k.piece < len(g.pieces) {
			reason, remedy = g.why(&g.pieces[k.piece])
		} else {
			reason, remedy = g.why(&g.never[k.piece-len(g.pieces)])
		}
		l.Unplaced = append(l.Unplaced, Unplaced{p.blanks[k.blank].ID, k.n, reason, remedy})
	}
}

// why says why a piece has no place, and what stock would do.
func (g *group) why(pc *piece) (reason, remedy string) {
	w, h := mm(pc.w-g.gap), mm(pc.h-g.gap)
	size := fmt.Sprintf("%g × %g mm", w, h)
	if len(g.kinds) == 0 {
		return "there is no stock of this tissue", "a sheet with room for " + size + " within its margins"
	}
	turned, fits := false, false
	for k := range g.kinds {
		kd := &g.kinds[k]
		across := pc.h <= kd.w && pc.w <= kd.h
		turned = turned || across
		fits = fits || pc.w <= kd.w && pc.h <= kd.h || pc.free && across
	}
	switch {
	case fits:
		return "all stock that it fits is full", "more sheets of the same size"
	case turned:
		return "it fits no sheet with the grain as it must run", "a sheet with room for " + size + " (across × along the grain), or let it be turned"
	}
	return "it is larger than every sheet within its margins", "a sheet with room for " + size + " (across × along the grain), or divide the piece"
}
