package nest

import "slices"

// figure is how good the layout of one group is: less is better, what waits
// first. All in µm², so that sums are exact.
type figure struct{ waits, use float64 }

func (f figure) less(o figure) bool {
	return f.waits < o.waits || f.waits == o.waits && f.use < o.use
}

// before takes over the layout of a group from one known before, if that is
// still possible and no worse. From is where the group's sheets begin in l,
// lack where its blanks without a place do.
func (p *problem) before(l *Layout, g *group, from, lack int) {
	for _, h := range p.held {
		if p.stock[h.stock].Group == g.name {
			return // what is held is not part of what was known
		}
	}
	now := p.figure(g, l.Sheets[from:], l.Unplaced[lack:])
	for _, k := range p.opt.Before {
		sheets, unplaced := p.ofGroup(g, k)
		if !p.possible(g, sheets, unplaced) {
			continue
		}
		if f := p.figure(g, sheets, unplaced); !now.less(f) {
			now = f
			l.Sheets = append(l.Sheets[:from:from], sheets...)
			l.Unplaced = append(l.Unplaced[:lack:lack], unplaced...)
		}
	}
}

// ofGroup is what of a layout belongs to a group.
func (p *problem) ofGroup(g *group, l Layout) (sheets []Sheet, unplaced []Unplaced) {
	for _, s := range l.Sheets {
		if s.Group == g.name {
			sheets = append(sheets, s)
		}
	}
	for _, u := range l.Unplaced {
		if i := p.blank(u.Blank); i >= 0 && p.blanks[i].Group == g.name {
			unplaced = append(unplaced, u)
		}
	}
	return sheets, unplaced
}

// blank is the index of a blank that is laid out, or −1.
func (p *problem) blank(id string) int {
	for i, b := range p.blanks {
		if b.ID == id && p.blankOK[i] {
			return i
		}
	}
	return -1
}

// figure adds up what waits and what is used.
func (p *problem) figure(g *group, sheets []Sheet, unplaced []Unplaced) figure {
	var f figure
	for _, u := range unplaced {
		b := p.blanks[p.blank(u.Blank)]
		f.waits += float64(um(b.W)+g.gap) * float64(um(b.H)+g.gap) * float64(u.Count)
	}
	kept := 0.0
	for _, s := range sheets {
		cost := float64(um(s.W)) * float64(um(s.H))
		if s.Remnant {
			cost *= 1 - min(1, max(0, p.opt.Weights.RemnantsFirst))
		}
		f.use += cost
		for _, r := range s.Remnants {
			if r.Keep {
				kept = max(kept, float64(um(r.W))*float64(um(r.H)))
			}
		}
	}
	f.use -= g.share * kept
	return f
}

// possible says whether the stock there is now would do for the sheets, and
// whether they and what found no place are all blanks of the group.
func (p *problem) possible(g *group, sheets []Sheet, unplaced []Unplaced) bool {
	type copyOf struct {
		stock string
		n     int
	}
	used, length := map[copyOf]bool{}, map[copyOf]float64{}
	left := map[string]int{}
	for i, b := range p.blanks {
		if p.blankOK[i] && b.Group == g.name {
			left[b.ID] += b.Count
		}
	}
	for _, s := range sheets {
		i := slices.IndexFunc(p.stock, func(t Stock) bool { return t.ID == s.Stock })
		if i < 0 || !p.usable[i] || s.Gap != p.opt.Gap || !p.stock[i].gives(s) {
			return false
		}
		c := copyOf{s.Stock, s.Copy}
		length[c] += s.H
		if used[c] && !s.Roll || s.Roll && !p.stock[i].endless() && length[c] > p.stock[i].H {
			return false
		}
		used[c] = true
		for _, q := range s.Places {
			j := p.blank(q.Blank)
			if j < 0 || q.Pinned || q.Share != nil || !p.blanks[j].is(q) {
				return false
			}
			left[q.Blank]--
		}
	}
	for _, u := range unplaced {
		left[u.Blank] -= u.Count
	}
	for _, n := range left {
		if n != 0 {
			return false
		}
	}
	return true
}

// gives says whether the sheet can be one of this stock.
func (t Stock) gives(s Sheet) bool {
	return t.Group == s.Group && t.W == s.W && (t.H == s.H || t.Roll) && t.Roll == s.Roll && t.Remnant == s.Remnant &&
		t.Margin == s.Margin && s.Copy >= 0 && (t.Copies < 0 || s.Copy < t.Copies)
}

// is says whether the place is as large as the blank.
func (b Blank) is(q Place) bool {
	w, h := b.W, b.H
	if q.Turned {
		w, h = h, w
	}
	return um(w) == um(q.W) && um(h) == um(q.H) && !(q.Turned && b.Turn == Fixed) && q.Index < b.Count
}
