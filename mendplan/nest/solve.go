package nest

import (
	"cmp"
	"context"
	"slices"
)

// Solve lays the blanks on the stock. It returns when no better layout can
// exist, when the effort is spent, or when ctx is done, with the best layout
// found. Bad entries of the input are named in Unplaced and Notes.
func Solve(ctx context.Context, blanks []Blank, stock []Stock, opt Options) Layout {
	p := read(blanks, stock, opt)
	var l Layout
	effort := opt.Effort
	if effort == 0 {
		effort = DefaultEffort
	}
	done, spare := 0, max(effort, 0)
	l.Proven = true
	for i, g := range p.groups {
		if len(g.pieces) == 0 {
			p.missing(&l, g, nil)
			continue
		}
		share := p.share(i, spare)
		m := &improver{g: g, bound: g.bound()}
		m.begin(first(g))
		m.improve(ctx, share, opt, func(m *improver) {
			if opt.Progress != nil {
				opt.Progress(done+m.spent(), max(effort, 1), m.summary(p))
			}
		})
		done += m.spent()
		spare -= min(spare, m.spent())
		l.Bound += m.bound * 1e-6
		l.Proven = l.Proven && m.proven()
		p.report(&l, g, m.best)
	}
	l.Work = done
	l.Notes = p.notes
	l.Unplaced = append(l.Unplaced, p.out...)
	l.Proven = l.Proven && len(l.Unplaced) == 0
	l.finish(stock)
	return l
}

// share is the part of the effort still to spend that group i may take: by
// its number of blanks among the groups that are left.
func (p *problem) share(i, spare int) int {
	all := 0
	for _, g := range p.groups[i:] {
		all += g.copies
	}
	return int(float64(spare) * float64(p.groups[i].copies) / float64(max(1, all)))
}

// report adds the group's layout to l.
func (p *problem) report(l *Layout, g *group, s *state) {
	next := make([]int, len(g.pieces))
	take := func(i int32) ref {
		next[i]++
		return g.pieces[i].refs[next[i]-1]
	}
	trees := slices.Clone(s.trees)
	slices.SortStableFunc(trees, func(a, b *tree) int { return cmp.Compare(a.kind, b.kind) })
	used := make([]int32, len(g.kinds))
	for _, t := range trees {
		k := &g.kinds[t.kind]
		if len(t.full) == 0 && !k.open {
			continue
		}
		st := p.stock[k.stock]
		sh := Sheet{Stock: st.ID, Copy: int(k.first + used[t.kind]), Group: st.Group, W: st.W, H: st.H,
			Remnant: st.Remnant, Roll: st.Roll, Price: st.Price, Margin: st.Margin, Gap: p.opt.Gap}
		used[t.kind]++
		if st.Roll {
			sh.H = mm(k.fullH - k.h + rollUsed(t))
			sh.Price = st.Price * sh.H / 1000
		}
		d := drawer{g: g, k: k, t: t, sheet: &sh, take: take, prob: p}
		sh.Root = d.draw()
		sh.cut()
		l.Sheets = append(l.Sheets, sh)
		for _, pl := range sh.Places {
			l.Placed += pl.W * pl.H
		}
	}
	p.missing(l, g, next)
}

// finish sums up.
func (l *Layout) finish(stock []Stock) {
	kept := map[string]float64{}
	for _, s := range l.Sheets {
		l.Opened += s.W * s.H
		l.Price += s.Price
		l.Cuts += len(s.Cuts)
		l.Settings += s.Settings
		for _, r := range s.Remnants {
			if a := r.W * r.H; r.Keep && a > kept[s.Group] {
				l.Kept += a - kept[s.Group]
				kept[s.Group] = a
			}
		}
	}
}
