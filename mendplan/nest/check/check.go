// Package check tests a layout of blanks on sheets without any knowledge of
// how it was found. It shares no code with the solver: it reads the layout
// and the input, and does its own sums.
//
// [Layout] looks for every fault it knows: a blank outside its sheet's
// margins, nearer to another than the gap, turned against the grain, missing
// or twice there, unequal to its blank, more copies of stock than there are,
// a sheet that straight cuts from edge to edge cannot take apart, cuts listed
// that do not free each piece, areas that do not add up.
package check

import (
	"errors"
	"fmt"
	"math"

	"leafmend/mendplan/nest"
)

// slack is how far apart two lengths may be that ought to be equal, mm: the
// layout counts whole micrometres.
const slack = 0.0015

// Layout reports all faults of a layout of the blanks on the stock; nil if
// there is none.
func Layout(blanks []nest.Blank, stock []nest.Stock, opt nest.Options, l nest.Layout) error {
	c := &checker{blanks: map[string]nest.Blank{}, stock: map[string]nest.Stock{}, gap: opt.Gap}
	for _, b := range blanks {
		if _, there := c.blanks[b.ID]; b.Count > 0 && !there {
			c.blanks[b.ID] = b
		}
	}
	for _, s := range stock {
		c.stock[s.ID] = s
	}
	for i := range l.Sheets {
		c.sheet(&l.Sheets[i])
	}
	c.counts(blanks, stock, &l)
	c.sums(&l)
	return errors.Join(c.faults...)
}

type checker struct {
	blanks map[string]nest.Blank
	stock  map[string]nest.Stock
	gap    float64
	faults []error
	at     string // the sheet looked at
}

func (c *checker) fault(format string, a ...any) {
	c.faults = append(c.faults, fmt.Errorf(c.at+format, a...))
}

// near says whether two lengths are equal.
func near(a, b float64) bool { return math.Abs(a-b) <= slack }

// sheet checks one sheet for itself.
func (c *checker) sheet(s *nest.Sheet) {
	c.at = fmt.Sprintf("sheet %s/%d: ", s.Stock, s.Copy)
	defer func() { c.at = "" }()
	st, ok := c.stock[s.Stock]
	if !ok {
		c.fault("there is no such stock")
		return
	}
	if !near(s.W, st.W) || !st.Roll && !near(s.H, st.H) || st.Roll && st.H > 0 && s.H > st.H+slack {
		c.fault("it measures %g × %g, the stock %g × %g", s.W, s.H, st.W, st.H)
	}
	for i, p := range s.Places {
		c.place(s, st, p)
		for _, q := range s.Places[:i] {
			apart := max(q.X-p.X-p.W, p.X-q.X-q.W, q.Y-p.Y-p.H, p.Y-q.Y-q.H)
			if apart < c.gap-slack {
				c.fault("%s and %s are %.3f apart, less than the gap", p.Blank, q.Blank, apart)
			}
		}
	}
	if err := guillotine(s); err != nil {
		c.fault("%v", err)
	}
	if err := cuts(s); err != nil {
		c.fault("%v", err)
	}
}

// place checks one blank on its sheet.
func (c *checker) place(s *nest.Sheet, st nest.Stock, p nest.Place) {
	b, ok := c.blanks[p.Blank]
	if !ok {
		c.fault("%s is no blank", p.Blank)
		return
	}
	w, h := b.W, b.H
	if p.Turned {
		w, h = h, w
		if b.Turn == nest.Fixed {
			c.fault("%s is turned against the grain", p.Blank)
		}
	}
	if !near(p.W, w) || !near(p.H, h) {
		c.fault("%s is %g × %g and ought to be %g × %g", p.Blank, p.W, p.H, w, h)
	}
	m := st.Margin
	if p.X < m.Left-slack || p.Y < m.Top-slack || p.X+p.W > s.W-m.Right+slack || p.Y+p.H > s.H-m.Bottom+slack {
		c.fault("%s at %g, %g reaches into the margin", p.Blank, p.X, p.Y)
	}
	if b.Group != st.Group {
		c.fault("%s is of %q, the sheet of %q", p.Blank, b.Group, st.Group)
	}
}

