package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// leafFilter chooses which leaves the list shows.
type leafFilter int

const (
	allLeaves leafFilter = iota
	leavesToDo
	leavesMended
)

// leafList shows the leaves of the job with a small picture and how far each
// has come.
type leafList struct {
	w      *Window
	list   *keyList
	head   *widget.Label
	filter *widget.Select
	ids    []string // of the leaves shown
	ground *canvas.Rectangle
	box    fyne.CanvasObject
	quiet  bool // the list is being set, not pressed
}

func newLeafList(w *Window) *leafList {
	l := &leafList{w: w, head: widget.NewLabel(""), ground: canvas.NewRectangle(shade(colourPanel))}
	l.head.TextStyle.Bold, l.head.Truncation = true, fyne.TextTruncateEllipsis
	l.list = newList(func() int { return len(l.ids) }, l.newRow, l.fillRow)
	l.list.HideSeparators = true
	l.list.OnSelected = l.pressed
	l.filter = widget.NewSelect([]string{t("All leaves"), t("To do"), t("Mended")}, func(string) { l.refresh() })
	l.filter.SetSelectedIndex(0)
	add := w.commandButton(w.command("add-scans"), "plus", "")
	head := tight(container.NewBorder(nil, nil, nil, add, l.head), l.filter)
	l.box = container.NewStack(l.ground, container.New(layout.NewCustomPaddedLayout(2, 0, 4, 2),
		container.NewBorder(head, nil, nil, nil, l.list)))
	return l
}

func (l *leafList) content() fyne.CanvasObject { return l.box }

func (l *leafList) newRow() fyne.CanvasObject {
	title, state := widget.NewLabel(""), widget.NewLabel("")
	title.TextStyle.Bold = true
	title.Truncation, state.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	state.SizeName = theme.SizeNameCaptionText
	words := container.New(layout.NewCustomPaddedVBoxLayout(-8), title, state)
	return container.NewBorder(nil, nil, thumbImage(fyne.NewSize(54, 46)), nil, container.NewCenter(), words)
}

func (l *leafList) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(l.ids) {
		return
	}
	leaf, ok := l.w.session.Job().Leaf(l.ids[i])
	if !ok {
		return
	}
	row := o.(*fyne.Container)
	var th *thumb
	var words *fyne.Container
	for _, c := range row.Objects {
		switch c := c.(type) {
		case *thumb:
			th = c
		case *fyne.Container:
			if len(c.Objects) == 2 {
				words = c
			}
		}
	}
	side := leaf.SideOf(sideToShow(leaf))
	if side.Scan.Present() {
		th.show(l.w.pictures.thumbnail(l.w.session.scanPath(side.Scan), side.Scan.Page, l.list.Refresh))
	} else {
		th.show(nil)
	}
	words.Objects[0].(*widget.Label).SetText(leafTitle(leaf))
	state := words.Objects[1].(*widget.Label)
	text, importance := leafState(leaf)
	switch l.w.scanProblem(leaf.ID, "") {
	case mendplan.ScanChanged:
		text, importance = t("scan changed")+" · "+text, widget.DangerImportance
	case mendplan.ScanMissing:
		text, importance = t("scan missing")+" · "+text, widget.DangerImportance
	}
	state.Importance = importance
	state.SetText(text)
}

// leafState tells in words how far a leaf has come.
func leafState(leaf mendplan.Leaf) (string, widget.Importance) {
	var parts []string
	importance := widget.LowImportance
	if leaf.Mended {
		parts, importance = append(parts, t("mended")), widget.SuccessImportance
	}
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		s := leaf.SideOf(side)
		if s.Scan.Present() && !s.Calibration.Known() {
			parts, importance = append(parts, t("no scale")), widget.DangerImportance
			break
		}
	}
	switch n := len(leaf.Damages); n {
	case 0:
		parts = append(parts, t("nothing traced"))
	case 1:
		parts = append(parts, t("1 damage"))
	default:
		parts = append(parts, fmt.Sprintf(t("%d damages"), n))
	}
	return strings.Join(parts, " · "), importance
}

func (l *leafList) pressed(i widget.ListItemID) {
	if !l.quiet && i < len(l.ids) {
		l.w.session.Show(l.ids[i], "")
		l.w.focusSurface()
	}
}

func (l *leafList) refresh() {
	if l.list == nil || l.filter == nil {
		return // being built
	}
	j := l.w.session.Job()
	filter := leafFilter(max(l.filter.SelectedIndex(), 0))
	l.ids = l.ids[:0]
	mended, chosen := 0, -1
	current, _ := l.w.session.Leaf()
	for _, leaf := range j.Leaves {
		if leaf.Mended {
			mended++
		}
		if filter == leavesToDo && leaf.Mended || filter == leavesMended && !leaf.Mended {
			continue
		}
		if leaf.ID == current.ID {
			chosen = len(l.ids)
		}
		l.ids = append(l.ids, leaf.ID)
	}
	l.head.SetText(fmt.Sprintf(t("%d of %d mended"), mended, len(j.Leaves)))
	l.ground.FillColor = shade(colourPanel)
	l.ground.Refresh()
	l.quiet = true
	l.list.Refresh()
	if chosen >= 0 {
		l.list.Select(chosen)
	} else {
		l.list.UnselectAll()
	}
	l.quiet = false
}
