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
}

// Resize implements [fyne.CanvasObject]: the columns share the width there is.
func (wt *wordTable) Resize(size fyne.Size) {
	shareWidth(&wt.Table, wt.columns, size.Width)
	wt.Table.Resize(size)
}

// TypedKey implements [fyne.Focusable]: Enter presses the row in hand, as
// Space does.
func (wt *wordTable) TypedKey(e *fyne.KeyEvent) {
	if e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter {
		e = &fyne.KeyEvent{Name: fyne.KeySpace}
	}
	wt.Table.TypedKey(e)
}

// leastShare is how far columns give way before the table scrolls.
const leastShare = 0.72

// shareWidth gives each column of a table its share of the width.
func shareWidth(table *widget.Table, columns []column, width float32) {
	total := float32(0)
	for _, c := range columns {
		total += c.width
	}
	gaps := theme.Padding() * float32(len(columns))
	k := max((width-gaps)/max(total, 1), leastShare)
	for i, c := range columns {
		table.SetColumnWidth(i, c.width*k)
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
	wt.Refresh()
}
