package ui

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// ruleRow shows one rule: its value in force, editable; on what that rests;
// and, where it departs from what would hold otherwise, a way back.
type ruleRow struct {
	rule   mendplan.Rule
	rowSet ruleSetter
	number *textField
	choice *choiceField
	name   *widget.Label
	basis  *widget.Label
	back   *keyButton
	box    fyne.CanvasObject
}

// ruleSetter is where the values of rule rows come from and go to.
type ruleSetter interface {
	units() mendplan.Units
	// now returns the value in force, what would hold without the departure
	// made here, and whether there is one.
	now(r mendplan.Rule) (value, otherwise mendplan.RuleValue, departs bool)
	set(r mendplan.Rule, v mendplan.RuleValue)
	drop(r mendplan.Rule)
}

func newRuleRow(r mendplan.Rule, s ruleSetter) *ruleRow {
	row := &ruleRow{rule: r, rowSet: s, name: widget.NewLabel(t(r.Words)), basis: small("")}
	row.name.Wrapping = fyne.TextWrapWord
	row.back = newButtonWithIcon("", theme.ContentUndoIcon(), func() { s.drop(r) })
	row.back.Importance = widget.LowImportance
	var field fyne.CanvasObject
	if len(r.Choices) > 0 {
		row.choice = newChoice(func(id string) { s.set(r, mendplan.Choice(id)) })
		field = row.choice
	} else {
		row.number = newTextField(func(text string) { row.typed(text, true) })
		row.number.live = func(text string) { row.typed(text, false) }
		field = row.number
	}
	width := float32(112)
	if row.choice != nil {
		width = 140
	}
	right := container.NewHBox(container.NewGridWrap(fyne.NewSize(width, row.back.MinSize().Height), field), row.back)
	row.box = tight(container.NewBorder(nil, nil, nil, right, row.name), row.basis)
	return row
}

// typed takes a number as it is typed; a wrong one is told only when the user
// is done, and then the old value comes back.
func (row *ruleRow) typed(text string, done bool) {
	v, err := parseRule(text, row.rule, row.rowSet.units())
	switch {
	case err == nil && v >= row.rule.Min && v <= row.rule.Max:
		row.basis.Importance = widget.LowImportance
		if now, _, _ := row.rowSet.now(row.rule); now.Number != v {
			row.rowSet.set(row.rule, mendplan.Num(v))
		}
		if done {
			row.refresh() // with its unit, as the others
		}
	case done && err != nil:
		row.complain(sentence(errorIn(err)))
	default:
		row.complain(t("Allowed: %s to %s.", showRule(mendplan.Num(row.rule.Min), row.rule, row.rowSet.units()),
			showRule(mendplan.Num(row.rule.Max), row.rule, row.rowSet.units())))
	}
}

func (row *ruleRow) complain(words string) {
	row.basis.Importance = widget.DangerImportance
	row.basis.SetText(words)
}

// refresh shows the value in force.
func (row *ruleRow) refresh() {
	v, otherwise, departs := row.rowSet.now(row.rule)
	if row.choice != nil {
		words := make([]string, len(row.rule.Choices))
		for i, c := range row.rule.Choices {
			words[i] = t(c)
		}
		row.choice.set(row.rule.Choices, words, v.Word)
	} else {
		row.number.set(showRule(v, row.rule, row.rowSet.units()))
	}
	row.name.TextStyle.Bold = departs
	row.name.Refresh()
	row.basis.Importance = widget.LowImportance
	text := t("Default %s: %s", showRule(row.rule.Default, row.rule, row.rowSet.units()), row.rule.Basis)
	if departs {
		text = t("Set here; without it %s.", showRule(otherwise, row.rule, row.rowSet.units())) + " " + text
	}
	row.basis.SetText(text)
	if departs {
		row.back.Enable()
		row.back.SetIcon(theme.ContentUndoIcon())
	} else {
		row.back.Disable()
		row.back.SetIcon(nil)
	}
}

// showRule writes the value of a rule with its unit; lengths in the user's.
func showRule(v mendplan.RuleValue, r mendplan.Rule, u mendplan.Units) string {
	switch {
	case len(r.Choices) > 0:
		return t(v.Word)
	case r.Unit == "mm":
		return u.Length(v.Number)
	case r.Unit == "":
		return figures("%g", v.Number)
	}
	return figures("%g %s", v.Number, r.Unit)
}

// parseRule reads what showRule writes, and lengths in any unit.
func parseRule(text string, r mendplan.Rule, u mendplan.Units) (float64, error) {
	if r.Unit == "mm" {
		return mendplan.ParseLength(text, u)
	}
	text = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), r.Unit))
	v, err := strconv.ParseFloat(strings.Replace(text, ",", ".", 1), 64)
	if err != nil {
		return 0, notNumber(text)
	}
	return v, nil
}

type notNumber string

func (n notNumber) Error() string { return n.In(nil) }

// In implements [phrase.Sayable].
func (n notNumber) In(tongue phrase.Tongue) string {
	return tongue.Say("“%s” is not a number", string(n))
}
