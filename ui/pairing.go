package ui

import (
	"image/color"
	"path/filepath"
	"slices"

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
	list  *keyList
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
	v.list = newList(func() int { return len(v.pairs) }, v.newRow, v.fillRow)
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
	again := newButton(t("Begin again"), func() { v.pair(selectedIndex(how)) })
	body := container.NewBorder(top, container.NewBorder(nil, nil, nil, again, v.note), nil, nil, v.list)
	w.confirm(t("How the scans make leaves"), t("Add these leaves"), t("Cancel"), body, fyne.NewSize(900, 620), func(yes bool) {
		if yes && len(v.pairs) > 0 {
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
	v.told()
}

// told counts the pairs and shows them.
func (v *pairingView) told() {
	both := 0
	for _, p := range v.pairs {
		if p.Back != "" {
			both++
		}
	}
	v.note.SetText(t("%s, %d with both sides. Swap, part or join what is wrong, or leave it out.", leafCount(len(v.pairs)), both))
	v.list.Refresh()
}

func (v *pairingView) newRow() fyne.CanvasObject {
	size := fyne.NewSize(70, 50)
	line := canvas.NewRectangle(color.Transparent)
	line.SetMinSize(fyne.NewSize(6, 50))
	front, back := widget.NewLabel(""), widget.NewLabel("")
	front.Truncation, back.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	buttons := container.NewHBox()
	for _, icon := range []fyne.Resource{theme.ViewRefreshIcon(), theme.ContentCutIcon(), theme.DeleteIcon()} {
		b := newButtonWithIcon("", icon, nil)
		b.Importance = widget.LowImportance
		buttons.Add(b)
	}
	cell := func(l *widget.Label) fyne.CanvasObject {
		return container.NewBorder(nil, nil, thumbImage(size), nil, container.NewVBox(layout.NewSpacer(), l, layout.NewSpacer()))
	}
	return container.NewBorder(nil, nil, line, buttons, container.NewGridWithColumns(2, cell(front), cell(back)))
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
	v.fillButtons(i, buttons)
}

// fillButtons gives the buttons of a row their acts: exchange front and back;
// part a pair, or join a single scan with the next one; leave out.
func (v *pairingView) fillButtons(i int, buttons *fyne.Container) {
	act := func(k int, icon fyne.Resource, words string, can bool, do func()) {
		b := buttons.Objects[k].(*keyButton)
		b.SetText(words)
		b.SetIcon(icon)
		b.OnTapped = do
		if can {
			b.Enable()
		} else {
			b.Disable()
		}
	}
	pair := v.pairs[i].Back != ""
	act(0, theme.ViewRefreshIcon(), t("Swap"), pair, func() { v.swap(i) })
	if pair {
		act(1, theme.ContentCutIcon(), t("Part"), true, func() { v.part(i) })
	} else {
		act(1, theme.MoveDownIcon(), t("Join"), i+1 < len(v.pairs) && v.pairs[i+1].Back == "", func() { v.join(i) })
	}
	act(2, theme.DeleteIcon(), t("Leave out"), true, func() { v.leaveOut(i) })
}

// swap exchanges front and back.
func (v *pairingView) swap(i int) {
	v.pairs[i] = mendplan.Pair{Front: v.pairs[i].Back, Back: v.pairs[i].Front}
	v.told()
}

// part makes two leaves of a pair.
func (v *pairingView) part(i int) {
	p := v.pairs[i]
	v.pairs = slices.Concat(v.pairs[:i], []mendplan.Pair{{Front: p.Front}, {Front: p.Back}}, v.pairs[i+1:])
	v.told()
}

// join makes one leaf of a single scan and the next one.
func (v *pairingView) join(i int) {
	p := mendplan.Pair{Front: v.pairs[i].Front, Back: v.pairs[i+1].Front}
	v.pairs = slices.Concat(v.pairs[:i], []mendplan.Pair{p}, v.pairs[i+2:])
	v.told()
}

// leaveOut takes a leaf out of those to be added; its files stay.
func (v *pairingView) leaveOut(i int) {
	v.pairs = slices.Concat(v.pairs[:i], v.pairs[i+1:])
	v.told()
}
