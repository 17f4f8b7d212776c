package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// cutList prints the table of pieces and then every sheet with its cuts.
func (b *book) cutList() {
	if len(b.plan.Pieces) == 0 {
		return
	}
	b.part = "Cut list"
	next := func() float64 { b.page(false); return b.top() }
	y := next()
	b.font("B", 14)
	b.text(marginX, y+5, "Cut list")
	b.font("", 8.5)
	y = b.paragraph(marginX, y+11, b.w-2*marginX, 4, b.cutListIntro())
	cols := b.stretch([]column{{"", 6, false}, {"piece", 18, false}, {"leaf", 28, false}, {"side", 12, false}, {"tissue", 20, false},
		{"mend", 24, false}, {"along grain × across", 34, false}, {"grain", 22, false}, {"sheet", 12, true}}, 4)
	y = b.table(cols, b.pieceRows(), y+2, next)
	b.unplaced(y+6, next)
	n := 0
	for _, t := range b.plan.Layouts {
		for _, s := range t.Layout.Sheets {
			n++
			b.sheetPage(n, t.Tissue, s)
		}
	}
}

func (b *book) cutListIntro() string {
	sheets := 0
	for _, t := range b.plan.Layouts {
		sheets += len(t.Layout.Sheets)
	}
	return fmt.Sprintf("%s on %s. Sizes are those of the blanks, with room for a torn edge where that is asked for. "+
		"Letters in a label: f front, b back, as pasted. Keep fingers behind the ruler; use a metal rule and change blades with a tool.",
		count(len(b.plan.Pieces), "piece", "pieces"), count(sheets, "sheet", "sheets"))
}

func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}

func (b *book) pieceRows() [][]string {
	on := b.sheetNumbers()
	var rows [][]string
	for _, p := range b.plan.Pieces {
		leaf, _ := b.job.Leaf(p.Leaf)
		name := leaf.Name
		if name == "" {
			name = leaf.Mark
		}
		grain := "along"
		if p.GrainFree {
			grain = "any"
		}
		sheet := "none"
		if n := on[p.Label]; n > 0 {
			sheet = fmt.Sprint(n)
		}
		rows = append(rows, []string{box, p.Label, name, string(p.Side), b.tissueName(p.Tissue), string(p.Role),
			b.units.Size(p.BlankLengthMM, p.BlankWidthMM), grain, sheet})
	}
	return rows
}

// sheetNumbers tells for each piece on which sheet of the printed set it is.
func (b *book) sheetNumbers() map[string]int {
	on := map[string]int{}
	n := 0
	for _, t := range b.plan.Layouts {
		for _, s := range t.Layout.Sheets {
			n++
			for _, p := range s.Places {
				on[p.Blank] = n
			}
		}
	}
	return on
}

func (b *book) tissueName(id string) string {
	if t, ok := b.job.Tissue(id); ok && t.Name != "" {
		return t.Name
	}
	return id
}

// unplaced names what found no place, in full sentences.
func (b *book) unplaced(y float64, next func() float64) {
	var words []string
	for _, p := range b.plan.Problems {
		if p.Kind == mendplan.DoesNotFit || p.Kind == mendplan.NoStock {
			words = append(words, strings.TrimSpace(p.Words+" "+p.Hint))
		}
	}
	if len(words) == 0 {
		return
	}
	if y+12 > b.bottom() {
		y = next()
	}
	b.font("B", 9)
	b.text(marginX, y+4, "Not on any sheet")
	b.font("", 8)
	y += 9
	for _, s := range words {
		if y+8 > b.bottom() {
			y = next() + 4
			b.font("", 8)
		}
		y = b.paragraph(marginX, y, b.w-2*marginX, 4, s) + 1
	}
}

// sheetPage draws one sheet with its cuts and lists the steps.
func (b *book) sheetPage(n int, tissue string, s nest.Sheet) {
	next := func() float64 { b.page(false); return b.top() }
	y := next()
	b.font("B", 12)
	kind := "sheet"
	switch {
	case s.Remnant:
		kind = "remnant"
	case s.Roll:
		kind = "length off a roll"
	}
	b.textFit(marginX, y+4, b.w-2*marginX, fmt.Sprintf("Sheet %d: %s", n, b.tissueName(tissue)))
	b.font("", 8.5)
	b.text(marginX, y+9, fmt.Sprintf("Stock %s, %s %s; grain up the page; %s, %s", s.Stock, kind, b.units.Size(s.H, s.W),
		count(len(s.Places), "piece", "pieces"), count(len(s.Cuts), "cut", "cuts")))
	y = b.drawSheet(s, y+12)
	rows := make([][]string, len(s.Cuts))
	for i, c := range s.Cuts {
		rows[i] = b.cutRow(s, c)
	}
	cols := b.stretch([]column{{"", 6, false}, {"cut", 9, true}, {"lay before you", 24, false}, {"ruler from its", 24, false}, {"at", 22, true},
		{"on this side", 20, false}, {"beyond the ruler", 44, false}}, 5)
	if y+4*rowHeight > b.bottom() {
		y = next()
	}
	b.table(cols, rows, y+3, next)
}

// cutRow puts one cut into words.
func (b *book) cutRow(s nest.Sheet, c nest.Cut) []string {
	part := "the sheet"
	if c.Part > 0 {
		part = fmt.Sprintf("part %d", c.Part)
	}
	edge := "top edge"
	if c.Upright {
		edge = "left edge"
	}
	at := b.units.Length(c.At)
	if c.Again {
		at = "same, " + at
	}
	return []string{box, fmt.Sprint(c.Step), part, edge, at, b.partWords(s, c.Near), b.partWords(s, c.Far)}
}

func (b *book) partWords(s nest.Sheet, p nest.Part) string {
	switch {
	case p.Place >= 0 && p.Place < len(s.Places):
		return "piece " + s.Places[p.Place].Blank
	case p.Left >= 0 && p.Left < len(s.Remnants):
		r := s.Remnants[p.Left]
		if r.Keep {
			return "keep " + b.units.Size(r.H, r.W)
		}
		return "waste"
	case p.Number > 0:
		return fmt.Sprintf("part %d", p.Number)
	}
	return "waste"
}
