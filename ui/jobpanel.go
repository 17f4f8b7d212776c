package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// jobPanel shows the particulars of the job and every rule with its source.
type jobPanel struct {
	w      *Window
	fill   []func()
	rules  []*ruleRow
	groups map[string]*fyne.Container
	find   *widget.Entry
	own    *keyCheck
	box    fyne.CanvasObject
}

func newJobPanel(w *Window) *jobPanel {
	p := &jobPanel{w: w, groups: map[string]*fyne.Container{}}
	split := container.NewHSplit(container.NewVScroll(p.particulars()), p.ruleList())
	split.Offset = 0.36
	p.box = container.New(layout.NewCustomPaddedLayout(4, 2, 6, 6), split)
	return p
}

func (p *jobPanel) content() fyne.CanvasObject { return p.box }

// edit changes the job, as one step.
func (p *jobPanel) edit(label string, change func(*mendplan.Job)) {
	j := p.w.session.Job()
	change(&j)
	p.w.session.Do(label, j)
}

func (p *jobPanel) text(label string, at func(*mendplan.Job) *string, area bool) *textField {
	done := func(s string) { p.edit(label, func(j *mendplan.Job) { *at(j) = s }) }
	f := newTextField(done)
	if area {
		f = newTextArea(done)
	}
	p.fill = append(p.fill, func() { j := p.w.session.Job(); f.set(*at(&j)) })
	return f
}

func (p *jobPanel) particulars() fyne.CanvasObject {
	choice := func(label string, ids, words []string, get func(mendplan.Job) string, set func(*mendplan.Job, string)) *choiceField {
		c := newChoice(func(id string) { p.edit(label, func(j *mendplan.Job) { set(j, id) }); p.w.showLook() })
		p.fill = append(p.fill, func() { c.set(ids, words, get(p.w.session.Job())) })
		return c
	}
	units := choice("change units", []string{"mm", "in"}, []string{t("millimetres"), t("inches")},
		func(j mendplan.Job) string { return unitChosen(j.Units) }, func(j *mendplan.Job, id string) { j.Units = mendplan.Units(id) })
	paper := choice("change paper", []string{"A4", "Letter"}, []string{"A4", "US Letter"}, func(j mendplan.Job) string {
		if j.Paper == "" {
			return "A4"
		}
		return string(j.Paper)
	}, func(j *mendplan.Job, id string) { j.Paper = mendplan.Paper(id) })
	grain := choice("change grain", []string{"", string(mendplan.GrainUpright), string(mendplan.GrainAcross)},
		[]string{t("not known"), t("head to tail"), t("across")}, func(j mendplan.Job) string { return string(j.LeafPaper.Grain) },
		func(j *mendplan.Job, id string) { j.LeafPaper.Grain = mendplan.Grain(id) })
	weight := newTextField(func(s string) {
		v, err := parsePositive(s)
		if err != nil {
			p.w.status.say(sentence(errorIn(err)))
			return
		}
		p.edit("change weight of leaves", func(j *mendplan.Job) { j.LeafPaper.Grammage = v })
	})
	weight.SetPlaceHolder(t("not known"))
	p.fill = append(p.fill, func() { weight.set(showPositive(p.w.session.Job().LeafPaper.Grammage, " g/m²")) })
	coated := newCheck(t("Coated, glossy paper: water may harm it"), nil)
	quiet := false
	coated.OnChanged = func(on bool) {
		if !quiet {
			p.edit("mark as coated", func(j *mendplan.Job) { j.LeafPaper.Coated = on })
		}
	}
	p.fill = append(p.fill, func() { quiet = true; coated.SetChecked(p.w.session.Job().LeafPaper.Coated); quiet = false })
	return tight(heading(t("The job")),
		labelled(t("Title"), p.text("change title", func(j *mendplan.Job) *string { return &j.Title }, false)),
		labelled(t("Job number"), p.text("change job number", func(j *mendplan.Job) *string { return &j.Number }, false)),
		labelled(t("Owner"), p.text("change owner", func(j *mendplan.Job) *string { return &j.Owner }, false)),
		labelled(t("Lengths in"), units), labelled(t("Paper to print on"), paper),
		heading(t("The leaves, where they say nothing of their own")),
		labelled(t("Weight"), weight), labelled(t("Grain"), grain), coated,
		heading(t("Notes")), p.text("write notes", func(j *mendplan.Job) *string { return &j.Notes }, true))
}

// ruleList shows every rule, by groups, with a way to find one.
func (p *jobPanel) ruleList() fyne.CanvasObject {
	list := tight()
	for _, r := range mendplan.RuleTable() {
		g := p.groups[r.Group]
		if g == nil {
			g = tight(heading(t(r.Group)))
			p.groups[r.Group] = g
			list.Add(g)
		}
		row := newRuleRow(r, jobRules{p.w})
		p.rules = append(p.rules, row)
		g.Add(row.box)
	}
	p.find = widget.NewEntry()
	p.find.SetPlaceHolder(t("Find a rule"))
	p.find.OnChanged = func(string) { p.filter() }
	p.own = newCheck(t("only those changed here"), func(bool) { p.filter() })
	top := container.NewBorder(nil, nil, heading(t("Rules")), p.own, p.find)
	note := small(t("These hold for the whole job. A single mend can depart from them where it is edited."))
	return container.NewBorder(container.NewVBox(top, note), nil, nil, nil, container.NewVScroll(list))
}

// filter hides the rules that were not asked for.
func (p *jobPanel) filter() {
	words := strings.Fields(strings.ToLower(p.find.Text))
	shown := map[string]bool{}
	for _, row := range p.rules {
		text := strings.ToLower(t(row.rule.Words) + " " + t(row.rule.Group) + " " + row.rule.Basis)
		show := true
		for _, w := range words {
			show = show && strings.Contains(text, w)
		}
		if p.own.Checked {
			_, _, departs := row.rowSet.now(row.rule)
			show = show && departs
		}
		if show {
			row.box.Show()
		} else {
			row.box.Hide()
		}
		shown[row.rule.Group] = shown[row.rule.Group] || show
	}
	for name, g := range p.groups {
		g.Hidden = !shown[name]
		g.Refresh()
	}
}

func (p *jobPanel) refresh() {
	for _, f := range p.fill {
		f()
	}
	for _, row := range p.rules {
		row.refresh()
	}
}

// gapWide is empty width.
func gapWide(w float32) fyne.CanvasObject {
	r := canvas.NewRectangle(nil)
	r.SetMinSize(fyne.NewSize(w, 1))
	return r
}
