package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// remedy is something to be done about a problem that only a person can do:
// a command, run where the problem is.
type remedy struct{ words, command string }

// remediesFor lists the commands that help with a problem; what an edit of
// the job can do about it is found by [mendplan.Job.Resolutions].
func remediesFor(pr mendplan.Problem) []remedy {
	switch pr.Kind {
	case mendplan.NoScale, mendplan.DoubtfulScale:
		return []remedy{{t("What tells the scale…"), "scale-file"}, {t("By two points"), "scale-points"}}
	case mendplan.ScanMissing:
		return []remedy{{t("Find moved scans…"), "find-moved"}, {t("Choose the scan…"), "scan-for-side"}}
	case mendplan.ScanChanged:
		return []remedy{{t("Compare the traces with the picture…"), "check-scan"}, {t("Choose the scan…"), "scan-for-side"}}
	case mendplan.NoScan:
		return []remedy{{t("Choose the scan…"), "scan-for-side"}}
	case mendplan.NoStock, mendplan.DoesNotFit:
		if pr.Damage == 0 {
			return []remedy{{t("What does not fit…"), "not-placed"}}
		}
	}
	return nil
}

// runRemedy takes the problem's place in hand and runs the command there.
func (w *Window) runRemedy(r remedy, pr mendplan.Problem) {
	if pr.Leaf != "" {
		w.showStage(stageTrace)
		w.session.Show(pr.Leaf, pr.Side)
	}
	if pr.Damage > 0 {
		w.session.Select(pr.Damage)
	}
	w.Run(r.command)
}

// resolve does the act of these words about a problem, found anew in the job
// as it is now, as one step. It reports whether the act still helps.
func (w *Window) resolve(pr mendplan.Problem, words string) bool {
	before := w.session.Job()
	for _, x := range before.Resolutions(w.lookNow(), pr) {
		if say(x.Words) != words {
			continue
		}
		w.session.Do("resolve a problem", x.Job)
		if n := newDamage(before, x.Job); n > 0 {
			w.session.Select(n)
		} else if pr.Damage > 0 {
			w.session.Select(pr.Damage)
		}
		w.status.say(t("Done: %s.", words))
		return true
	}
	w.status.say(t("That would not help any more: the job has changed."))
	return false
}

// newDamage is the number of a damage that a job has and an earlier one had
// not; 0 when there is none.
func newDamage(before, after mendplan.Job) int {
	for _, leaf := range after.Leaves {
		for _, d := range leaf.Damages {
			if _, _, had := before.FindDamage(d.Number); !had {
				return d.Number
			}
		}
	}
	return 0
}

func (w *Window) lookNow() mendplan.Look {
	return mendplan.Look{Print: w.looks.printUnder(w.session.Job())}
}

// Trying out what resolves a problem plans its leaf several times. It is done
// unasked for the first problems of a list, on leaves of few damages; for
// others it waits for a press.
const (
	triedUnasked = 40
	fewDamages   = 120
)

// remedyRows offers what can be done about problem i of a list: at once what
// a person does, and when it has been tried what an edit of the job does.
func (w *Window) remedyRows(pr mendplan.Problem, i int) fyne.CanvasObject {
	box := container.New(layout.NewCustomPaddedVBoxLayout(0))
	for _, r := range remediesFor(pr) {
		box.Add(w.actRow(r.words, func() { w.runRemedy(r, pr) }))
	}
	leaf, _ := w.session.Job().Leaf(pr.Leaf)
	if i < triedUnasked && len(leaf.Damages) <= fewDamages {
		w.remedies.want(pr, box)
	} else if pr.Damage > 0 || len(pr.Joins) > 0 {
		var look fyne.CanvasObject
		look = w.actRow(t("Look for what helps"), func() {
			box.Remove(look)
			w.remedies.want(pr, box)
		})
		box.Add(look)
	}
	return box
}

// actRow is an act in words that may run over several lines.
func (w *Window) actRow(words string, act func()) fyne.CanvasObject {
	label := widget.NewLabel(words)
	label.Wrapping = fyne.TextWrapWord
	label.TextStyle.Bold = true
	mark := widget.NewIcon(iconIn("next", colourQuiet))
	return newPressRow(container.NewBorder(nil, nil, container.NewHBox(widget.NewLabel(""), mark), nil, label), func() {
		act()
		w.focusSurface()
	})
}
