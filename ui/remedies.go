package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// remedy is one act that may resolve a problem, one step that can be undone.
type remedy struct {
	words string
	run   func(w *Window, pr mendplan.Problem)
}

// byCommand takes the problem's place in hand and runs a command there.
func byCommand(id string) func(*Window, mendplan.Problem) {
	return func(w *Window, pr mendplan.Problem) {
		w.showStage(stageTrace)
		if pr.Leaf != "" {
			w.session.Show(pr.Leaf, pr.Side)
		}
		if pr.Damage > 0 {
			w.session.Select(pr.Damage)
		}
		w.Run(id)
	}
}

// withRule gives the mend of the problem's damage a rule of its own.
func withRule(key mendplan.RuleKey, v mendplan.RuleValue) func(*Window, mendplan.Problem) {
	return func(w *Window, pr mendplan.Problem) {
		leaf, d, ok := w.session.Job().FindDamage(pr.Damage)
		if !ok {
			return
		}
		d = withMend(d, func(m *mendplan.Mend) { m.Rules = m.Rules.With(key, v) })
		w.session.Do("change measure", w.session.Job().WithDamage(leaf.ID, d))
	}
}

// remediesFor lists what can be done about a problem in one act.
func remediesFor(pr mendplan.Problem) []remedy {
	if len(pr.Joins) > 0 && pr.Kind == mendplan.EdgeRun {
		return []remedy{{t("One strip along the edge"), func(w *Window, pr mendplan.Problem) {
			j, number := w.session.Job().AsNicks(pr.Leaf, pr.Joins...)
			if number > 0 {
				w.session.Do("mend as nicked edge", j)
				w.session.Select(number)
			}
		}}}
	}
	if len(pr.Joins) > 0 {
		return []remedy{{t("Join these pieces"), func(w *Window, pr mendplan.Problem) {
			w.session.Do("join pieces", w.session.Job().Join(pr.Leaf, pr.Joins...))
		}}}
	}
	switch pr.Kind {
	case mendplan.NoScale, mendplan.DoubtfulScale:
		return []remedy{{t("What tells the scale…"), byCommand("scale-file")}, {t("By two points"), byCommand("scale-points")}}
	case mendplan.NoScan, mendplan.ScanMissing, mendplan.ScanChanged:
		return []remedy{{t("Choose the scan…"), byCommand("scan-for-side")}}
	case mendplan.HeavyTissue:
		return onDamage(pr, remedy{t("Another tissue"), byCommand("tissue")})
	case mendplan.PrintCovered:
		return onDamage(pr, remedy{t("Mend from the other side"), byCommand("mend-side")})
	case mendplan.SameLine:
		return onDamage(pr, remedy{t("Wider margin"), byCommand("margin-wider")})
	case mendplan.GrainConflict:
		return onDamage(pr, remedy{t("Grain as the leaf"), withRule(mendplan.GrainRule, mendplan.Choice("as the leaf"))},
			remedy{t("Any grain"), withRule(mendplan.GrainRule, mendplan.Choice("free"))})
	case mendplan.OtherDamage:
		return onDamage(pr, remedy{t("Narrower margin"), byCommand("margin-narrower")})
	}
	return nil
}

// onDamage are remedies for problems that name a damage; those that do not
// have none.
func onDamage(pr mendplan.Problem, all ...remedy) []remedy {
	if pr.Damage == 0 {
		return nil
	}
	return all
}

// remedyButtons offers the remedies of a problem; nil where there is none.
func (w *Window) remedyButtons(pr mendplan.Problem) fyne.CanvasObject {
	row := container.NewVBox()
	for _, r := range remediesFor(pr) {
		row.Add(container.NewHBox(widget.NewButton(r.words, func() {
			r.run(w, pr)
			w.focusSurface()
		})))
	}
	if len(row.Objects) == 0 {
		return nil
	}
	return row
}
