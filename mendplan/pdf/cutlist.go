package pdf

import (
	"fmt"

	"leafmend/mendplan"
)

// cutList prints the table of pieces and then every sheet with its cuts.
func (b *book) cutList() {
	if len(b.plan.Pieces) == 0 {
		return
	}
	b.part = b.say("Cut list")
	next := func() float64 { b.page(false); return b.top() }
	y := next()
	b.font("B", 14)
	b.text(marginX, y+5, b.say("Cut list"))
	b.font("", 8.5)
	y = b.paragraph(marginX, y+11, b.w-2*marginX, 4, b.cutListIntro())
	cols := b.stretch([]column{{"", 6, false}, {b.say("piece"), 18, false}, {b.say("leaf"), 30, false}, {b.say("side"), 15, false}, {b.say("tissue"), 20, false},
		{b.say("mend"), 21, false}, {b.say("along grain × across"), 34, false}, {b.say("grain"), 18, false}, {b.say("sheet"), 12, true}}, 4)
	y = b.table(cols, b.pieceRows(), y+2, next)
	b.unplaced(y+6, next)
	for _, run := range b.runs() {
		b.sheetPage(run)
	}
}

func (b *book) cutListIntro() string {
	sheets := 0
	for _, t := range b.plan.Layouts {
		sheets += len(t.Layout.Sheets)
	}
	return b.say("%s on %s. Sizes are those of the blanks, along the grain × across it, with room for a torn edge where that is asked for. Letters in a label: f front, b back, as pasted.",
		b.count(len(b.plan.Pieces), "1 piece", "%d pieces"), b.count(sheets, "1 sheet", "%d sheets")) + " " +
		b.say("Each cut goes from edge to edge of the part that lies before you; parts left by earlier cuts have a number and a size to know them by.") + " " +
		b.say("Keep fingers behind the ruler; use a metal rule and change blades with a tool.")
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
		grain := b.say("along")
		if p.GrainFree {
			grain = b.say("any")
		}
		sheet := b.say("none")
		if n := on[p.Label]; n > 0 {
			sheet = fmt.Sprint(n)
		}
		rows = append(rows, []string{box, p.Label, name, b.say(string(p.Side)), b.tissueName(p.Tissue), b.say(string(p.Role)),
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
				for _, label := range p.Blanks() {
					on[label] = n
				}
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
			words = append(words, b.problemWords(p))
		}
	}
	if len(words) == 0 {
		return
	}
	if y+12 > b.bottom() {
		y = next()
	}
	b.font("B", 9)
	b.text(marginX, y+4, b.say("Not on any sheet"))
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
