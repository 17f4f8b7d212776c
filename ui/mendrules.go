package ui

import (
	"fmt"
	"slices"

	"leafmend/mendplan"
)

// rulesOf lists the rules that measure a style, in the order shown.
func rulesOf(style mendplan.Style) []mendplan.RuleKey {
	switch style {
	case mendplan.Shaped:
		return []mendplan.RuleKey{mendplan.SideMargin, mendplan.EndMargin, mendplan.EdgeOverhang, mendplan.LongestStrip,
			mendplan.PieceOverlap, mendplan.GrainRule, mendplan.EdgePieceOn, mendplan.EdgePiece, mendplan.Fringe}
	case mendplan.Strips:
		return []mendplan.RuleKey{mendplan.StripWidth, mendplan.WidestStrip, mendplan.EndMargin, mendplan.EdgeOverhang,
			mendplan.LongestStrip, mendplan.PieceOverlap, mendplan.TurnAngle, mendplan.TabLength, mendplan.GrainRule,
			mendplan.EdgePieceOn, mendplan.EdgePiece, mendplan.Fringe}
	case mendplan.Bridges:
		return []mendplan.RuleKey{mendplan.BridgeLength, mendplan.BridgeWidth, mendplan.BridgeSpacing, mendplan.GrainRule, mendplan.Fringe}
	case mendplan.Guard:
		return []mendplan.RuleKey{mendplan.GuardWidth, mendplan.GuardLength, mendplan.GuardSpan, mendplan.GuardSide, mendplan.Fringe}
	case mendplan.Infill:
		return []mendplan.RuleKey{mendplan.FillOverlap, mendplan.FillEdgeOverlap, mendplan.FillOverhang, mendplan.FillOverlay,
			mendplan.OverlayMargin, mendplan.Fringe}
	case mendplan.Overlay:
		return []mendplan.RuleKey{mendplan.OverlayMargin, mendplan.FillOverhang, mendplan.Fringe}
	case mendplan.EdgeStrip:
		return []mendplan.RuleKey{mendplan.NickGap, mendplan.NickDepth, mendplan.SideMargin, mendplan.EndMargin, mendplan.EdgeOverhang, mendplan.Fringe}
	}
	return nil
}

// styleByRules is the style that a damage gets when its mend names none.
func styleByRules(j mendplan.Job, d mendplan.Damage) mendplan.Style {
	r := mendplan.InForce{Job: j.Rules}
	if len(d.Mends) > 0 {
		r.Mend = d.Mends[0].Rules
	}
	if !d.Kind.Mended() {
		return ""
	}
	return mendplan.DefaultStyle(d.Kind, r)
}

// styleInForce is the style of a damage's first mend.
func styleInForce(j mendplan.Job, d mendplan.Damage) mendplan.Style {
	if len(d.Mends) > 0 && slices.Contains(mendplan.StylesFor(d.Kind), d.Mends[0].Style) {
		return d.Mends[0].Style
	}
	return styleByRules(j, d)
}

// planned tells side and tissue of the first piece of the damage.
func (w *Window) planned(d mendplan.Damage) (mendplan.SideName, string) {
	for _, piece := range w.session.PiecesOf(d.Number) {
		ts, _ := w.session.Job().Tissue(piece.Tissue)
		return piece.Side, ts.Name
	}
	return "", "—"
}

// withSecond adds a second mend on the other side of the first, somewhat
// larger so that the two do not end on the same line, or takes it away.
func withSecond(d mendplan.Damage, on bool) mendplan.Damage {
	first := mendplan.Mend{}
	if len(d.Mends) > 0 {
		first = d.Mends[0]
	}
	d.Mends = nil
	if on {
		d.Mends = []mendplan.Mend{first, {Side: first.Side.Other(), Style: first.Style}}
		return d
	}
	return d.WithMend(func(m *mendplan.Mend) { *m = first })
}

// mendRules lets rule rows read and set departures of the mend in hand.
type mendRules struct{ w *Window }

func (r mendRules) units() mendplan.Units { return unitsOf(r.w.session.Job()) }

func (r mendRules) now(rule mendplan.Rule) (value, otherwise mendplan.RuleValue, departs bool) {
	j := r.w.session.Job()
	f := mendplan.InForce{Job: j.Rules}
	otherwise = inForce(f, rule)
	if d, ok := r.w.session.Damage(); ok && len(d.Mends) > 0 {
		f.Mend = d.Mends[0].Rules
		_, departs = f.Mend[rule.Key]
	}
	return inForce(f, rule), otherwise, departs
}

func (r mendRules) set(rule mendplan.Rule, v mendplan.RuleValue) {
	gesture := fmt.Sprint("rule ", rule.Key, r.w.session.Selected())
	r.w.session.amendDamages(gesture, "change measure", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Rules = m.Rules.With(rule.Key, v) })
	})
}

func (r mendRules) drop(rule mendplan.Rule) {
	r.w.session.EditDamages("drop own measure", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Rules = m.Rules.Without(rule.Key) })
	})
}

// jobRules lets rule rows read and set departures of the whole job.
type jobRules struct{ w *Window }

func (r jobRules) units() mendplan.Units { return unitsOf(r.w.session.Job()) }

func (r jobRules) now(rule mendplan.Rule) (value, otherwise mendplan.RuleValue, departs bool) {
	rules := r.w.session.Job().Rules
	_, departs = rules[rule.Key]
	return inForce(mendplan.InForce{Job: rules}, rule), rule.Default, departs
}

func (r jobRules) set(rule mendplan.Rule, v mendplan.RuleValue) {
	s := r.w.session
	s.Amend("job rule "+string(rule.Key), "change rule", s.Job().WithRule(rule.Key, v))
}

func (r jobRules) drop(rule mendplan.Rule) {
	r.w.session.Do("rule back to its default", r.w.session.Job().WithoutRule(rule.Key))
}

func inForce(f mendplan.InForce, rule mendplan.Rule) mendplan.RuleValue {
	if len(rule.Choices) > 0 {
		return mendplan.Choice(f.Word(rule.Key))
	}
	return mendplan.Num(f.Number(rule.Key))
}
