package ui

import (
	"fyne.io/fyne/v2"
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
	rows  [][]string
	press func(row int)
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
	for i, c := range columns {
		wt.SetColumnWidth(i, c.width)
	}
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
