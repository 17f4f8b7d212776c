package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

// heldBack is what the print dialog says while scans are not what their
// damages were traced on, and what keeps cut list and templates back until the
// user says that they are to be printed all the same. Nothing is said when all
// scans are as they were.
func (w *Window) heldBack() (shown fyne.CanvasObject, held func([]pdf.Part) string) {
	open := mendplan.Unanswered(w.session.found)
	if len(open) == 0 {
		return container.NewVBox(), func([]pdf.Part) string { return "" }
	}
	words := widget.NewLabel(t("%d scans are not the files their damages were traced on, the first on %s. Pieces of these leaves may not fit.", len(open), w.leafWord(open[0].Leaf)))
	words.Wrapping, words.Importance = fyne.TextWrapWord, widget.DangerImportance
	all := newCheck(t("Print cut list and templates all the same"), nil)
	return tight(words, all), func(parts []pdf.Part) string {
		cut := slices.Contains(parts, pdf.CutList) || slices.Contains(parts, pdf.Templates)
		if cut && !all.Checked {
			return t("Cut list and templates are held back: compare the traces with the pictures first, or tick that they are to be printed all the same.")
		}
		return ""
	}
}

func (w *Window) leafWord(id string) string {
	leaf, _ := w.session.Job().Leaf(id)
	return leafTitle(leaf)
}

// lookAgainAfter looks at the scans on the disk anew when a step was undone or
// done again that said which files are right: what was found holds for the
// other state.
func (w *Window) lookAgainAfter(label string) {
	if slices.Contains([]string{"check traces on changed scan", "find moved scans", "choose scan"}, label) {
		w.checkScans()
	}
}
