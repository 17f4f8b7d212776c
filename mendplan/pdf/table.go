package pdf

import "strings"

// column is one column of a table.
type column struct {
	head  string
	width float64 // mm
	right bool    // figures, set to the right
}

const (
	rowHeight = 5.2
	cellLead  = 3.2 // from one line of a cell to the next
	cellSize  = 7.5 // of the type, points
	mostLines = 40  // of one cell
)

// table sets rows under repeated heads, from y on the page in hand, and goes
// on to new pages made by next. Words too long for their column go on below.
// It returns the y below the last row.
func (b *book) table(cols []column, rows [][]string, y float64, next func() float64) float64 {
	y = b.tableHead(cols, y)
	for i, row := range rows {
		b.font("", cellSize)
		cells, height := b.cells(cols, row)
		if y+height > b.bottom() {
			y = b.tableHead(cols, next())
		}
		if i%2 == 1 {
			b.fill(wash)
			b.f.Rect(marginX, y, totalWidth(cols), height, "F")
		}
		b.colour(black)
		b.tableRow(cols, cells, y+3.7, "")
		y += height
	}
	b.line(pale, 0.25)
	b.f.Line(marginX, y, marginX+totalWidth(cols), y)
	return y
}

func (b *book) tableHead(cols []column, y float64) float64 {
	heads := make([]string, len(cols))
	for i, c := range cols {
		heads[i] = c.head
	}
	b.font("B", cellSize)
	b.colour(black)
	cells, height := b.cells(cols, heads)
	b.tableRow(cols, cells, y+3.7, "B")
	b.line(black, 0.3)
	b.f.Line(marginX, y+height, marginX+totalWidth(cols), y+height)
	return y + height
}

// cells breaks the words of a row into lines, and tells how high it gets.
func (b *book) cells(cols []column, row []string) (out [][]string, height float64) {
	most := 1
	for i, c := range cols {
		if i >= len(row) {
			break
		}
		words, style := strings.CutPrefix(row[i], bold)
		if style {
			b.font("B", cellSize)
		}
		lines := []string{words}
		if room := c.width - 2; words != box && words != ticked && b.f.GetStringWidth(b.face.printable(words)) > room {
			lines = b.lines(words, room)
			if len(lines) > mostLines {
				lines[mostLines-1] += " …"
				lines = lines[:mostLines]
			}
		}
		if style {
			b.font("", cellSize)
			for k := range lines {
				lines[k] = bold + lines[k]
			}
		}
		out, most = append(out, lines), max(most, len(lines))
	}
	return out, rowHeight + float64(most-1)*cellLead
}

// box stands in a cell for a square to tick off.
const box = "\x01"

// ticked stands for the same square with a tick in it: done already.
const ticked = "\x03"

// bold before the words of a cell sets them bold.
const bold = "\x02"

func (b *book) tableRow(cols []column, cells [][]string, base float64, style string) {
	x := marginX
	for i, lines := range cells {
		c := cols[i]
		for k, words := range lines {
			y := base + float64(k)*cellLead
			plain, strong := strings.CutPrefix(words, bold)
			face := style
			if strong {
				face = "B"
			}
			switch {
			case words == box || words == ticked:
				b.line(black, 0.2)
				b.f.Rect(x+1, y-2.7, 3, 3, "D")
				if words == ticked {
					b.line(black, 0.4)
					b.f.Line(x+1.6, y-1.3, x+2.3, y-0.5)
					b.f.Line(x+2.3, y-0.5, x+4.2, y-3.1)
				}
			case c.right:
				b.font(face, cellSize)
				width := min(b.f.GetStringWidth(b.face.printable(plain)), c.width-2)
				b.textShrink(x+c.width-2-width, y, width+0.01, face, cellSize, plain)
			default:
				b.textShrink(x+1, y, c.width-1.5, face, cellSize, plain)
			}
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
