package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// seekBar tells how good the layout is, starts a longer search for a better
// one, shows how far that is, and ends it.
type seekBar struct {
	w        *Window
	words    *widget.Label
	progress *widget.ProgressBar
	effort   *choiceField
	start    *keyButton
	enough   *keyButton
	cancel   *keyButton
	idle     *fyne.Container
	busy     *fyne.Container
	box      fyne.CanvasObject
}

// efforts are the budgets offered, by about how long they take for a tissue.
func efforts() (ids, words []string, budgets []int) {
	return []string{"1s", "10s", "1min", "10min"},
		[]string{t("about 1 second"), t("about 10 seconds"), t("about a minute"), t("about 10 minutes")},
		[]int{1000, 10000, 60000, 600000}
}

func newSeekBar(w *Window) *seekBar {
	b := &seekBar{w: w, words: widget.NewLabel(""), progress: widget.NewProgressBar()}
	b.words.Truncation = fyne.TextTruncateEllipsis
	b.effort = newChoice(func(string) {})
	ids, words, _ := efforts()
	b.effort.set(ids, words, "10s")
	b.start = newButtonWithIcon(t("Look longer"), theme.SearchIcon(), func() { w.Run("search-longer") })
	b.enough = newButton(t("Good enough"), func() { w.Run("good-enough") })
	b.enough.Importance = widget.HighImportance
	b.cancel = newButton(t("Cancel"), func() { w.session.StopSearch(false) })
	b.progress.TextFormatter = func() string { return "" }
	b.idle = container.NewHBox(container.NewGridWrap(fyne.NewSize(170, b.start.MinSize().Height), b.effort), b.start)
	b.busy = container.NewHBox(container.NewGridWrap(fyne.NewSize(110, 24), b.progress), b.enough, b.cancel)
	b.busy.Hide()
	b.box = container.New(layout.NewCustomPaddedLayout(3, 1, 6, 6), container.NewBorder(nil, nil, nil, container.NewHBox(b.idle, b.busy), b.words))
	return b
}

// budget is the effort that is chosen.
func (b *seekBar) budget() int {
	ids, _, budgets := efforts()
	return budgets[max(slices.Index(ids, b.effort.chosen()), 0)]
}

func (b *seekBar) refresh() {
	state, took, running := b.w.session.Searching()
	b.idle.Hidden, b.busy.Hidden = running, !running
	if !running {
		b.words.SetText(layoutWords(b.w.session.Job(), b.w.session.Plan(), b.w.session.PlanIsFresh()))
		return
	}
	ts, _ := b.w.session.Job().Tissue(state.Tissue)
	b.progress.SetValue(float64(state.Done) / float64(max(state.Total, 1)))
	best := state.Best
	words := fmt.Sprintf("%s · %.0f s", ts.Name, took.Seconds())
	if best.Opened > 0 {
		words = fmt.Sprintf("%s: %s, %s · %.0f s", ts.Name, t("%d sheets now", best.Sheets), overBound(best.Opened-best.Kept/2, best.Bound), took.Seconds())
	}
	b.words.SetText(words)
}

// usefulBound is the share of the tissue taken below which the bound says
// nothing: a few pieces on a large sheet, most of which is kept.
const usefulBound = 0.7

// overBound says by how much at most a layout could be better.
func overBound(use, bound float64) string {
	switch {
	case use <= bound*1.0005:
		return t("no better one can exist")
	case bound < use*usefulBound:
		return t("a better one may exist")
	}
	return t("at most %.1f %% better can exist", (1-bound/use)*100)
}

// layoutWords says how good the layouts of a plan are.
func layoutWords(j mendplan.Job, plan mendplan.Plan, fresh bool) string {
	if !fresh {
		return t("Laying out …")
	}
	words := ""
	for _, l := range plan.Layouts {
		ts, _ := j.Tissue(l.Tissue)
		if words != "" {
			words += "   "
		}
		words += ts.Name + ": " + sheetsWord(len(l.Layout.Sheets)) + ", "
		switch {
		case len(l.Layout.Unplaced) > 0:
			words += t("%d on no sheet", unplacedOf(l))
		case allHeld(j, l):
			words += t("held")
		case l.Layout.Proven:
			words += t("no better layout exists")
		default:
			words += overBound(l.Layout.Use(), l.Layout.Bound)
		}
		words += "."
	}
	return words
}

func unplacedOf(l mendplan.TissueLayout) int {
	n := 0
	for _, u := range l.Layout.Unplaced {
		n += u.Count
	}
	return n
}

func sheetsWord(n int) string {
	if n == 1 {
		return t("1 sheet")
	}
	return t("%d sheets", n)
}

func allHeld(j mendplan.Job, l mendplan.TissueLayout) bool {
	_, held := j.HeldAt(l.Tissue, len(l.Layout.Sheets)-1)
	return held
}
