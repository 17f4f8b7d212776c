package course_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	ics "github.com/arran4/golang-ical"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// TestAnIndependentReaderFindsEveryDate reads the calendar with a library that
// shares nothing with the writer and compares each event with the schedule.
func TestAnIndependentReaderFindsEveryDate(t *testing.T) {
	job, plan := leaves(30)
	job.Title = "=Annual, of the; \"Lantern\" Club\\n\x00\x1b\nünd äöü " + strings.Repeat("long ", 30)
	job.Leaves[3].Mark = "4;a,b\\c\x07"
	job.Press = mendplan.PressRoom{Openings: 8, Blotters: 12}
	start, _ := course.ParseDay("2026-03-05")
	s := course.Plan(job, plan, start, course.WorkOrder(job), true)
	text := calendarOf(t, job, plan)
	cal, err := ics.ParseCalendar(strings.NewReader(text))
	if err != nil {
		t.Fatalf("the reader refuses the calendar: %v", err)
	}
	events := map[string]*ics.VEvent{}
	for _, e := range cal.Events() {
		events[strings.TrimSuffix(e.Id(), "@leafmend.invalid")] = e
		if _, err := e.GetDtStampTime(); err != nil {
			t.Errorf("event %s: %v", e.Id(), err)
		}
	}
	expected := 2 // trimming and reassembly
	check := func(id string, from, to time.Time, words string) {
		t.Helper()
		expected++
		e, ok := events[id]
		if !ok {
			t.Errorf("event %s is not there", id)
			return
		}
		a, errA := e.GetStartAt()
		z, errZ := e.GetEndAt()
		const wall = "2006-01-02 15:04:05"
		if errA != nil || errZ != nil || a.Format(wall) != from.Format(wall) || z.Format(wall) != to.Format(wall) {
			t.Errorf("%s runs from %v to %v (%v, %v), want %v to %v", id, a, z, errA, errZ, from, to)
		}
		if got := e.GetProperty(ics.ComponentPropertySummary).Value; !strings.Contains(got, words) {
			t.Errorf("%s is called %q, want %q in it", id, got, words)
		}
	}
	for i, slot := range s.Slots {
		words := ""
		for _, id := range slot.Leaves {
			if id == "L4" {
				words = "4;a,b\\c"
			}
		}
		check(fmt.Sprintf("mend-%d", i+1), slot.Begin, slot.In, words)
		check(fmt.Sprintf("weight-%d", i+1), slot.In, slot.Out, words)
		for k, c := range slot.Changes {
			check(fmt.Sprintf("blotters-%d-%d", i+1, k+1), c, c.Add(10*time.Minute), "blotters")
		}
	}
	if len(events) != expected || len(cal.Events()) != expected {
		t.Errorf("%d events, want %d", len(cal.Events()), expected)
	}
	day, err := events["reassembly"].GetAllDayStartAt()
	if err != nil || day.Format("2006-01-02") != course.Day(s.Reassembly) {
		t.Errorf("reassembly on %v, %v; want %s", day, err, course.Day(s.Reassembly))
	}
	if got := events["reassembly"].GetProperty(ics.ComponentPropertySummary).Value; !strings.Contains(got, "=Annual, of the; \"Lantern\" Club\\n  \nünd äöü") {
		t.Errorf("the title came through as %q", got)
	}
}
