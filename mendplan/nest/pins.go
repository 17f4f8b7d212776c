package nest

import (
	"fmt"
	"slices"
)

// heldSheet is a copy of stock opened already, or with pinned pieces on it.
type heldSheet struct {
	stock, copy int
	pins        []heldPin
	root        *fixed
}

// heldPin is a blank that has its place, µm.
type heldPin struct {
	at     rect
	ref    ref
	turned bool
	cut    bool
}

// fixed is a node of the tree of cuts around pinned pieces: divided, a pin,
// an empty part to be filled (a kind of sheet of its own), or scrap.
type fixed struct {
	at    rect
	along bool
	kids  []*fixed
	pin   int // index in heldSheet.pins, or −1
	kind  int // index in group.kinds, or −1
}

// hold finds the sheets that are opened already and makes their empty parts
// stock that costs nothing. Pins that cannot be kept are reported.
func (p *problem) hold() {
	for i, s := range p.stock {
		if !s.Roll && p.usable[i] {
			for c := range s.Opened {
				if s.Copies < 0 || c < s.Copies {
					p.sheetHeld(i, c)
				}
			}
		}
	}
	p.pinned = map[ref]bool{}
	for i, b := range p.blanks {
		for _, pin := range b.Pins {
			if !p.blankOK[i] {
				continue
			}
			r := ref{i, pin.Index}
			if why := p.holdAt(b, r, pin); why != "" {
				p.note("copy %d of %s is not held at its pin: %s", pin.Index, b.ID, why)
				continue
			}
			p.pinned[r] = true
		}
	}
	for _, h := range p.held {
		p.grow(h)
		p.takeParts(h)
	}
}

// sheetHeld finds a copy of a stock among the sheets held, or takes it up.
func (p *problem) sheetHeld(stock, copy int) *heldSheet {
	for _, h := range p.held {
		if h.stock == stock && h.copy == copy {
			return h
		}
	}
	h := &heldSheet{stock: stock, copy: copy}
	p.held = append(p.held, h)
	return h
}

// holdAt puts one copy of a blank where it is pinned, or tells why it cannot
// be held there.
func (p *problem) holdAt(b Blank, r ref, pin Pin) (why string) {
	stock, at, why := p.pin(b, pin)
	if why != "" {
		return why
	}
	if p.pinned[r] {
		return "it is pinned twice"
	}
	h := p.sheetHeld(stock, pin.Copy)
	h.pins = append(h.pins, heldPin{at, r, pin.Turned, pin.Cut})
	if why = p.grow(h); why != "" {
		h.pins = h.pins[:len(h.pins)-1]
	}
	return why
}

// pin finds the stock and the rectangle of a pin, or says what is wrong.
func (p *problem) pin(b Blank, pin Pin) (stock int, at rect, why string) {
	if pin.Index < 0 || pin.Index >= b.Count {
		return 0, rect{}, "there is no such copy"
	}
	if pin.Turned && b.Turn == Fixed {
		return 0, rect{}, "it is turned against the grain"
	}
	w, h := um(b.W), um(b.H)
	if pin.Turned {
		w, h = h, w
	}
	if !good(pin.X) || !good(pin.Y) {
		return 0, rect{}, "it lies off the sheet"
	}
	at = rect{um(pin.X), um(pin.Y), w, h}
	for i, s := range p.stock {
		if s.ID != pin.Stock || !p.usable[i] {
			continue
		}
		room := p.sheetRoom(s)
		switch {
		case s.Group != b.Group:
			return 0, at, "the sheet is of another tissue"
		case pin.Copy < 0 || s.Copies >= 0 && pin.Copy >= s.Copies:
			return 0, at, "there is no such copy of the sheet"
		case !room.holds(at):
			return 0, at, "it reaches into the margin or off the sheet"
		}
		return i, at, ""
	}
	return 0, at, fmt.Sprintf("there is no stock %q", pin.Stock)
}

// sheetRoom is what of a sheet lies within its margins.
func (p *problem) sheetRoom(s Stock) rect {
	h := um(s.H)
	if s.endless() {
		h = um(maxMM)
	}
	m := s.Margin
	return rect{um(m.Left), um(m.Top), um(s.W) - um(m.Left) - um(m.Right), h - um(m.Top) - um(m.Bottom)}
}

func (r rect) holds(o rect) bool {
	return o.x >= r.x && o.y >= r.y && o.x+o.w <= r.x+r.w && o.y+o.h <= r.y+r.h
}

// grow makes the tree of cuts around a sheet's pins, or says why there is
// none.
func (p *problem) grow(h *heldSheet) (why string) {
	s := p.stock[h.stock]
	gap := um(p.opt.Gap)
	whole := rect{0, 0, um(s.W), um(s.H)}
	if s.Roll {
		whole.h = 0
		for _, q := range h.pins {
			whole.h = max(whole.h, q.at.y+q.at.h+um(s.Margin.Bottom))
		}
	}
	all := make([]int, len(h.pins))
	for i := range all {
		all[i] = i
		for j := range i {
			a, b := h.pins[i].at, h.pins[j].at
			if max(a.x-b.x-b.w, b.x-a.x-a.w, a.y-b.y-b.h, b.y-a.y-a.h) < gap {
				return "it lies closer to another pinned piece than the gap"
			}
		}
	}
	root := h.split(whole, all, gap)
	if root == nil {
		return "straight cuts cannot free it between the other pinned pieces"
	}
	h.root = root
	return ""
}

