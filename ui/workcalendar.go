package ui

import (
	"fmt"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// calendarView shows the days of a schedule as weeks: what is mended, what
// lies under weight, what comes out, and when the publication can be put
// together.
type calendarView struct {
	grid *fyne.Container
	box  *container.Scroll
	key  string // of what is shown
}

func newCalendarView() *calendarView {
	v := &calendarView{grid: container.NewVBox()}
	v.box = container.NewVScroll(v.grid)
	return v
}

// dayEntry is one line of a day.
type dayEntry struct {
	words string
	shade fyne.ThemeColorName
}

// mostWeeks are shown; longer schedules stand in the table under it.
const mostWeeks = 60

// show draws the weeks of a schedule.
func (v *calendarView) show(j mendplan.Job, s course.Schedule) {
	entries, first, last := entriesOf(j, s)
	key := fmt.Sprint(entries, first, last, shade(theme.ColorNameForeground))
	if key == v.key {
		return
	}
	v.key = key
	v.grid.Objects = nil
	if len(s.Slots) > 0 {
		head := container.NewGridWithColumns(7)
		for _, d := range weekdays() {
			l := heading(d)
			l.Alignment = fyne.TextAlignCenter
			head.Add(l)
		}
		v.grid.Add(head)
		day := first.AddDate(0, 0, -(int(first.Weekday())+6)%7)
		for week := 0; week < mostWeeks && !day.After(last); week++ {
			row := container.NewGridWithColumns(7)
			for range 7 {
				row.Add(dayCell(day, entries[course.Day(day)], day.Before(first) || day.After(last)))
				day = day.AddDate(0, 0, 1)
			}
			v.grid.Add(row)
		}
	}
	v.grid.Refresh()
	v.box.ScrollToTop()
}

// weekdays are the days of the week, Monday first.
func weekdays() []string {
	return []string{t("Mon"), t("Tue"), t("Wed"), t("Thu"), t("Fri"), t("Sat"), t("Sun")}
}

// entriesOf lists what happens on which day, and the first and last day.
func entriesOf(j mendplan.Job, s course.Schedule) (entries map[string][]dayEntry, first, last time.Time) {
	entries = map[string][]dayEntry{}
	if len(s.Slots) == 0 {
		return entries, first, last
	}
	add := func(at time.Time, shade fyne.ThemeColorName, words string) {
		entries[course.Day(at)] = append(entries[course.Day(at)], dayEntry{words, shade})
	}
	first, last = s.Slots[0].Begin, s.Reassembly
	for _, slot := range s.Slots {
		names := leafMarks(j, slot.Leaves)
		add(slot.Begin, theme.ColorNamePrimary, t("mend %s", names))
		add(slot.In, theme.ColorNameForeground, slot.In.Format("15:04")+" "+t("under weight: %s", names))
		for _, c := range slot.Changes {
			if course.Day(c) != course.Day(slot.In) {
				add(c, colourQuiet, c.Format("15:04")+" "+t("change blotters"))
			}
		}
		add(slot.Out, theme.ColorNameSuccess, slot.Out.Format("15:04")+" "+t("out: %s", names))
	}
	add(s.LastOut, theme.ColorNameSuccess, t("trim from now on"))
	add(s.Reassembly, theme.ColorNamePrimary, t("put together, at the earliest"))
	return entries, first.Truncate(24 * time.Hour), last
}

// leafMarks writes the marks of leaves.
func leafMarks(j mendplan.Job, ids []string) string {
	var out []string
	for _, id := range ids {
		l, _ := j.Leaf(id)
		if l.Mark == "" {
			l.Mark = id
		}
		out = append(out, l.Mark)
	}
	return strings.Join(out, ", ")
}

// dayCell draws one day.
func dayCell(day time.Time, entries []dayEntry, outside bool) fyne.CanvasObject {
	ground := canvas.NewRectangle(shade(theme.ColorNameInputBackground))
	ground.StrokeColor, ground.StrokeWidth = shade(theme.ColorNameSeparator), 1
	if wd := day.Weekday(); outside || wd == time.Saturday || wd == time.Sunday {
		ground.FillColor = shade(colourPanel)
	}
	ground.SetMinSize(fyne.NewSize(60, 64))
	lines := container.New(layout.NewCustomPaddedVBoxLayout(-9))
	number := day.Format("2")
	if day.Day() == 1 || len(entries) > 0 {
		number = day.Format("2.1.")
	}
	l := widget.NewLabel(number)
	l.SizeName, l.TextStyle.Bold = theme.SizeNameCaptionText, len(entries) > 0
	lines.Add(l)
	for _, e := range entries {
		w := widget.NewLabel(e.words)
		w.SizeName, w.Wrapping = theme.SizeNameCaptionText, fyne.TextWrapWord
		switch e.shade {
		case theme.ColorNamePrimary:
			w.Importance = widget.HighImportance
		case theme.ColorNameSuccess:
			w.Importance = widget.SuccessImportance
		case colourQuiet:
			w.Importance = widget.LowImportance
		}
		lines.Add(w)
	}
	return container.NewStack(ground, lines)
}
