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
	at := 0
	list := newList(func() int { return len(parts) },
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
		at = i
		text.SetText(parts[i].Name + "\n\n" + parts[i].Text)
		scroll.ScrollToTop()
	}
	list.at = func() int { return at }
	list.Select(0)
	split := container.NewHSplit(list, scroll)
	split.Offset = 0.38
	w.showSized(t("Licences"), split, fyne.NewSize(980, 2000))
	w.win.Canvas().Focus(list)
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
