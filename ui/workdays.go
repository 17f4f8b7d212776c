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
	w     *Window
	start *textField
	room  map[string]*textField
	sums  *widget.Label
	slots *wordTable
	plan  course.Schedule
	box   fyne.CanvasObject
}

// roomFields are what is there to press and dry with, in the order shown.
func roomFields() []string {
	return []string{t("Press openings"), t("Blotters"), t("Non-stick sheets"), t("Boards")}
}

// roomValue returns where a field of the press room is kept.
func roomValue(p *mendplan.PressRoom, i int) *int {
	return []*int{&p.Openings, &p.Blotters, &p.Interleaves, &p.Boards}[i]
}

func newDayBook(w *Window) *dayBook {
	d := &dayBook{w: w, room: map[string]*textField{}, sums: small("")}
	d.start = newTextField(d.setStart)
	d.start.SetPlaceHolder("2026-11-25")
	grid := container.NewGridWithColumns(2)
	for i, name := range roomFields() {
		f := newTextField(func(s string) { d.setRoom(i, s) })
		f.SetPlaceHolder(t("bounds nothing"))
		d.room[name] = f
		grid.Add(labelled(name, f))
	}
	d.slots = newWordTable([]column{{t("day"), 110}, {t("leaves"), 120}, {t("at the bench"), 80}, {t("under weight"), 80}, {t("out"), 110}, {t("change blotters"), 120}}, nil)
	save := widget.NewButton(t("Save as a calendar file…"), d.export)
	top := tight(labelled(t("First day"), d.start), heading(t("What there is to press and dry with")), grid, d.sums, save)
	d.box = container.NewBorder(top, nil, nil, nil, d.slots)
	return d
}

func (d *dayBook) setStart(s string) {
	s = strings.TrimSpace(s)
	if _, err := course.ParseDay(s); s != "" && err != nil {
		d.w.status.say(sentence(err.Error()))
		return
	}
	j := d.w.session.Job()
	j.StartDate = s
	d.w.session.Do("set first day", j)
}

func (d *dayBook) setRoom(i int, s string) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if strings.TrimSpace(s) == "" {
		n, err = 0, nil
	}
	if err != nil || n < 0 || n > 100000 {
		d.w.status.say(t("“%s” is not a number that fits there.", s))
		return
	}
	j := d.w.session.Job()
	*roomValue(&j.Press, i) = n
	d.w.session.Do("change press and blotters", j)
}

func (d *dayBook) refresh() {
	j := d.w.session.Job()
	d.start.set(j.StartDate)
	press := j.Press
	for i, name := range roomFields() {
		text := ""
		if v := *roomValue(&press, i); v > 0 {
			text = strconv.Itoa(v)
		}
		d.room[name].set(text)
	}
	d.plan = course.Schedule{}
	start, err := course.ParseDay(j.StartDate)
	if err != nil {
		d.sums.SetText(t("Name the first day at the bench to see the days."))
		d.slots.show(nil)
		return
	}
	d.plan = course.Plan(j, d.w.session.Plan(), start, course.WorkOrder(j), true)
	d.showPlan(j)
}

func (d *dayBook) showPlan(j mendplan.Job) {
	s := d.plan
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
		words += " " + p.Words
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
		err := mendplan.WriteFile(paths[0], func(out io.Writer) error { return course.WriteCalendar(out, d.w.session.Job(), d.plan) })
		if err != nil {
			d.w.tellError(err)
			return
		}
		d.w.status.say(t("Saved in %s.", paths[0]))
	})
}
