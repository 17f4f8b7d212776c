package mendplan

import (
	"context"
	"slices"

	"leafmend/mendplan/nest"
)

// Shaped pieces and infills leave much of their blanks empty. Two of them may
// share one blank, parted by one straight cut after it has come free. Only
// pieces that leave a fifth of their blank empty are looked at, the emptiest
// mostShapes of a tissue, and only pairs that save a tenth of what they take:
// less is not worth the cut (common practice, no source).
const (
	shapedShare = 0.8
	mostShapes  = 80
	worthShare  = 0.1
)

// sharing are the pairs of one tissue, by the name of the blank they share.
type sharing map[string]nest.Share

// interlocked lays one tissue out, with pairs of shaped pieces in one blank
// where that takes less tissue.
func (s Search) interlocked(ctx context.Context, job Job, pieces []Piece, tissue string, blanks []nest.Blank) nest.Layout {
	alone := s.solve(ctx, job, tissue, blanks)
	merged, pairs := share(job, pieces, blanks)
	if len(pairs) == 0 || alone.Proven && len(alone.Sheets) == 0 {
		return alone
	}
	shared := pairs.spread(s.solve(ctx, job, tissue, merged))
	if better(alone, shared) {
		return alone
	}
	return shared
}

// share pairs the shaped pieces among the blanks and returns the blanks with
// pairs merged. Pinned pieces stay alone.
func share(job Job, pieces []Piece, blanks []nest.Blank) ([]nest.Blank, sharing) {
	gap := InForce{Job: job.Rules}.Number(CutGap)
	shapes, fringe := shapesOf(pieces, blanks)
	pairs, gone, at := sharing{}, map[string]bool{}, map[string]int{}
	for i, b := range blanks {
		at[b.ID] = i
	}
	var out []nest.Blank
	for _, p := range nest.Interlock(shapes, 2*fringe+gap, 1) {
		a, b := blanks[at[p.A]], blanks[at[p.B]]
		m := nest.Blank{ID: p.A + " + " + p.B, W: p.W + 2*fringe, H: p.H + 2*fringe, Count: 1, Turn: a.Turn, Group: a.Group}
		taken := (a.W+gap)*(a.H+gap) + (b.W+gap)*(b.H+gap)
		gain := taken - (m.W+gap)*(m.H+gap)
		if gain < worthShare*taken {
			continue
		}
		own, other := middlesOf(shapes, p, fringe)
		x1, y1, x2, y2 := reachEdges(p, m.W, m.H, fringe)
		pairs[m.ID] = nest.Share{Blank: p.B, X1: x1, Y1: y1, X2: x2, Y2: y2,
			Own: own, Other: other, OwnAt: nest.XY{X: p.AX + fringe, Y: p.AY + fringe}, OtherAt: nest.XY{X: p.BX + fringe, Y: p.BY + fringe}, OtherTurned: p.Turned, OwnW: a.W, OwnH: a.H, OtherW: b.W, OtherH: b.H, Gain: gain}
		gone[p.A], gone[p.B] = true, true
		out = append(out, m)
	}
	for _, b := range blanks {
		if !gone[b.ID] {
			out = append(out, b)
		}
	}
	return out, pairs
}

// spread puts the two pieces of each pair in the place of their blank.
func (s sharing) spread(l nest.Layout) nest.Layout {
	l.Sheets = slices.Clone(l.Sheets) // the layout may be remembered as it is
	for i := range l.Sheets {
		places := slices.Clone(l.Sheets[i].Places)
		for k, p := range places {
			if pair, ok := s[p.Blank]; ok {
				h := p.H
				if p.Turned {
					h = p.W
				}
				places[k].Share = pair.On(p, h)
				places[k].Blank = p.Blank[:len(p.Blank)-len(" + ")-len(pair.Blank)]
			}
		}
		l.Sheets[i].Places = places
	}
	var unplaced []nest.Unplaced
	for _, u := range l.Unplaced {
		pair, ok := s[u.Blank]
		if !ok {
			unplaced = append(unplaced, u)
			continue
		}
		second := u
		u.Blank, second.Blank = u.Blank[:len(u.Blank)-len(" + ")-len(pair.Blank)], pair.Blank
		unplaced = append(unplaced, u, second)
	}
	l.Unplaced = unplaced
	return l
}
