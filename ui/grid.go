package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// column is one column of a table of words.
type column struct {
	head  string
	width float32
}

// wordTable is a table whose rows are words and whose rows can be pressed.
type wordTable struct {
	widget.Table
	rows    [][]string
	press   func(row int)
	columns []column
	want    []float32 // widths that heads and cells ask for
	wide    []float32 // widths that they have
}

// Resize implements [fyne.CanvasObject]: the columns share the width there is.
func (wt *wordTable) Resize(size fyne.Size) {
	wt.shareWidth(size.Width)
	wt.Table.Resize(size)
}

// TypedKey implements [fyne.Focusable]: Enter presses the row in hand, as
// Space does. Keys that a table has no use for are handed on.
func (wt *wordTable) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		wt.Table.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		wt.Table.TypedKey(e)
	default:
		handOnKey(wt, e)
	}
}

// TypedRune implements [fyne.Focusable].
func (wt *wordTable) TypedRune(r rune) { handOnLetter(wt, r) }

// leastWide is how narrow the widest columns become before the table scrolls,
// units.
const leastWide = 64

// shareWidth gives each column what it asks for and a share of what is left.
// Where there is not enough, the widest give way first, to one width, so that
// numbers and short words are seen whole.
func (wt *wordTable) shareWidth(width float32) {
	room := width - theme.Padding()*float32(len(wt.columns))
	sum := func(most float32) (total float32) {
		for _, w := range wt.want {
			total += min(w, most)
		}
		return total
	}
	most := float32(0)
	for _, w := range wt.want {
		most = max(most, w)
	}
	for most > leastWide && sum(most) > room {
		most--
	}
	k := max(room/max(sum(most), 1), 1)
	if len(wt.wide) != len(wt.want) {
		wt.wide = make([]float32, len(wt.want))
	}
	for i, w := range wt.want {
		if w = min(w, most) * k; w != wt.wide[i] { // each setting draws all cells in sight
			wt.wide[i] = w
			wt.SetColumnWidth(i, w)
		}
	}
}

// Bounds of what a column may ask for, as a share of its usual width; and how
// many rows are looked at for it.
const (
	narrowest, broadest = 0.45, 1.6
	rowsMeasured        = 60
)

// measure finds what the columns ask for: room for their heads and their
// cells, in the language and at the size of text in use.
func (wt *wordTable) measure() {
	size := theme.TextSize()
	room, usual := 2*theme.InnerPadding()+2, size/13
	wt.want = make([]float32, len(wt.columns))
	for i, c := range wt.columns {
		w := fyne.MeasureText(c.head, size, fyne.TextStyle{Bold: true}).Width
		for _, row := range wt.rows[:min(len(wt.rows), rowsMeasured)] {
			if i < len(row) {
				w = max(w, fyne.MeasureText(row[i], size, fyne.TextStyle{}).Width)
			}
		}
		wt.want[i] = min(max(w+room, c.width*narrowest*usual), c.width*broadest*usual)
	}
}

func newWordTable(columns []column, press func(row int)) *wordTable {
	wt := &wordTable{press: press}
	wt.Length = func() (int, int) { return len(wt.rows), len(columns) }
	wt.CreateCell = func() fyne.CanvasObject {
		l := widget.NewLabel("")
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	wt.UpdateCell = func(id widget.TableCellID, o fyne.CanvasObject) {
		if id.Row < len(wt.rows) && id.Col < len(wt.rows[id.Row]) {
			o.(*widget.Label).SetText(wt.rows[id.Row][id.Col])
		}
	}
	wt.ShowHeaderRow = true
	wt.CreateHeader = func() fyne.CanvasObject {
		l := heading("")
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	wt.ExtendBaseWidget(wt)
	wt.UpdateHeader = func(id widget.TableCellID, o fyne.CanvasObject) {
		if id.Col >= 0 {
			o.(*widget.Label).SetText(columns[id.Col].head)
		}
	}
	wt.columns = columns
	wt.measure()
	wt.OnSelected = func(id widget.TableCellID) {
		wt.UnselectAll()
		if wt.press != nil && id.Row >= 0 && id.Row < len(wt.rows) {
			wt.press(id.Row)
		}
	}
	return wt
}

func (wt *wordTable) show(rows [][]string) {
	wt.rows = rows
	wt.measure()
	wt.shareWidth(wt.Size().Width)
	wt.Refresh()
}
