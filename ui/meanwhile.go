package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
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
	w.question(t("The file was changed meanwhile"),
		t("Another program has changed %s since you opened or saved it. Saved over it, those changes are lost.", filepath.Base(path)), fyne.NewSize(560, 200), nil,
		answer{t("Go on working"), widget.MediumImportance, nil},
		answer{t("Write over it"), widget.DangerImportance, func() { w.writeJob(path, then) }},
		answer{t("Save under another name"), widget.HighImportance, func() { w.saveAs(then) }})
}
