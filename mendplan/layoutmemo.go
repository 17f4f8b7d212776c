package mendplan

import (
	"fmt"
	"slices"
	"strings"
	"sync"

	"leafmend/mendplan/nest"
)

// LayoutMemo remembers the layouts of a job that is being worked on, so that
// an edit that changes no blank, or an undo, brings the same sheets back at
// once, and what a long search found is not lost to a short one. The zero
// value is empty; a nil one remembers nothing. It may be used from several
// goroutines.
type LayoutMemo struct {
	mu   sync.Mutex
	kept []keptLayout // the latest last
}

type keptLayout struct {
	key    string
	blanks string // the same for layouts of the same blanks on other stock
	effort int
	layout nest.Layout
}

// mostLayouts bounds what is remembered: a few steps back for a few tissues.
const mostLayouts = 32

// find returns the layout of that key if as much work went into it as is
// offered now, or none could be better.
func (m *LayoutMemo) find(key string, effort int) (nest.Layout, bool) {
	if m == nil {
		return nest.Layout{}, false
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	for i := len(m.kept) - 1; i >= 0; i-- {
		if k := m.kept[i]; k.key == key && (k.effort >= effort || k.layout.Proven) {
			return k.layout, true
		}
	}
	return nest.Layout{}, false
}

// keep remembers l, unless a better layout of the same key is known; it
// returns the better one.
func (m *LayoutMemo) keep(key, blanks string, effort int, l nest.Layout) nest.Layout {
	if m == nil {
		return l
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	for i, k := range m.kept {
		if k.key != key {
			continue
		}
		if better(k.layout, l) {
			l = k.layout
		}
		effort = max(effort, k.effort)
		m.kept = slices.Delete(m.kept, i, i+1)
		break
	}
	m.kept = append(m.kept, keptLayout{key, blanks, effort, l})
	if len(m.kept) > mostLayouts {
		m.kept = slices.Delete(m.kept, 0, len(m.kept)-mostLayouts)
	}
	return l
}

// better reports whether a is the better layout of the same blanks and stock.
func better(a, b nest.Layout) bool {
	if len(a.Unplaced) != len(b.Unplaced) {
		return len(a.Unplaced) < len(b.Unplaced)
	}
	return fresh(a) < fresh(b) || fresh(a) == fresh(b) && a.Use() <= b.Use()
}

// fresh is the area of stock opened that was no remnant before.
func fresh(l nest.Layout) float64 {
	sum := 0.0
	for _, s := range l.Sheets {
		if !s.Remnant {
			sum += s.W * s.H
		}
	}
	return sum
}

// layoutKey is equal for layouts of the same blanks on the same stock by the
// same wishes.
func layoutKey(blanks []nest.Blank, stock []nest.Stock, opt nest.Options) string {
	var b strings.Builder
	b.WriteString(blanksKey(blanks, opt))
	b.WriteString("--\n")
	for _, s := range stock {
		fmt.Fprintf(&b, "%+v\n", s)
	}
	return b.String()
}

// blanksKey is equal for layouts of the same blanks by the same wishes.
func blanksKey(blanks []nest.Blank, opt nest.Options) string {
	var b strings.Builder
	for _, k := range blanks {
		fmt.Fprintf(&b, "%+v\n", k)
	}
	fmt.Fprintf(&b, "%g %g %g %g %d %+v\n", opt.Gap, opt.KeepW, opt.KeepH, opt.KeepArea, opt.Seed, opt.Weights)
	return b.String()
}

// others returns the layouts of the same blanks on whatever stock, so that
// more stock never makes a layout worse.
func (m *LayoutMemo) others(blanks string) []nest.Layout {
	if m == nil {
		return nil
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	var out []nest.Layout
	for _, k := range m.kept {
		if k.blanks == blanks {
			out = append(out, k.layout)
		}
	}
	return out
}
