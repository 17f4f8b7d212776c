package ui

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// dayBook lays mending and drying out over the days.
type dayBook struct {
	w        *Window
	start    *textField
	room     []*textField
	sums     *widget.Label
	slots    *wordTable
	calendar *calendarView
	plan     course.Schedule
	box      fyne.CanvasObject
}

// roomField is one thing there is to press and dry with: a count, or a
// length.
type roomField struct {
	words  string
	count  func(*mendplan.PressRoom) *int
	length func(*mendplan.PressRoom) *float64
}

// roomFields are what is there to press and dry with, in the order shown.
func roomFields() []roomField {
	return []roomField{
		{words: t("Press openings"), count: func(p *mendplan.PressRoom) *int { return &p.Openings }},
		{words: t("Leaves in each"), count: func(p *mendplan.PressRoom) *int { return &p.PerOpening }},
		{words: t("Opening, length"), length: func(p *mendplan.PressRoom) *float64 { return &p.LengthMM }},
		{words: t("Opening, width"), length: func(p *mendplan.PressRoom) *float64 { return &p.WidthMM }},
		{words: t("Blotters"), count: func(p *mendplan.PressRoom) *int { return &p.Blotters }},
		{words: t("Non-stick sheets"), count: func(p *mendplan.PressRoom) *int { return &p.Interleaves }},
		{words: t("Boards"), count: func(p *mendplan.PressRoom) *int { return &p.Boards }},
		{words: t("Board, length"), length: func(p *mendplan.PressRoom) *float64 { return &p.BoardLengthMM }},
		{words: t("Board, width"), length: func(p *mendplan.PressRoom) *float64 { return &p.BoardWidthMM }},
		{words: t("Weights"), count: func(p *mendplan.PressRoom) *int { return &p.Weights }},
	}
}

func newDayBook(w *Window) *dayBook {
	d := &dayBook{w: w, sums: small(""), calendar: newCalendarView()}
	d.start = newTextField(d.setStart)
	d.start.SetPlaceHolder("2026-11-25")
	fields := tight(labelled(t("First day"), d.start), heading(t("What there is to press and dry with")),
		small(t("An empty field bounds nothing.")))
	for i, rf := range roomFields() {
		f := newTextField(func(s string) { d.setRoom(i, s) })
		d.room = append(d.room, f)
		fields.Add(labelled(rf.words, f))
	}
	d.slots = newWordTable([]column{{t("day"), 100}, {t("leaves"), 110}, {t("at the bench"), 80}, {t("under weight"), 80}, {t("out"), 130}, {t("change blotters"), 130}}, nil)
	fields.Add(newButton(t("Save as a calendar file…"), d.export))
	fields.Add(d.sums)
	for _, c := range course.Cautions(mendplan.PressedIn) {
		fields.Add(small(t(c.Topic) + ": " + t(c.Words)))
	}
	right := container.NewVSplit(d.calendar.box, d.slots)
	right.Offset = 0.6
	split := container.NewHSplit(container.NewVScroll(fields), right)
	split.Offset = 0.3
	d.box = split
	return d
}

func (d *dayBook) content() fyne.CanvasObject { return d.box }

func (d *dayBook) setStart(s string) {
	s = strings.TrimSpace(s)
	if _, err := course.ParseDay(s); s != "" && err != nil {
		d.w.status.say(sentence(errorIn(err)))
		return
	}
	j := d.w.session.Job()
	j.StartDate = s
	d.w.session.Do("set first day", j)
}

func (d *dayBook) setRoom(i int, s string) {
	j := d.w.session.Job()
	rf := roomFields()[i]
	s = strings.TrimSpace(s)
	switch {
	case rf.length != nil:
		mm := 0.0
		if s != "" {
			var err error
			if mm, err = mendplan.ParseLength(s, unitsOf(j)); err != nil {
				d.w.status.say(sentence(errorIn(err)))
				return
			}
		}
		*rf.length(&j.Press) = mm
	default:
		n, err := strconv.Atoi(s)
		if s == "" {
			n, err = 0, nil
		}
		if err != nil || n < 0 || n > 100000 {
			d.w.status.say(t("“%s” is not a number that fits there.", s))
			return
		}
		*rf.count(&j.Press) = n
	}
	d.w.session.Do("change press and blotters", j)
}

func (d *dayBook) refresh() {
	j := d.w.session.Job()
	d.start.set(j.StartDate)
	press := j.Press
	for i, rf := range roomFields() {
		text := ""
		switch {
		case rf.length != nil:
			if v := *rf.length(&press); v > 0 {
				text = unitsOf(j).Length(v)
			}
		case *rf.count(&press) > 0:
			text = strconv.Itoa(*rf.count(&press))
		}
		d.room[i].set(text)
	}
	d.plan = course.Schedule{}
	start, err := course.ParseDay(j.StartDate)
	if err != nil {
		d.sums.SetText(t("Name the first day at the bench to see the days."))
		d.slots.show(nil)
		d.calendar.show(j, d.plan)
		return
	}
	d.plan = course.Plan(j, d.w.session.Plan(), start, course.WorkOrder(j), true)
	d.showPlan(j)
}

func (d *dayBook) showPlan(j mendplan.Job) {
	s := d.plan
	d.calendar.show(j, s)
	if len(s.Slots) == 0 {
		d.sums.SetText(t("Nothing is left to mend."))
		d.slots.show(nil)
		return
	}
	words := t("%.1f hours at the bench, %d days until %s, the earliest day to put it together. Trimming from %s.", s.HandsOn, s.Elapsed, course.Day(s.Reassembly), course.Day(s.LastOut))
	if s.PerDay > 0 {
		words += " " + t("At most %d leaves lie under weight at once, for want of more %s.", s.PerDay, t(s.BoundBy))
	}
	for _, p := range s.Problems {
		words += " " + say(p.Words)
	}
	d.sums.SetText(words)
	var rows [][]string
	for _, slot := range s.Slots {
		var marks, changes []string
		for _, id := range slot.Leaves {
			l, _ := j.Leaf(id)
			marks = append(marks, l.Mark)
		}
		for _, c := range slot.Changes {
			changes = append(changes, c.Format("15:04"))
		}
		rows = append(rows, []string{course.Day(slot.Begin), strings.Join(marks, ", "), fmt.Sprintf("%.0f min", slot.Minutes), slot.In.Format("15:04"),
			slot.Out.Format("2006-01-02 15:04"), strings.Join(changes, ", ")})
	}
	d.slots.show(rows)
}

// export writes the days as iCalendar.
func (d *dayBook) export() {
	if len(d.plan.Slots) == 0 {
		d.w.status.say(t("There are no days to save yet."))
		return
	}
	d.w.choose(choosing{title: t("Save as a calendar file…"), verb: t("Save"), suffix: []string{".ics"}, name: "days.ics"}, func(paths []string) {
		err := mendplan.WriteFile(paths[0], func(out io.Writer) error { return course.WriteCalendar(out, d.w.session.Job(), d.plan, catalogue) })
		if err != nil {
			d.w.tellError(err)
			return
		}
		d.w.status.say(t("Saved in %s.", paths[0]))
	})
}
