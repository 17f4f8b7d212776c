package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
)

// licences shows what the program is made of, part by part with its licence:
// the list by its side takes the keyboard.
func (w *Window) licences() {
	parts, err := assets.Licences()
	if err != nil {
		w.tellError(err)
		return
	}
	text := widget.NewLabel("")
	text.Wrapping = fyne.TextWrapWord
	scroll := container.NewVScroll(text)
	list := w.newReadingList(len(parts),
		func() fyne.CanvasObject {
			name := widget.NewLabel("")
			name.Truncation = fyne.TextTruncateEllipsis
			return tight(name, small(""))
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			row := o.(*fyne.Container)
			name, version := partName(parts[i].Name)
			row.Objects[0].(*widget.Label).SetText(name)
			row.Objects[1].(*widget.Label).SetText(strings.TrimSpace(parts[i].Kind + "  " + version))
		})
	list.OnSelected = func(i widget.ListItemID) {
		list.at = i
		text.SetText(parts[i].Name + "\n\n" + parts[i].Text)
		scroll.ScrollToTop()
	}
	list.Select(0)
	split := container.NewHSplit(list, scroll)
	split.Offset = 0.38
	w.showSized(t("Licences"), split, fyne.NewSize(980, 2000))
	w.win.Canvas().Focus(list)
}

// readingList is a list in a dialog whose rows are read beside it: the arrow
// keys go from one to the next, and Escape closes the dialog.
type readingList struct {
	widget.List
	w  *Window
	at int // the row read
}

func (w *Window) newReadingList(rows int, make func() fyne.CanvasObject, fill func(widget.ListItemID, fyne.CanvasObject)) *readingList {
	l := &readingList{w: w}
	l.Length, l.CreateItem, l.UpdateItem = func() int { return rows }, make, fill
	l.ExtendBaseWidget(l)
	return l
}

// TypedKey implements [fyne.Focusable].
func (l *readingList) TypedKey(e *fyne.KeyEvent) {
	last := l.Length() - 1
	switch e.Name {
	case fyne.KeyDown:
		l.Select(min(l.at+1, last))
	case fyne.KeyUp:
		l.Select(max(l.at-1, 0))
	case fyne.KeyHome:
		l.Select(0)
	case fyne.KeyEnd:
		l.Select(last)
	case fyne.KeyEscape:
		l.w.closeDialog()
	}
}

// partName takes a part's name from what follows it, and shortens a version
// that is a date and a sum to the date.
func partName(full string) (name, version string) {
	name, rest, _ := strings.Cut(full, " v")
	if rest == "" {
		return full, ""
	}
	version, file, _ := strings.Cut(rest, ", ")
	if parts := strings.Split(version, "-"); len(parts) == 3 {
		version = parts[0] + "-" + parts[1]
	}
	if base, ok := strings.CutSuffix(file, "/LICENSE"); ok {
		name += ", " + base
	}
	return name, "v" + version
}
