package nest

import (
	"fmt"
	"math"
)

// read checks the input and splits it into groups.
func read(blanks []Blank, stock []Stock, opt Options) *problem {
	p := &problem{blanks: blanks, stock: stock, opt: opt}
	p.tidyOptions()
	p.usable, p.blankOK = make([]bool, len(stock)), make([]bool, len(blanks))
	p.readStock()
	p.checkBlanks()
	p.hold()
	p.readBlanks()
	for _, g := range p.groups {
		g.ready(p)
	}
	return p
}

func good(mm float64) bool { return mm >= 0 && mm <= maxMM } // false for NaN

// tidyOptions puts 0 for lengths that are none, and says so.
func (p *problem) tidyOptions() {
	fix := func(v *float64, what string, most float64) {
		if !(*v >= 0 && *v <= most) {
			p.note("the %s is %g, which cannot be; 0 is taken", what, *v)
			*v = 0
		}
	}
	fix(&p.opt.Gap, "gap", maxMM)
	fix(&p.opt.KeepW, "least width of a remnant", maxMM)
	fix(&p.opt.KeepH, "least height of a remnant", maxMM)
	fix(&p.opt.KeepArea, "least area of a remnant", maxMM*maxMM)
}

// readStock makes kinds of sheets, and empty parts of sheets opened already.
func (p *problem) readStock() {
	seen := map[string]bool{}
	for i, s := range p.stock {
		if why := s.fault(); why != "" {
			p.note("stock %q is left aside: %s", s.ID, why)
			continue
		}
		if seen[s.ID] {
			p.note("stock %q is listed twice; the second is left aside", s.ID)
			continue
		}
		seen[s.ID] = true
		g := p.group(s.Group)
		k := s.kind(g.gap)
		k.stock = i
		p.usable[i] = true
		g.kinds = append(g.kinds, k)
	}
}

// fault says what is wrong with a stock item, "" if nothing.
func (s Stock) fault() string {
	m := s.Margin
	switch {
	case !(s.W >= 0.001 && s.W <= maxMM):
		return fmt.Sprintf("its width is %g mm", s.W)
	case !s.Roll && !(s.H >= 0.001 && s.H <= maxMM), s.H > maxMM, math.IsNaN(s.H):
		return fmt.Sprintf("its height is %g mm", s.H)
	case !good(m.Left) || !good(m.Right) || !good(m.Top) || !good(m.Bottom):
		return "a margin is no length"
	case m.Left+m.Right > s.W-0.002 || !s.endless() && m.Top+m.Bottom > s.H-0.002:
		return "its margins leave no room"
	}
	return ""
}

func (s Stock) endless() bool { return s.Roll && s.H <= 0 }

// kind is the stock item in the solver's terms.
func (s Stock) kind(gap int32) kind {
	m := s.Margin
	k := kind{fullW: um(s.W), fullH: um(s.H), roll: s.Roll, copies: int32(min(s.Copies, 1<<20))}
	if s.endless() {
		k.fullH = um(maxMM)
	}
	k.w = k.fullW - um(m.Left) - um(m.Right) + gap
	k.h = k.fullH - um(m.Top) - um(m.Bottom) + gap
	k.ox, k.oy = um(m.Left), um(m.Top) // the paper begins at 0, 0
	k.rimX, k.rimY = um(max(m.Left, m.Right)), um(max(m.Top, m.Bottom))
	k.least = um(min(m.Left, m.Right, m.Top, m.Bottom))
	k.cost = float64(k.fullW) * float64(k.fullH)
	if s.Copies < 0 {
		k.copies = math.MaxInt32
	}
	return k
}

// checkBlanks reports bad blanks.
func (p *problem) checkBlanks() {
	seen := map[string]bool{}
	for i, b := range p.blanks {
		if b.Count <= 0 {
			continue
		}
		why := b.fault()
		if why == "" && seen[b.ID] {
			why = "another blank has the same name"
		}
		if why != "" {
			p.out = append(p.out, Unplaced{b.ID, b.Count, why, "correct the list of blanks"})
			continue
		}
		seen[b.ID], p.blankOK[i] = true, true
	}
}

// readBlanks joins blanks alike into pieces.
func (p *problem) readBlanks() {
	at := map[string]int{}
	for i, b := range p.blanks {
		if !p.blankOK[i] {
			continue
		}
		g := p.group(b.Group)
		w, h := um(b.W)+g.gap, um(b.H)+g.gap
		free := b.Turn == Free
		if free && w > h {
			// alike however listed
			w, h = h, w
		}
		key := fmt.Sprint(g.name, "|", w, "|", h, "|", free)
		j, ok := at[key]
		if !ok {
			j = len(g.pieces)
			at[key] = j
			g.pieces = append(g.pieces, piece{w: w, h: h, free: free, area: float64(w) * float64(h)})
		}
		pc := &g.pieces[j]
		for c := range b.Count {
			if r := (ref{i, c}); !p.pinned[r] {
				pc.refs = append(pc.refs, r)
				g.copies++
			}
		}
		pc.count = int32(len(pc.refs))
	}
}

// maxCount is the most copies of all blanks together that are laid out.
const maxCount = 1 << 20

func (b Blank) fault() string {
	switch {
	case !(b.W >= 0.001 && b.W <= maxMM):
		return fmt.Sprintf("its width is %g mm", b.W)
	case !(b.H >= 0.001 && b.H <= maxMM):
		return fmt.Sprintf("its height is %g mm", b.H)
	case b.Count > maxCount:
		return fmt.Sprintf("%d copies are too many", b.Count)
	}
	return ""
}

// ready makes numbers of copies finite, no more sheets than blanks, and sets
// aside the pieces that fit no sheet there is.
func (g *group) ready(p *problem) {
	for i := range g.kinds {
		g.kinds[i].copies = min(g.kinds[i].copies, int32(g.copies))
	}
	var can []piece
	for i := range g.pieces {
		if g.pieces[i].count == 0 {
			continue // all are pinned
		}
		fits := false
		for k := range g.kinds {
			fits = fits || g.kinds[k].copies > 0 && g.fits(int32(i), int32(k))
		}
		if fits {
			can = append(can, g.pieces[i])
		} else {
			g.never = append(g.never, g.pieces[i])
			g.copies -= int(g.pieces[i].count)
		}
	}
	g.pieces = can
	g.leastW, g.leastH = math.MaxInt32, math.MaxInt32
	for _, p := range g.pieces {
		w, h := p.w, p.h
		if p.free {
			w, h = min(w, h), min(w, h)
		}
		g.leastW, g.leastH = min(g.leastW, w), min(g.leastH, h)
	}
	g.floor = g.bound(0.5) // see Layout.Use
	for _, h := range p.held {
		if p.stock[h.stock].Group == g.name {
			g.floor += float64(h.root.at.w) * float64(h.root.at.h)
		}
	}
	if less := 1 - min(1, p.opt.Weights.RemnantsFirst); less < 1 && p.opt.Weights.RemnantsFirst > 0 {
		g.discounted = true
		for i := range g.kinds {
			if p.stock[g.kinds[i].stock].Remnant {
				g.kinds[i].cost *= less
			}
		}
	}
}
