package pdf

// column is one column of a table.
type column struct {
	head  string
	width float64 // mm
	right bool    // figures, set to the right
}

const rowHeight = 5.2

// table sets rows under repeated heads, from y on the page in hand, and goes
// on to new pages made by next. It returns the y below the last row.
func (b *book) table(cols []column, rows [][]string, y float64, next func() float64) float64 {
	y = b.tableHead(cols, y)
	for i, row := range rows {
		if y+rowHeight > b.bottom() {
			y = b.tableHead(cols, next())
		}
		if i%2 == 1 {
			b.fill(wash)
			b.f.Rect(marginX, y, totalWidth(cols), rowHeight, "F")
		}
		b.font("", 7.5)
		b.colour(black)
		b.tableRow(cols, row, y+3.7)
		y += rowHeight
	}
	b.line(pale, 0.25)
	b.f.Line(marginX, y, marginX+totalWidth(cols), y)
	return y
}

func (b *book) tableHead(cols []column, y float64) float64 {
	b.font("B", 7.5)
	b.colour(black)
	heads := make([]string, len(cols))
	for i, c := range cols {
		heads[i] = c.head
	}
	b.tableRow(cols, heads, y+3.7)
	b.line(black, 0.3)
	b.f.Line(marginX, y+rowHeight, marginX+totalWidth(cols), y+rowHeight)
	return y + rowHeight
}

// box stands in a cell for a square to tick off.
const box = "\x01"

func (b *book) tableRow(cols []column, row []string, base float64) {
	x := marginX
	for i, c := range cols {
		if i >= len(row) {
			break
		}
		switch {
		case row[i] == box:
			b.line(black, 0.2)
			b.f.Rect(x+1, base-2.7, 3, 3, "D")
		case c.right:
			b.textRight(x+c.width-2, base, b.short(row[i], c.width-2))
		default:
			b.textFit(x+1, base, c.width-2, row[i])
		}
		x += c.width
	}
}

func totalWidth(cols []column) float64 {
	sum := 0.0
	for _, c := range cols {
		sum += c.width
	}
	return sum
}

// stretch makes the named column as wide as the page leaves.
func (b *book) stretch(cols []column, i int) []column {
	cols[i].width += b.w - 2*marginX - totalWidth(cols)
	return cols
}