// counts checks that every copy of every blank is there once, or reported,
// that no more stock is used than there is, and that what is pinned stayed.
func (c *checker) counts(blanks []nest.Blank, stock []nest.Stock, l *nest.Layout) {
	placed := c.sheets(l)
	for _, u := range l.Unplaced {
		placed.of[u.Blank] += u.Count
		if u.Reason == "" {
			c.fault("no reason is given why %s has no place", u.Blank)
		}
	}
	asked := map[string]int{}
	for _, b := range blanks {
		asked[b.ID] += max(0, b.Count)
	}
	for _, b := range blanks {
		if placed.of[b.ID] != asked[b.ID] {
			c.fault("%d of %s are accounted for, %d were asked for", placed.of[b.ID], b.ID, asked[b.ID])
		}
		c.pins(b, placed)
	}
}

// copyOf is one copy of a blank or of a stock.
type copyOf struct {
	id string
	n  int
}

// placing is what lies where.
type placing struct {
	at    map[copyOf]nest.Place
	sheet map[copyOf]copyOf // that a copy of a blank lies on
	of    map[string]int    // how many copies of a blank have a place
}

// sheets checks that no sheet and no copy is there twice and that there is as
// much of each stock as is used.
func (c *checker) sheets(l *nest.Layout) placing {
	out := placing{map[copyOf]nest.Place{}, map[copyOf]copyOf{}, map[string]int{}}
	used, length := map[copyOf]bool{}, map[copyOf]float64{}
	for _, s := range l.Sheets {
		sheet := copyOf{s.Stock, s.Copy}
		if used[sheet] && !s.Roll {
			c.fault("sheet %s/%d is listed twice", s.Stock, s.Copy)
		}
		used[sheet] = true
		if length[sheet] += s.H; s.Roll && c.stock[s.Stock].H > 0 && length[sheet] > c.stock[s.Stock].H+slack {
			c.fault("%g mm are cut off roll %s/%d, which is shorter", length[sheet], s.Stock, s.Copy)
		}
		if n := c.stock[s.Stock].Copies; s.Copy < 0 || n >= 0 && s.Copy >= n {
			c.fault("there is no copy %d of %s", s.Copy, s.Stock)
		}
		for _, p := range s.Places {
			k := copyOf{p.Blank, p.Index}
			if _, twice := out.at[k]; twice || p.Index < 0 || p.Index >= c.blanks[p.Blank].Count {
				c.fault("copy %d of %s is there twice or was not asked for", p.Index, p.Blank)
			}
			out.at[k], out.sheet[k] = p, sheet
			out.of[p.Blank]++
		}
	}
	return out
}

// pins checks that what is pinned has stayed. A pin without a place is told
// as unplaced, or the counts are wrong.
func (c *checker) pins(b nest.Blank, placed placing) {
	for _, pin := range b.Pins {
		k := copyOf{b.ID, pin.Index}
		p, ok := placed.at[k]
		if ok && (!near(p.X, pin.X) || !near(p.Y, pin.Y) || p.Turned != pin.Turned || placed.sheet[k] != (copyOf{pin.Stock, pin.Copy})) {
			c.fault("copy %d of %s was pinned and moved", pin.Index, b.ID)
		}
	}
}

// sums checks the areas the layout states.
func (c *checker) sums(l *nest.Layout) {
	var opened, placed, kept float64
	best := map[string]float64{}
	for _, s := range l.Sheets {
		opened += s.W * s.H
		for _, p := range s.Places {
			placed += p.W * p.H
		}
		for _, r := range s.Remnants {
			if r.Keep && r.W*r.H > best[s.Group] {
				kept += r.W*r.H - best[s.Group]
				best[s.Group] = r.W * r.H
			}
		}
	}
	eq := func(what string, got, want float64) {
		if math.Abs(got-want) > 1e-6*max(1, want) {
			c.fault("%s is stated as %g and adds up to %g", what, got, want)
		}
	}
	eq("the area opened", l.Opened, opened)
	eq("the area placed", l.Placed, placed)
	eq("the remnants kept", l.Kept, kept)
	if l.Bound > l.Use()*(1+1e-9) && len(l.Unplaced) == 0 {
		c.fault("the use %g is less than its bound %g", l.Use(), l.Bound)
	}
}
