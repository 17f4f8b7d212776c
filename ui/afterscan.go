package ui

import (
	"context"
	"fmt"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
)

// afterScanDialog asks for the picture of the side in hand after treatment.
// Nothing is measured on it; it is for the report.
func (w *Window) afterScanDialog() {
	leaf, ok := w.session.Leaf()
	if !ok {
		return
	}
	title := t("Picture after treatment: %s, %s", leafTitle(leaf), sideShort(w.session.Side()))
	w.choose(choosing{title: title, verb: t("Use"), suffix: mendplan.PictureSuffixes}, func(paths []string) { w.attachAfter(paths[0]) })
}

// attachAfter looks at a picture and keeps it as the side's after treatment.
func (w *Window) attachAfter(path string) {
	var after mendplan.Scan
	w.aside(t("Reading the scan"), func(context.Context) error {
		abs, err := filepath.Abs(path)
		if err != nil {
			abs = path
		}
		info, err := scan.Inspect(abs)
		if err != nil {
			return err
		}
		sum, err := mendplan.ChecksumScan(abs)
		after = mendplan.Scan{Path: abs, Width: info.Width, Height: info.Height, SHA256: sum}
		return err
	}, func(err error) {
		if err != nil {
			w.tellError(err)
			return
		}
		after.Path = w.session.namedScan(after.Path)
		w.session.EditSide("attach picture after treatment", func(s mendplan.Side) mendplan.Side { s.After = after; return s })
		w.status.say(t("The picture after treatment is kept with the side."))
	})
}

// hasAfter reports whether the side in hand has a picture after treatment.
func hasAfter(w *Window) bool {
	l, ok := w.session.Leaf()
	return ok && l.SideOf(w.session.Side()).After.Present()
}

// compareAfter shows the side in hand before and after, side by side.
func (w *Window) compareAfter() {
	leaf, _ := w.session.Leaf()
	side := leaf.SideOf(w.session.Side())
	pair := container.NewGridWithColumns(2)
	for _, x := range []struct {
		words string
		scan  mendplan.Scan
	}{{t("before"), side.Scan}, {t("after"), side.After}} {
		pic := w.newPreview()
		pic.show(w.session.scanPath(x.scan), x.scan.Page)
		pair.Add(container.NewBorder(heading(fmt.Sprintf("%s: %s", sentenceCase(x.words), scanWord(x.scan))), nil, nil, nil, pic.box))
	}
	w.showSized(leafTitle(leaf)+", "+sideShort(w.session.Side()), pair, fyne.NewSize(1000, 2000))
}
