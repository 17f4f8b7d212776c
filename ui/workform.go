package ui

import (
	"strconv"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// stepForm is where a step is written down: what, when, by whom, and what
// belongs to that kind of step.
type stepForm struct {
	p        *stepBook
	kind     *choiceField
	day      *textField
	hour     *textField
	by       *textField
	side     *choiceField
	own      *keyButton
	note     *textField
	departs  *textField
	batch    *choiceField
	batchOf  string // fresh batch proposed last
	at       string // day and hour proposed last
	test     map[string]*textField
	result   *choiceField
	bath     map[string]*textField
	testBox  *fyne.Container
	bathBox  *fyne.Container
	batchBox fyne.CanvasObject
	cautions *widget.Label
	button   *keyButton
	box      *fyne.Container
}

func newStepForm(p *stepBook) *stepForm {
	f := &stepForm{p: p, test: map[string]*textField{}, bath: map[string]*textField{}, cautions: small("")}
	f.kind = newChoice(func(string) { f.refresh() })
	f.day, f.hour, f.by = newTextField(nil), newTextField(nil), p.w.nameField()
	f.side = newChoice(func(string) {})
	f.side.set([]string{"", string(mendplan.Front), string(mendplan.Back)}, []string{t("both sides"), t("front"), t("back")}, "")
	f.own = newButton(t("Another…"), p.w.ownStepDialog)
	f.note, f.departs = newTextField(nil), newTextField(nil)
	f.departs.SetPlaceHolder(t("how it differed from the plan, if it did"))
	f.batch = newChoice(func(string) {})
	f.result = newChoice(func(string) {})
	f.result.set([]string{string(mendplan.Stable), string(mendplan.Bleeds), string(mendplan.Changes)}, []string{t("stable"), t("bleeds"), t("changes")}, string(mendplan.Stable))
	f.testBox = f.fields(f.test, []string{t("Medium"), t("Place"), t("Liquid"), t("Seconds")})
	f.testBox.Add(labelled(t("Result"), f.result))
	f.bathBox = f.fields(f.bath, []string{t("Agent"), t("Concentration"), t("Water"), t("pH before"), t("pH after"), t("Leaf pH before"), t("Leaf pH after"), t("Minutes"), t("Baths"), t("Temperature, °C"), t("Alkaline reserve, %"), t("Drying")})
	f.batchBox = labelled(t("Paste used"), f.batch)
	f.button = newButton(t("Record"), f.record)
	f.button.Importance = widget.HighImportance
	when := container.NewGridWithColumns(2, labelled(t("Day"), f.day), labelled(t("Time"), f.hour))
	who := container.NewGridWithColumns(2, labelled(t("By"), f.by), labelled(t("Side"), f.side))
	f.box = tight(labelled(t("Step"), container.NewBorder(nil, nil, nil, f.own, f.kind)), when, who, f.testBox, f.bathBox, f.batchBox,
		labelled(t("Note"), f.note), labelled(t("Departure"), f.departs), f.button, f.cautions)
	return f
}

// fields makes a line for each name and keeps it under that name.
func (f *stepForm) fields(into map[string]*textField, names []string) *fyne.Container {
	box := tight()
	for _, n := range names {
		into[n] = newTextField(nil)
		box.Add(labelled(n, into[n]))
	}
	return box
}

// tellTime proposes this moment, unless another was written.
func (f *stepForm) tellTime() {
	if f.at != "" && f.at != f.day.Text+" "+f.hour.Text || f.day.focused || f.hour.focused {
		return
	}
	now := time.Now()
	f.day.set(now.Format(time.DateOnly))
	f.hour.set(now.Format("15:04"))
	f.at = f.day.Text + " " + f.hour.Text
}

func show(o fyne.CanvasObject, on bool) {
	if on {
		o.Show()
	} else {
		o.Hide()
	}
}

func (f *stepForm) refresh() {
	f.p.w.fillName(f.by)
	f.tellTime()
	j := f.p.w.session.Job()
	var ids, words []string
	for _, k := range kindsOf(j) {
		ids, words = append(ids, string(k)), append(words, t(string(k)))
	}
	chosen := f.kind.chosen()
	if chosen == "" {
		chosen = ids[0]
	}
	f.kind.set(ids, words, chosen)
	kind := mendplan.StepKind(chosen)
	show(f.testBox, kind == mendplan.Tested)
	show(f.bathBox, kind == mendplan.Washed || kind == mendplan.Alkalised || kind == mendplan.Bleached)
	show(f.batchBox, kind == mendplan.MendedStep)
	batches, names := []string{""}, []string{t("not said")}
	for _, b := range j.Batches {
		batches, names = append(batches, b.ID), append(names, b.ID+", "+t(string(course.BatchState(j, b, f.day.Text))))
	}
	batch := f.batch.chosen()
	if have := course.WorthCooking(j, f.p.w.session.Plan(), f.day.Text).Have; f.batchOf != have {
		batch, f.batchOf = have, have
	}
	f.batch.set(batches, names, batch)
	var mind []string
	for _, c := range course.Cautions(kind) {
		mind = append(mind, t(c.Topic)+": "+t(c.Words)+" ("+c.Basis+")")
	}
	if len(mind) > 0 {
		mind = append(mind, t(course.Defer))
	}
	f.cautions.SetText(strings.Join(mind, "\n"))
	n := len(f.p.chosenLeaves())
	f.button.SetText(t("Record for %d leaves", n))
	if n == 0 {
		f.button.Disable()
	} else {
		f.button.Enable()
	}
}

// goOn proposes what comes next: survey, collation and taking apart in turn,
// then what is due, when it is the same for all leaves chosen. Tests stay: a
// leaf has several media.
func (f *stepForm) goOn() {
	switch mendplan.StepKind(f.kind.chosen()) {
	case mendplan.Surveyed:
		f.kind.pick(string(mendplan.Collated))
		return
	case mendplan.Collated:
		f.kind.pick(string(mendplan.Disbound))
		return
	case mendplan.Tested:
		return
	}
	j := f.p.w.session.Job()
	next := mendplan.StepKind("")
	for _, id := range f.p.chosenLeaves() {
		l, _ := j.Leaf(id)
		k := course.Next(j, l)
		if k == "" || next != "" && k != next {
			return
		}
		next = k
	}
	f.kind.pick(string(next))
}

// step reads the form; what cannot be read is said in the status line.
func (f *stepForm) step() (mendplan.Step, bool) {
	s := mendplan.Step{Kind: mendplan.StepKind(f.kind.chosen()), Date: strings.TrimSpace(f.day.Text), Time: strings.TrimSpace(f.hour.Text),
		Side: mendplan.SideName(f.side.chosen()), Note: f.note.Text, Departure: f.departs.Text}
	if _, err := course.ParseDay(s.Date); err != nil {
		f.p.w.status.say(sentence(errorIn(err)))
		return s, false
	}
	if _, err := time.Parse("15:04", s.Time); s.Time != "" && err != nil {
		f.p.w.status.say(t("Write the time as 14:30, or leave it empty."))
		return s, false
	}
	by, ok := f.p.w.namedIn(f.by)
	if !ok {
		return s, false
	}
	s.By = by
	if f.testBox.Visible() {
		seconds, ok := f.number(f.test[t("Seconds")])
		if !ok {
			return s, false
		}
		s.Test = &mendplan.SpotTest{Medium: f.test[t("Medium")].Text, Place: f.test[t("Place")].Text, Liquid: f.test[t("Liquid")].Text, Seconds: seconds, Result: mendplan.TestResult(f.result.chosen())}
	}
	if f.bathBox.Visible() {
		bath, ok := f.readBath()
		if !ok {
			return s, false
		}
		s.Bath = &bath
	}
	if f.batchBox.Visible() {
		s.Batch = f.batch.chosen()
	}
	return s, true
}

func (f *stepForm) readBath() (mendplan.Bath, bool) {
	b := mendplan.Bath{Agent: f.bath[t("Agent")].Text, Concentration: f.bath[t("Concentration")].Text, Water: f.bath[t("Water")].Text, Drying: f.bath[t("Drying")].Text}
	var baths float64
	for _, x := range []struct {
		name string
		to   *float64
	}{{t("pH before"), &b.PHBefore}, {t("pH after"), &b.PHAfter}, {t("Leaf pH before"), &b.LeafPHBefore}, {t("Leaf pH after"), &b.LeafPHAfter}, {t("Minutes"), &b.Minutes}, {t("Baths"), &baths}, {t("Temperature, °C"), &b.Celsius}, {t("Alkaline reserve, %"), &b.ReservePercent}} {
		v, ok := f.number(f.bath[x.name])
		if !ok {
			return b, false
		}
		*x.to = v
	}
	b.Baths = int(baths)
	return b, true
}

// number reads a field that may be empty.
func (f *stepForm) number(field *textField) (float64, bool) {
	s := strings.Replace(strings.TrimSpace(field.Text), ",", ".", 1)
	if s == "" {
		return 0, true
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil || v < 0 || v > 1e6 {
		f.p.w.status.say(t("“%s” is not a number that fits there.", field.Text))
		return 0, false
	}
	return v, true
}

// record asks what should be asked first, then writes the step down for every
// leaf chosen.
func (f *stepForm) record() {
	s, ok := f.step()
	if !ok {
		return
	}
	var steps []mendplan.Step
	for _, id := range f.p.chosenLeaves() {
		s.Leaf = id
		steps = append(steps, s)
	}
	if len(steps) == 0 {
		f.p.w.status.say(t("Choose the leaves first."))
		return
	}
	f.p.w.recordSteps(steps, func() {
		f.note.set("")
		f.departs.set("")
		f.goOn()
	})
}