// split cuts r so that the pins in it come free and what is empty stays in
// large parts; nil if no straight cut does.
func (h *heldSheet) split(r rect, pins []int, gap int32) *fixed {
	f := &fixed{at: r, pin: -1, kind: -1}
	if len(pins) == 0 {
		return f
	}
	if len(pins) == 1 && h.pins[pins[0]].at == r {
		f.pin = pins[0]
		return f
	}
	var best []block
	var area int64 = -1
	for _, along := range []bool{true, false} {
		blocks := h.blocks(r, pins, gap, along)
		if len(blocks) == 1 && blocks[0].at == r {
			continue
		}
		var big int64
		for _, b := range blocks {
			if len(b.pins) == 0 {
				big = max(big, int64(b.at.w)*int64(b.at.h))
			}
		}
		if big > area {
			area, best, f.along = big, blocks, along
		}
	}
	if best == nil {
		return nil
	}
	for _, b := range best {
		k := h.split(b.at, b.pins, gap)
		if k == nil {
			return nil
		}
		f.kids = append(f.kids, k)
	}
	return f
}

// block is a slice of a part: pins that no line passes between, or none. Two
// blocks with pins lie the gap apart at least, since blanks may come to lie
// along their edges.
type block struct {
	at   rect
	pins []int
}

// blocks slices r along x or y.
func (h *heldSheet) blocks(r rect, pins []int, gap int32, along bool) []block {
	span := func(a rect) (int32, int32) {
		if along {
			return a.x, a.x + a.w
		}
		return a.y, a.y + a.h
	}
	slice := func(lo, hi int32) rect {
		if along {
			return rect{lo, r.y, hi - lo, r.h}
		}
		return rect{r.x, lo, r.w, hi - lo}
	}
	sorted := slices.Clone(pins)
	slices.SortStableFunc(sorted, func(a, b int) int {
		x, _ := span(h.pins[a].at)
		y, _ := span(h.pins[b].at)
		return int(x) - int(y)
	})
	at, end := span(r)
	var out []block
	for i := 0; i < len(sorted); {
		lo, hi := span(h.pins[sorted[i]].at)
		j := i + 1
		for ; j < len(sorted); j++ {
			a, b := span(h.pins[sorted[j]].at)
			if a < hi+gap { // no line with the gap about it passes between them
				hi = max(hi, b)
				continue
			}
			break
		}
		if lo-gap > at {
			out = append(out, block{at: slice(at, lo-gap)})
		}
		out = append(out, block{slice(lo, hi), sorted[i:j]})
		at, i = hi+gap, j
	}
	if at < end {
		out = append(out, block{at: slice(at, end)})
	}
	return out
}

// takeParts makes the empty parts of a held sheet kinds of stock, and takes
// the sheet off the stock.
func (p *problem) takeParts(h *heldSheet) {
	s := p.stock[h.stock]
	g := p.group(s.Group)
	for i := range g.kinds {
		if k := &g.kinds[i]; k.stock == h.stock && !k.open && k.copies > 0 && s.Copies >= 0 && !s.Roll {
			k.copies--
		} else if k.stock == h.stock && !k.open && s.Roll && !s.endless() {
			k.fullH -= h.root.at.h
			k.h -= h.root.at.h
			if k.h <= 0 {
				k.copies = 0
			}
			k.cost = float64(k.fullW) * float64(max(0, k.fullH))
		}
	}
	room := p.sheetRoom(s)
	room.h = min(room.h, h.root.at.h-um(s.Margin.Top)-um(s.Margin.Bottom)) // of a roll, what is cut off
	var walk func(f *fixed)
	walk = func(f *fixed) {
		for _, k := range f.kids {
			walk(k)
		}
		if f.pin >= 0 || len(f.kids) > 0 {
			return
		}
		x0, y0 := max(f.at.x, room.x), max(f.at.y, room.y)
		x1, y1 := min(f.at.x+f.at.w, room.x+room.w), min(f.at.y+f.at.h, room.y+room.h)
		if x1 <= x0 || y1 <= y0 {
			return
		}
		k := kind{w: x1 - x0 + g.gap, h: y1 - y0 + g.gap, fullW: f.at.w, fullH: f.at.h, ox: x0, oy: y0,
			ex: f.at.x, ey: f.at.y, copies: 1, open: true, stock: h.stock}
		k.rimX = max(x0-f.at.x, f.at.x+f.at.w-x1)
		k.rimY = max(y0-f.at.y, f.at.y+f.at.h-y1)
		f.kind = len(g.kinds)
		g.kinds = append(g.kinds, k)
	}
	walk(h.root)
}
