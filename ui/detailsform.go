package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// detailsForm holds the fields for one kind of damage and style of mend.
type detailsForm struct {
	w        *Window
	box      *fyne.Container
	title    *widget.Label
	warnings *fyne.Container
	kind     *choiceField
	style    *choiceField
	side     *choiceField
	tissue   *choiceField
	start    *choiceField
	end      *choiceField
	scarf    *scarfFields
	severity *choiceField
	noMend   *keyCheck
	unstable *keyCheck
	both     *keyCheck
	note     *textField
	pieces   *fyne.Container
	rules    []*ruleRow
	quiet    bool // checks are being set, not pressed
}

func newDetailsForm(w *Window, d mendplan.Damage) *detailsForm {
	p := &detailsForm{w: w, box: inScroll()}
	p.build(d)
	return p
}

// build makes the fields for a kind of damage.
func (p *detailsForm) build(d mendplan.Damage) {
	s := p.w.session
	edit := func(label string, change func(*mendplan.Damage)) {
		s.EditDamages(label, func(d mendplan.Damage) mendplan.Damage { change(&d); return d })
	}
	p.title = heading("")
	p.title.Truncation = fyne.TextTruncateEllipsis
	p.warnings = tight()
	p.kind = newChoice(func(id string) {
		edit("change kind", func(d *mendplan.Damage) { d.Kind = mendplan.DamageKind(id) })
	})
	p.noMend = newCheck(t("Record only, cut no tissue"), func(on bool) {
		if !p.quiet {
			edit("record only", func(d *mendplan.Damage) { d.NoMend = on })
		}
	})
	p.unstable = newCheck(t("Unstable: handle with care"), func(on bool) {
		if !p.quiet {
			edit("mark unstable", func(d *mendplan.Damage) { d.Unstable = on })
		}
	})
	p.severity = newChoice(func(id string) {
		edit("grade damage", func(d *mendplan.Damage) { d.Severity = mendplan.Severity(id) })
	})
	p.note = newTextArea(func(text string) { edit("write note", func(d *mendplan.Damage) { d.Note = text }) })
	p.note.SetPlaceHolder(t("Note"))
	p.pieces = tight()
	p.box.Add(p.title)
	p.box.Add(labelled(t("Kind"), p.kind))
	if d.Kind.Mended() {
		p.buildMend(d)
	} else {
		p.box.Add(p.warnings)
	}
	p.box.Add(labelled(t("Severity"), p.severity))
	p.box.Add(wrapping(p.noMend))
	p.box.Add(wrapping(p.unstable))
	p.box.Add(p.note)
}

// buildMend makes the fields of the mend: how, with what, on which side, and
// each measure with its basis.
func (p *detailsForm) buildMend(d mendplan.Damage) {
	mend := func(label string, change func(*mendplan.Mend)) {
		p.w.session.EditDamages(label, func(d mendplan.Damage) mendplan.Damage { return d.WithMend(change) })
	}
	p.style = newChoice(func(id string) { mend("change style", func(m *mendplan.Mend) { m.Style = mendplan.Style(id) }) })
	p.side = newChoice(func(id string) { mend("change side", func(m *mendplan.Mend) { m.Side = mendplan.SideName(id) }) })
	p.tissue = newChoice(func(id string) { mend("change tissue", func(m *mendplan.Mend) { m.Tissue = id }) })
	p.box.Add(labelled(t("Mend"), p.style))
	p.box.Add(labelled(t("Pasted on"), p.side))
	p.box.Add(labelled(t("Tissue"), p.tissue))
	if !d.Kind.Closed() {
		p.both = newCheck(t("A second mend on the other side"), func(on bool) {
			if !p.quiet {
				p.w.session.EditDamages("mend both sides", func(d mendplan.Damage) mendplan.Damage { return withSecond(d, on) })
			}
		})
		p.box.Add(wrapping(p.both))
	}
	if !d.Kind.Closed() {
		p.start = newChoice(func(id string) {
			p.w.session.EditDamages("set end", func(d mendplan.Damage) mendplan.Damage { d.Start = mendplan.EndKind(id); return d })
		})
		p.end = newChoice(func(id string) {
			p.w.session.EditDamages("set end", func(d mendplan.Damage) mendplan.Damage { d.End = mendplan.EndKind(id); return d })
		})
		p.box.Add(labelled(t("Begins"), p.start))
		p.box.Add(labelled(t("Ends"), p.end))
		p.scarf = newScarfFields(p.w, d.Kind, p.box)
	}
	p.box.Add(p.warnings) // below the choices: what a choice brings must not push them from under the pointer
	p.box.Add(heading(t("Pieces")))
	p.box.Add(p.pieces)
	p.box.Add(heading(t("Measures")))
	for _, key := range rulesOf(styleInForce(p.w.session.Job(), d)) {
		if rule, ok := mendplan.RuleFor(key); ok {
			row := newRuleRow(rule, mendRules{p.w})
			p.rules = append(p.rules, row)
			p.box.Add(row.box)
		}
	}
}

