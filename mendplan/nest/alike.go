package nest

import (
	"fmt"
	"strings"
)

// Run is a number of sheets that are cut alike.
type Run struct {
	Sheet int   // index in Layout.Sheets of the first
	All   []int // indexes of all, the first included
}

// Runs gathers sheets that are cut alike: same size, same cuts. Each needs to
// be drawn and explained only once.
func (l Layout) Runs() []Run {
	var out []Run
	at := map[string]int{}
	for i := range l.Sheets {
		k := l.Sheets[i].pattern()
		j, ok := at[k]
		if !ok {
			j = len(out)
			at[k] = j
			out = append(out, Run{Sheet: i})
		}
		out[j].All = append(out[j].All, i)
	}
	return out
}

// pattern tells sheets apart that are cut differently, or into blanks of
// different names.
func (s *Sheet) pattern() string {
	var b strings.Builder
	fmt.Fprint(&b, s.Group, s.W, s.H, s.Roll)
	for _, p := range s.Places {
		fmt.Fprint(&b, "|", p.Blank, p.X, p.Y, p.W, p.H, p.Cut)
	}
	for _, c := range s.Cuts {
		fmt.Fprint(&b, "|", c.Part, c.Upright, c.At, c.Band)
	}
	return b.String()
}

// Pattern is equal for sheets of one size that are cut alike, whatever their
// pieces are called.
func (s *Sheet) Pattern() string {
	var b strings.Builder
	fmt.Fprint(&b, s.W, "|", s.H, "|", s.Roll, s.Remnant, s.Margin, s.Gap)
	for _, p := range s.Places {
		fmt.Fprintf(&b, "|%.3f %.3f %.3f %.3f %v", p.X, p.Y, p.W, p.H, p.Cut)
		if p.Share != nil {
			fmt.Fprint(&b, p.Name(), *p.Share) // parted by a line of its own
		}
	}
	for _, c := range s.Cuts {
		fmt.Fprintf(&b, "|%d %v %.3f %.3f", c.Part, c.Upright, c.At, c.Band)
	}
	return b.String()
}

// Offcuts are the remnants of the sheet worth keeping, as stock: what enters
// the store when the sheet has been cut. The names are the sheet's with a
// letter. What was the sheet's rim is still rim; the other edges are clean.
func (s *Sheet) Offcuts() []Stock {
	var out []Stock
	for _, r := range s.Remnants {
		if !r.Keep {
			continue
		}
		o := Stock{ID: fmt.Sprintf("%s-%d%c", s.Stock, s.Copy+1, 'a'+len(out)%26), Group: s.Group, W: r.W, H: r.H, Copies: 1, Remnant: true}
		if r.X < tiny {
			o.Margin.Left = s.Margin.Left
		}
		if r.Y < tiny {
			o.Margin.Top = s.Margin.Top
		}
		if s.W-r.X-r.W < tiny {
			o.Margin.Right = s.Margin.Right
		}
		if s.H-r.Y-r.H < tiny {
			o.Margin.Bottom = s.Margin.Bottom
		}
		if a := s.W * s.H; a > 0 {
			o.Price = s.Price * r.W * r.H / a
		}
		out = append(out, o)
	}
	return out
}

// Yield is the share of the opened stock, less what is kept of it, that
// became blanks; 0 when nothing is opened.
func (l Layout) Yield() float64 {
	if l.Opened-l.Kept <= 0 {
		return 0
	}
	return l.Placed / (l.Opened - l.Kept)
}
