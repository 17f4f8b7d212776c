package ui

import (
	"slices"

	"leafmend/mendplan"
)

// marginStep is what a key adds to a margin, mm (common practice, no source).
const marginStep = 0.5

// stepMargin makes the margins of the chosen mends wider or narrower; steps
// that follow one another are one.
func (w *Window) stepMargin(by float64) {
	j, words := w.session.Job(), ""
	w.session.amendDamages("margin by key", "change measure", func(d mendplan.Damage) mendplan.Damage {
		key, times, ok := marginRule(styleInForce(j, d))
		rule, known := mendplan.RuleFor(key)
		if !ok || !known {
			return d
		}
		v := min(max(inForceOf(j, d).Number(key)+by*marginStep*times, rule.Min), rule.Max)
		words = t(rule.Words) + ": " + unitsOf(j).Length(v)
		return d.WithMend(func(m *mendplan.Mend) { m.Rules = m.Rules.With(key, mendplan.Num(v)) })
	})
	w.status.say(words)
}

// dropMargin lets the rules' margin hold again.
func (w *Window) dropMargin() {
	j := w.session.Job()
	w.session.EditDamages("drop own measure", func(d mendplan.Damage) mendplan.Damage {
		key, _, _ := marginRule(styleInForce(j, d))
		return d.WithMend(func(m *mendplan.Mend) { m.Rules = m.Rules.Without(key) })
	})
}

func hasMargin(w *Window) bool {
	d, ok := w.session.Damage()
	_, _, has := marginRule(styleInForce(w.session.Job(), d))
	return ok && has && !d.NoMend && d.Kind.Mended()
}

func hasStrips(w *Window) bool {
	d, ok := w.session.Damage()
	return ok && !d.NoMend && styleInForce(w.session.Job(), d) == mendplan.Strips
}

// breakHere lets one strip end and the next begin at the chosen point.
func (w *Window) breakHere() {
	leaf, _ := w.session.Leaf()
	d, ok := w.session.Damage()
	frame, _, fault := mendplan.FrameOf(leaf, d.Side)
	if !ok || fault != nil {
		return
	}
	line := lineOf(frame, d)
	share := 0.5
	if p, chosen := w.surface.ChosenPoint(); chosen && d.Side == w.session.Side() {
		_, s := line.Nearest(frame.ToLeaf(p))
		share = s / line.Length()
	}
	if share < 0.005 || share > 0.995 || slices.Contains(breaksOf(d), share) {
		w.status.say(t("A strip cannot begin there: choose a point between the ends of the tear."))
		return
	}
	breaks := append(slices.Clone(breaksOf(d)), share)
	slices.Sort(breaks)
	d = d.WithMend(func(m *mendplan.Mend) { m.Breaks = breaks })
	w.session.Do("set break of strips", w.session.Job().WithDamage(leaf.ID, d))
}

// dropBreaks lets the program break the strips again.
func (w *Window) dropBreaks() {
	w.session.EditDamages("drop breaks of strips", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Breaks = nil })
	})
}