// fill shows the damage in the fields.
func (p *detailsForm) fill(d mendplan.Damage) {
	s := p.w.session
	j := s.Job()
	title := sentenceCase(t(string(d.Kind))) + fmt.Sprintf(" %d", d.Number)
	if n := len(s.Selected()); n > 1 {
		title = t("%d damages: changes go to all", n)
	}
	p.title.SetText(title)
	var kinds, words []string
	for _, k := range slices.Concat(mendplan.MendedKinds(), mendplan.NotedKinds()) {
		if k.Closed() == d.Kind.Closed() {
			kinds, words = append(kinds, string(k)), append(words, sentenceCase(t(string(k))))
		}
	}
	p.kind.set(kinds, words, string(d.Kind))
	p.severity.set([]string{"", "slight", "moderate", "severe"}, []string{t("not graded"), t("slight"), t("moderate"), t("severe")}, string(d.Severity))
	p.quiet = true
	p.noMend.SetChecked(d.NoMend)
	p.unstable.SetChecked(d.Unstable)
	p.quiet = false
	p.note.set(d.Note)
	p.fillWarnings(d)
	if p.style != nil {
		p.fillMend(j, d)
	}
}

func (p *detailsForm) fillMend(j mendplan.Job, d mendplan.Damage) {
	var m mendplan.Mend
	if len(d.Mends) > 0 {
		m = d.Mends[0]
	}
	styles, words := []string{""}, []string{t("as the rules say: %s", t(string(styleByRules(j, d))))}
	for _, st := range mendplan.StylesFor(d.Kind) {
		styles, words = append(styles, string(st)), append(words, t(string(st)))
	}
	p.style.set(styles, words, string(m.Style))
	advised, tissue := p.w.planned(d)
	p.side.set([]string{"", "front", "back"}, []string{t("as advised: %s", sideShort(advised)), t("front"), t("back")}, string(m.Side))
	ids, names := []string{""}, []string{t("first that suits: %s", tissue)}
	for _, ts := range j.Tissues {
		ids, names = append(ids, ts.ID), append(names, ts.Name)
	}
	p.tissue.set(ids, names, m.Tissue)
	if p.both != nil {
		p.quiet = true
		p.both.SetChecked(len(d.Mends) > 1)
		p.quiet = false
	}
	if p.start != nil {
		ends := []string{"", "blind", "edge"}
		endWords := []string{t("told by the place"), t("inside the leaf"), t("at the edge")}
		p.start.set(ends, endWords, string(d.Start))
		p.end.set(ends, endWords, string(d.End))
		p.scarf.fill(d)
	}
	for _, row := range p.rules {
		row.refresh()
	}
	p.fillPieces(d)
}

// fillPieces lists the pieces with their sizes and why they are so.
func (p *detailsForm) fillPieces(d mendplan.Damage) {
	u := unitsOf(p.w.session.Job())
	p.pieces.Objects = nil
	var why []string
	for _, piece := range p.w.session.PiecesOf(d.Number) {
		line := widget.NewLabel(fmt.Sprintf("%s   %s", piece.Label, u.Size(piece.BlankLengthMM, piece.BlankWidthMM)))
		line.TextStyle.Monospace = false
		p.pieces.Add(line)
		for _, r := range piece.Reasons {
			if words := sentence(say(r)); !slices.Contains(why, words) {
				why = append(why, words)
			}
		}
	}
	if len(p.pieces.Objects) == 0 {
		p.pieces.Add(small(t("No piece yet.")))
	}
	if len(why) > 0 {
		p.pieces.Add(small(strings.Join(why, " ")))
	}
	p.pieces.Refresh()
}

// fillWarnings shows the problems of this damage where it is edited.
func (p *detailsForm) fillWarnings(d mendplan.Damage) {
	p.w.remedies.drop(p.warnings)
	p.warnings.Objects = nil
	for _, pr := range p.w.session.Problems() {
		if pr.Damage == d.Number {
			p.warnings.Add(problemLine(pr))
			p.warnings.Add(p.w.remedyRows(pr, 0))
		}
	}
	if leaf, ok := p.w.session.Leaf(); ok && len(d.Mends) > 0 && len(d.Mends[0].Joins) > 0 {
		p.warnings.Add(container.NewHBox(small(t("Its pieces are joined with others.")), newButton(t("Part them"), func() {
			p.w.session.Do("part pieces", p.w.session.Job().Unjoin(leaf.ID, d.Number))
		})))
	}
	p.warnings.Refresh()
}
