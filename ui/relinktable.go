package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// relinkView shows what was found for each missing scan, to be accepted or
// changed by hand.
type relinkView struct {
	w      *Window
	folder string
	links  []mendplan.Relink
	take   []bool
	list   *keyList
	note   *widget.Label
}

// relinkTable shows the proposals; those of the same bytes, and of the same
// name and size, are ticked.
func (w *Window) relinkTable(links []mendplan.Relink, folder string, whole bool) {
	v := &relinkView{w: w, folder: folder, links: links, take: make([]bool, len(links)), note: small("")}
	for i, l := range links {
		v.take[i] = l.Sure == mendplan.SameBytes || l.Sure == mendplan.SameFormat
	}
	v.list = newList(func() int { return len(v.links) }, v.newRow, v.fillRow)
	v.list.OnSelected = func(i widget.ListItemID) { v.list.UnselectAll(); v.tick(i, !v.take[i]) }
	words := t("Looked in %s. Tick what is right; Choose names another file by hand.", folder)
	if !whole {
		words += " " + t("Not all of it could be searched: choose a smaller folder if something is not found.")
	}
	top := small(words)
	top.Wrapping = fyne.TextWrapWord
	v.tell()
	body := container.NewBorder(top, v.note, nil, nil, v.list)
	w.confirm(t("Scans found again"), t("Use what is ticked"), t("Cancel"), body, fyne.NewSize(960, 620), func(yes bool) {
		if yes {
			v.accept()
		}
	})
}

func (v *relinkView) accept() {
	var taken []mendplan.Relink
	for i, l := range v.links {
		if v.take[i] {
			taken = append(taken, l)
		}
	}
	v.w.takeRelinks(taken)
}

func (v *relinkView) newRow() fyne.CanvasObject {
	check := newCheck("", nil)
	what, sure := widget.NewLabel(""), small("")
	what.TextStyle.Bold = true
	was, found := widget.NewLabel(""), widget.NewLabel("")
	for _, l := range []*widget.Label{what, sure, was, found} {
		l.Truncation = fyne.TextTruncateEllipsis
	}
	choose := newButton(t("Choose…"), nil)
	return container.NewBorder(nil, nil, check, choose, container.NewGridWithColumns(2, tight(what, was), tight(sure, found)))
}

func (v *relinkView) fillRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(v.links) {
		return
	}
	l := v.links[i]
	row := o.(*fyne.Container)
	cells := row.Objects[0].(*fyne.Container)
	check, choose := row.Objects[1].(*keyCheck), row.Objects[2].(*keyButton)
	cell := func(col, line int) *widget.Label {
		return cells.Objects[col].(*fyne.Container).Objects[line].(*widget.Label)
	}
	leaf, _ := v.w.session.Job().Leaf(l.Leaf)
	what := leafTitle(leaf) + ", " + sideShort(l.Side)
	if l.After {
		what += ", " + t("after")
	}
	cell(0, 0).SetText(what)
	cell(0, 1).SetText(t("was: %s", l.Scan.Path))
	sure := cell(1, 0)
	sure.Importance = widget.MediumImportance
	if l.Sure != mendplan.SameBytes {
		sure.Importance = widget.WarningImportance
	}
	sure.SetText(sureWords(l))
	cell(1, 1).SetText(v.foundWords(l))
	check.OnChanged = nil
	check.SetChecked(v.take[i])
	check.OnChanged = func(on bool) { v.tick(i, on) }
	if l.Found == "" {
		check.Disable()
	} else {
		check.Enable()
	}
	choose.OnTapped = func() { v.choose(i) }
}

// sureWords says how sure a proposal is.
func sureWords(l mendplan.Relink) string {
	var words string
	switch l.Sure {
	case mendplan.SameBytes:
		words = t("the same file, byte by byte")
		if len(l.Others) > 0 {
			words += "; " + t("more copies: %d", len(l.Others))
		}
	case mendplan.SameFormat:
		words = t("same name and size")
	case mendplan.NameOnly:
		words = t("only the name is alike")
	case mendplan.Several:
		return t("%d files would do: choose one", len(l.Others))
	case chosenByHand:
		words = t("chosen by hand")
	default:
		return t("not found")
	}
	if l.Changed {
		words += "; " + t("changed: the traces will have to be compared")
	}
	return words
}

// chosenByHand is how sure a file is that the user named.
const chosenByHand mendplan.Sureness = "by hand"

func (v *relinkView) foundWords(l mendplan.Relink) string {
	if l.Found == "" {
		return "—"
	}
	if rel, err := filepath.Rel(v.folder, l.Found); err == nil && !strings.HasPrefix(rel, "..") {
		return rel
	}
	return l.Found
}

func (v *relinkView) tick(i int, on bool) {
	v.take[i] = on && v.links[i].Found != ""
	v.list.RefreshItem(i)
	v.tell()
}

func (v *relinkView) tell() {
	found, ticked := 0, 0
	for i, l := range v.links {
		if l.Found != "" {
			found++
		}
		if v.take[i] {
			ticked++
		}
	}
	v.note.SetText(t("%d missing, %d found, %d ticked.", len(v.links), found, ticked))
}

// choose names the file of a scan by hand. A file that another scan of the
// table has is taken from it unless they shared one before.
func (v *relinkView) choose(i int) {
	v.w.choose(choosing{title: t("Choose the scan of this side"), verb: t("Use"), suffix: mendplan.PictureSuffixes}, func(paths []string) {
		var sum string
		v.w.work.start(func() (err error) {
			if _, err = scan.Inspect(paths[0]); err == nil {
				sum, err = mendplan.ChecksumScan(paths[0])
			}
			return err
		}, func(err error) {
			if err != nil {
				v.w.tellError(err)
				return
			}
			v.chosen(i, paths[0], sum)
		})
	})
}

func (v *relinkView) chosen(i int, path, sum string) {
	for k, l := range v.links {
		same := l.Scan.Path == v.links[i].Scan.Path
		switch {
		case same:
			l.Found, l.Others, l.Sure = path, nil, chosenByHand
			l.Changed = l.Scan.SHA256 != "" && l.Scan.SHA256 != sum
			if !l.Changed && l.Scan.SHA256 != "" {
				l.Sure = mendplan.SameBytes
			}
			v.take[k] = true
		case l.Found == path:
			l.Found, l.Sure, l.Changed, v.take[k] = "", mendplan.NotFound, false, false
		}
		v.links[k] = l
	}
	v.list.Refresh()
	v.tell()
}
