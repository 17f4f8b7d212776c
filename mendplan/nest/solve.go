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
			p.report(&l, g, newState(g))
			continue
		}
		share := p.share(i, spare)
		m := &improver{g: g, bound: g.bound(g.share)}
		m.begin(first(g))
		m.improve(ctx, share, opt, func(m *improver) {
			if opt.Progress != nil {
				opt.Progress(done+m.spent(), max(effort, 1), m.summary(p))
			}
		})
		m.tidy(ctx, opt.Weights, opt.Seed+1)
		done += m.spent()
		spare -= min(spare, m.spent())
		l.Bound += g.floor * 1e-6
		l.Proven = l.Proven && m.proven()
		from, lack := len(l.Sheets), len(l.Unplaced)
		p.report(&l, g, m.best)
		p.before(&l, g, from, lack)
	}
	l.Work = done
	l.Notes = p.notes
	l.Unplaced = append(l.Unplaced, p.out...)
	l.Proven = l.Proven && len(l.Unplaced) == 0
	l.finish()
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
	taken := map[ref]bool{}
	parts := map[int32]*tree{}
	for _, t := range s.trees {
		if g.kinds[t.kind].open {
			parts[t.kind] = t
		}
	}
	from := len(l.Sheets)
	for _, h := range p.held {
		if p.stock[h.stock].Group == g.name {
			// another length may be cut off the same roll
			taken[ref{h.stock, h.copy}] = !p.stock[h.stock].Roll
			l.Sheets = append(l.Sheets, p.drawHeld(g, h, parts, take))
		}
	}
	for _, t := range s.trees {
		k := &g.kinds[t.kind]
		if len(t.full) == 0 || k.open {
			continue
		}
		n := 0
		for taken[ref{k.stock, n}] {
			n++
		}
		taken[ref{k.stock, n}] = true
		l.Sheets = append(l.Sheets, p.drawTree(g, t, n, take))
	}
	order := map[string]int{}
	for i, st := range p.stock {
		order[st.ID] = i
	}
	slices.SortStableFunc(l.Sheets[from:], func(a, b Sheet) int {
		return cmp.Or(cmp.Compare(order[a.Stock], order[b.Stock]), cmp.Compare(a.Copy, b.Copy))
	})
	p.missing(l, g, next)
}

// drawTree draws a sheet as copy n of its stock.
func (p *problem) drawTree(g *group, t *tree, n int, take func(int32) ref) Sheet {
	k := &g.kinds[t.kind]
	sh := p.newSheet(k.stock, n)
	if sh.Roll {
		sh.H = mm(k.fullH - k.h + rollUsed(t))
		sh.Price *= sh.H / 1000
	}
	d := drawer{g: g, k: k, t: t, sheet: &sh, take: take, prob: p}
	sh.Root = d.draw()
	sh.cut()
	return sh
}

// newSheet is an empty sheet of that stock.
func (p *problem) newSheet(stock, n int) Sheet {
	st := p.stock[stock]
	return Sheet{Stock: st.ID, Copy: n, Group: st.Group, W: st.W, H: st.H,
		Remnant: st.Remnant, Roll: st.Roll, Price: st.Price, Margin: st.Margin, Gap: p.opt.Gap}
}

// drawHeld draws a sheet with pins, and what was laid in its empty parts.
func (p *problem) drawHeld(g *group, h *heldSheet, parts map[int32]*tree, take func(int32) ref) Sheet {
	sh := p.newSheet(h.stock, h.copy)
	if sh.Roll {
		sh.H = mm(h.root.at.h)
		sh.Price *= sh.H / 1000
	}
	d := drawer{g: g, sheet: &sh, take: take, prob: p}
	var walk func(f *fixed) *Node
	walk = func(f *fixed) *Node {
		switch {
		case f.pin >= 0:
			q := h.pins[f.pin]
			n := d.rect(f.at)
			n.Kind, n.Place = Piece, len(sh.Places)
			sh.Places = append(sh.Places, Place{Blank: p.blanks[q.ref.blank].ID, Index: q.ref.index,
				X: n.X, Y: n.Y, W: n.W, H: n.H, Turned: q.turned, Pinned: true, Cut: q.cut})
			return n
		case len(f.kids) > 0:
			n := d.rect(f.at)
			n.Upright = f.along
			for _, k := range f.kids {
				n.Children = append(n.Children, walk(k))
			}
			return n
		case f.kind >= 0 && parts[int32(f.kind)] != nil:
			d.k, d.t = &g.kinds[f.kind], parts[int32(f.kind)]
			return d.draw()
		}
		return d.remnant(f.at)
	}
	sh.Root = walk(h.root)
	sh.cut()
	return sh
}

// finish sums up.
func (l *Layout) finish() {
	kept := map[string]float64{}
	for _, s := range l.Sheets {
		l.Opened += s.W * s.H
		l.Price += s.Price
		l.Cuts += len(s.Cuts)
		l.Settings += s.Settings
		for _, pl := range s.Places {
			l.Placed += pl.W * pl.H
		}
		for _, r := range s.Remnants {
			if a := r.W * r.H; r.Keep && a > kept[s.Group] {
				l.Kept += a - kept[s.Group]
				kept[s.Group] = a
			}
		}
	}
}
