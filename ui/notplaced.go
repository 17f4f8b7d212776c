package ui

import (
	"context"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// notPlaced names the pieces that are on no sheet, why, and what stock would
// do; each remedy is one press and one step of the job.
func (w *Window) notPlaced() {
	plan, job := w.session.Plan(), w.session.Job()
	ctx, stop := context.WithCancel(context.Background())
	var found []mendplan.Remedy
	w.status.begin(t("Looking for stock that would do"), stop)
	w.work.start(func() error {
		found = mendplan.Remedies(ctx, job, plan)
		return ctx.Err()
	}, func(err error) {
		w.status.end()
		stop()
		if err != nil {
			w.status.say(t("Stopped."))
			return
		}
		w.showRemedies(plan, found)
	})
}

func (w *Window) showRemedies(plan mendplan.Plan, found []mendplan.Remedy) {
	j := w.session.Job()
	u := unitsOf(j)
	box := container.NewVBox()
	var d *dialog.CustomDialog
	for _, r := range found {
		ts, _ := j.Tissue(r.Tissue)
		box.Add(heading(t("%s: %s on no sheet", ts.Name, pieceCount(len(r.Labels)))))
		box.Add(wrapped(strings.Join(first(r.Labels, 12), ", ") + ": " + t(r.Reason) + "."))
		s := r.Stock
		box.Add(wrapped(t("This would do: %d more of %s.", r.More, u.Size(s.LengthMM, s.WidthMM))))
		box.Add(container.NewHBox(newButton(t("Add this stock"), func() {
			d.Hide()
			w.session.Do("add stock", r.Apply(w.session.Job()))
			w.status.say(t("The stock is added; enter its price under “Tissues”."))
		})))
		box.Add(widget.NewSeparator())
	}
	if len(found) == 0 {
		box.Add(wrapped(t("Every piece has its place.")))
	}
	d = dialog.NewCustomWithoutButtons(t("What does not fit"), container.NewVScroll(box), w.win)
	size := w.win.Canvas().Size()
	d.SetButtons([]fyne.CanvasObject{
		w.answerButton(t("Tissues and stock"), widget.MediumImportance, func() { d.Hide(); w.showStage(stageStock) }),
		w.answerButton(t("Close"), widget.HighImportance, func() { d.Hide() })})
	d.Resize(fyne.NewSize(min(560, size.Width-40), min(420, size.Height-40)))
	w.present(d, nil)
}

// first shortens a list to its first n.
func first(list []string, n int) []string {
	if len(list) <= n {
		return list
	}
	return append(append([]string(nil), list[:n]...), "…")
}
