package ui

import (
	"fmt"
	"image/color"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// pairingView shows how scans will be sorted into leaves, to be corrected.
type pairingView struct {
	w     *Window
	scans []newScan
	pairs []mendplan.Pair
	names []string
	list  *widget.List
	note  *widget.Label
}

// pairingDialog asks how several scans make leaves.
func (w *Window) pairingDialog(scans []newScan, bad []error) {
	v := &pairingView{w: w, scans: scans, note: small("")}
	for _, s := range scans {
		v.names = append(v.names, s.path)
	}
	how := widget.NewRadioGroup([]string{t("Fronts and backs by their names"), t("Front, back, front, back, in order"), t("All are fronts")}, nil)
	how.OnChanged = func(string) { v.pair(selectedIndex(how)) }
	v.list = widget.NewList(func() int { return len(v.pairs) }, v.newRow, v.fillRow)
	v.list.OnSelected = func(widget.ListItemID) { v.list.UnselectAll() }
	first := 0
	if noBacks(mendplan.PairScans(v.names, mendplan.ByName)) {
		first = 2
	}
	how.SetSelected(how.Options[first])
	top := container.NewVBox(how)
	for _, err := range bad {
		s := inWords(err)
		l := widget.NewLabel(s.what + " " + s.remedy)
		l.Importance, l.Wrapping = widget.DangerImportance, fyne.TextWrapWord
		top.Add(l)
	}
	body := container.NewBorder(top, v.note, nil, nil, v.list)
	w.confirm(t("How the scans make leaves"), t("Add these leaves"), t("Cancel"), body, fyne.NewSize(720, 560), func(yes bool) {
		if yes {
			w.makeLeaves(v.scans, v.pairs)
		}
	})
}

func selectedIndex(r *widget.RadioGroup) int {
	for i, o := range r.Options {
		if o == r.Selected {
			return i
		}
	}
	return 0
}

func noBacks(pairs []mendplan.Pair) bool {
	for _, p := range pairs {
		if p.Back != "" {
			return false
		}
	}
	return true
}

func (v *pairingView) pair(how int) {
	v.pairs = mendplan.PairScans(v.names, []mendplan.Pairing{mendplan.ByName, mendplan.ByOrder, mendplan.AllFronts}[how])
	both := 0
	for _, p := range v.pairs {
		if p.Back != "" {
			both++
		}
	}
	v.note.SetText(fmt.Sprintf(t("%d leaves, %d of them with both sides. The arrows exchange front and back, or part them."), len(v.pairs), both))
	v.list.Refresh()
}

func (v *pairingView) newRow() fyne.CanvasObject {
	size := fyne.NewSize(70, 50)
	line := canvas.NewRectangle(color.Transparent)
	line.SetMinSize(fyne.NewSize(6, 50))
	front, back := widget.NewLabel(""), widget.NewLabel("")
	front.Truncation, back.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	swap := widget.NewButtonWithIcon("", theme.ViewRefreshIcon(), nil)
	part := widget.NewButtonWithIcon("", theme.ContentCutIcon(), nil)
	swap.Importance, part.Importance = widget.LowImportance, widget.LowImportance
	cell := func(l *widget.Label) fyne.CanvasObject {
		return container.NewBorder(nil, nil, thumbImage(size), nil, container.NewVBox(layout.NewSpacer(), l, layout.NewSpacer()))
	}
	return container.NewBorder(nil, nil, line, container.NewHBox(swap, part), container.NewGridWithColumns(2, cell(front), cell(back)))
}

func (v *pairingView) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(v.pairs) {
		return
	}
	p := v.pairs[i]
	row := o.(*fyne.Container)
	cells := row.Objects[0].(*fyne.Container)
	buttons := row.Objects[2].(*fyne.Container)
	for k, path := range []string{p.Front, p.Back} {
		cell := cells.Objects[k].(*fyne.Container)
		label, th := cell.Objects[0].(*fyne.Container).Objects[1].(*widget.Label), cell.Objects[1].(*thumb)
		if path == "" {
			label.SetText(t("no scan of the back"))
			th.show(nil)
			continue
		}
		label.SetText(filepath.Base(path))
		th.show(v.w.pictures.thumbnail(path, 0, v.list.Refresh))
	}
	swap, part := buttons.Objects[0].(*widget.Button), buttons.Objects[1].(*widget.Button)
	swap.OnTapped = func() {
		if p.Back != "" {
			v.pairs[i] = mendplan.Pair{Front: p.Back, Back: p.Front}
			v.list.Refresh()
		}
	}
	part.OnTapped = func() {
		if p.Back != "" {
			rest := append([]mendplan.Pair{{Front: p.Front}, {Front: p.Back}}, v.pairs[i+1:]...)
			v.pairs = append(v.pairs[:i:i], rest...)
			v.list.Refresh()
		}
	}
}
