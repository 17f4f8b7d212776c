package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// fileMark tells a file as it was when it was last read or written here.
type fileMark struct{ path, sum string }

// changedMeanwhile reports whether another program has written the job file
// since it was read or written here, told by its content and not by its date.
// A file that is gone, or cannot be read, is not changed: saving makes it anew
// or says what is wrong.
func changedMeanwhile(mark fileMark, path string) bool {
	if mark.path != path || mark.sum == "" {
		return false
	}
	sum, err := mendplan.ChecksumFile(path)
	return err == nil && sum != mark.sum
}

// askMeanwhile asks what is to become of a job file that another program has
// changed, before anything is written.
func (w *Window) askMeanwhile(path string, then func()) {
	words := widget.NewLabel(t("Another program has changed %s since you opened or saved it. Saved over it, those changes are lost.", filepath.Base(path)))
	words.Wrapping = fyne.TextWrapWord
	var d *dialog.CustomDialog
	act := func(f func()) func() { return func() { d.Hide(); f() } }
	d = dialog.NewCustomWithoutButtons(t("The file was changed meanwhile"), words, w.win)
	other := w.answerButton(t("Save under another name"), widget.HighImportance, act(func() { w.saveAs(then) }))
	d.SetButtons([]fyne.CanvasObject{w.answerButton(t("Go on working"), widget.MediumImportance, d.Hide),
		w.answerButton(t("Write over it"), widget.DangerImportance, act(func() { w.writeJob(path, then) })), other})
	d.Resize(fyne.NewSize(min(560, w.win.Canvas().Size().Width-40), 200))
	w.present(d, nil)
	w.win.Canvas().Focus(other)
}
