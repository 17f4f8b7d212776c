package pdf

// flow is running text on pages of a part: headings, paragraphs, tables, one
// below the other, with new pages as they are needed.
type flow struct {
	b *book
	y float64
}

// newFlow begins a part on a page of its own.
func (b *book) newFlow(part, title string) *flow {
	b.part = part
	fl := &flow{b: b}
	fl.page()
	b.font("B", 14)
	b.text(marginX, fl.y+5, title)
	fl.y += 10
	return fl
}

func (fl *flow) page() float64 {
	fl.b.page(false)
	fl.y = fl.b.top()
	return fl.y
}

// room begins a new page unless so many millimetres are left.
func (fl *flow) room(height float64) {
	if fl.y+height > fl.b.bottom() {
		fl.page()
	}
}

// heading sets a title, on the page on which what it is the title of begins,
// be it a paragraph or the head and first rows of a table.
func (fl *flow) heading(s string) {
	fl.room(4 + 6.5 + 1 + 3*rowHeight)
	fl.y += 4
	fl.b.font("B", 10)
	fl.b.colour(black)
	fl.b.text(marginX, fl.y+3.5, s)
	fl.y += 6.5
}

// words sets a paragraph; empty text sets nothing.
func (fl *flow) words(s string) {
	fl.b.font("", 8.5)
	for _, l := range fl.b.lines(s, fl.b.w-2*marginX) {
		fl.room(5)
		fl.b.font("", 8.5)
		fl.b.colour(black)
		fl.b.text(marginX, fl.y+3.2, l)
		fl.y += 4.2
	}
}

// fact sets a term and what is said of it; nothing is set for nothing.
func (fl *flow) fact(term, s string) {
	if s == "" {
		return
	}
	const indent = 38.0
	fl.b.font("", 8.5)
	terms, lines := fl.b.lines(term, indent-2), fl.b.lines(s, fl.b.w-2*marginX-indent)
	for i := range max(len(terms), len(lines)) {
		fl.room(5)
		fl.b.font("", 8.5)
		if i < len(terms) {
			fl.b.colour(grey)
			fl.b.textShrink(marginX, fl.y+3.2, indent-1, "", 8.5, terms[i])
			fl.b.font("", 8.5)
		}
		fl.b.colour(black)
		if i < len(lines) {
			fl.b.text(marginX+indent, fl.y+3.2, lines[i])
		}
		fl.y += 4.4
	}
}

func (fl *flow) table(cols []column, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	fl.room(3 * rowHeight)
	fl.y = fl.b.table(cols, rows, fl.y+1, fl.page) + 2
}

// signature leaves a line to sign on.
func (fl *flow) signature(words string) {
	fl.room(20)
	fl.y += 14
	fl.b.line(black, 0.2)
	fl.b.f.Line(marginX, fl.y, marginX+80, fl.y)
	fl.b.font("", 7.5)
	fl.b.colour(grey)
	fl.b.text(marginX, fl.y+3.5, words)
	fl.y += 5
}
