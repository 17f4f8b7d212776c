package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// beforeBook is what comes before the first cut: the list of what should make
// one stop and ask a conservator, and the examination of the object.
type beforeBook struct {
	w      *Window
	state  *widget.Label
	stops  []*keyCheck
	fields []examField
	quiet  bool
	box    fyne.CanvasObject
}

// examField is one field of the examination.
type examField struct {
	field *textField
	at    func(*mendplan.Examination) *string
}

func newBeforeBook(w *Window) *beforeBook {
	b := &beforeBook{w: w, state: heading("")}
	b.state.Wrapping = fyne.TextWrapWord
	list := tight()
	for _, s := range course.StopList() {
		c := newCheck(t(s), func(on bool) { b.answer(s, on) })
		b.stops = append(b.stops, c)
		list.Add(c)
	}
	stop := container.NewBorder(tight(heading(t("Stop and ask a conservator")), b.state,
		small(t("Tick what you have looked for and not found. If any of it is there, lay the work aside and ask a conservator."))),
		small(t(course.Defer)+" (US National Park Service, Conserve O Gram 13/2; Missouri State Archives; Cockerell, 1901)"), nil, nil, container.NewVScroll(list))
	split := container.NewHSplit(stop, container.NewVScroll(b.examination()))
	split.Offset = 0.42
	b.box = split
	return b
}

// examination is the form of what a proposal and a report tell of the object.
func (b *beforeBook) examination() fyne.CanvasObject {
	box := tight(heading(t("Examination")), small(t("This stands in the proposal and in the report.")))
	add := func(words string, at func(*mendplan.Examination) *string, area bool) {
		done := func(s string) {
			j := b.w.session.Job()
			*at(&j.Examination) = s
			b.w.session.Do("write examination", j)
		}
		f := newTextField(done)
		if area {
			f = newTextArea(done)
			f.SetMinRowsVisible(2)
		}
		b.fields = append(b.fields, examField{f, at})
		box.Add(labelled(words, f))
	}
	add(t("Object"), func(e *mendplan.Examination) *string { return &e.Object }, true)
	add(t("Materials"), func(e *mendplan.Examination) *string { return &e.Materials }, true)
	add(t("Condition before"), func(e *mendplan.Examination) *string { return &e.Condition }, true)
	add(t("Cause"), func(e *mendplan.Examination) *string { return &e.Cause }, false)
	add(t("Purpose"), func(e *mendplan.Examination) *string { return &e.Purpose }, true)
	add(t("Options"), func(e *mendplan.Examination) *string { return &e.Options }, true)
	add(t("Risks"), func(e *mendplan.Examination) *string { return &e.Risks }, true)
	add(t("Author"), func(e *mendplan.Examination) *string { return &e.Author }, false)
	add(t("Consent"), func(e *mendplan.Examination) *string { return &e.Consent }, false)
	add(t("Final state"), func(e *mendplan.Examination) *string { return &e.FinalState }, true)
	add(t("What was found"), func(e *mendplan.Examination) *string { return &e.Found }, true)
	return box
}

func (b *beforeBook) content() fyne.CanvasObject { return b.box }

func (b *beforeBook) refresh() {
	j := b.w.session.Job()
	b.quiet = true
	for i, s := range course.StopList() {
		b.stops[i].SetChecked(slices.Contains(j.StopList, s))
	}
	b.quiet = false
	if n := len(course.OpenStops(j)); n > 0 {
		b.state.SetText(t("%d of %d are not answered: do not take it apart yet.", n, len(b.stops)))
	} else {
		b.state.SetText(t("All answered: nothing here speaks against going on."))
	}
	for _, f := range b.fields {
		f.field.set(*f.at(&j.Examination))
	}
}

// answer notes that something of the stop list was looked for and not found,
// or takes that back.
func (b *beforeBook) answer(stop string, notFound bool) {
	if b.quiet {
		return
	}
	j := b.w.session.Job()
	list := slices.DeleteFunc(slices.Clone(j.StopList), func(s string) bool { return s == stop })
	if notFound {
		list = append(list, stop)
	}
	j.StopList = list
	b.w.session.Do("answer stop list", j)
}
