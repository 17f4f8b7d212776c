package course_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

func calendarOf(t *testing.T, job mendplan.Job, plan mendplan.Plan) string {
	t.Helper()
	start, _ := course.ParseDay("2026-03-05")
	var b bytes.Buffer
	if err := course.WriteCalendar(&b, job, course.Plan(job, plan, start, course.WorkOrder(job), true), nil); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// unfold reads content lines by the letter of RFC 5545, 3.1, apart from the
// writer: CR LF ends a line, a line that begins with a space goes on.
func unfold(t *testing.T, s string) []string {
	t.Helper()
	if !strings.HasSuffix(s, "\r\n") || strings.Contains(strings.ReplaceAll(s, "\r\n", ""), "\n") {
		t.Fatal("lines do not end in CR LF")
	}
	var out []string
	for _, l := range strings.Split(strings.TrimSuffix(s, "\r\n"), "\r\n") {
		if len(l) > 75 {
			t.Errorf("a line of %d octets: %q", len(l), l)
		}
		if strings.HasPrefix(l, " ") {
			out[len(out)-1] += l[1:]
		} else {
			out = append(out, l)
		}
	}
	return out
}

func TestTheCalendarKeepsToRFC5545(t *testing.T) {
	job, plan := leaves(30)
	job.Title = "Ein sehr langer Titel, mit Komma; Semikolon\nund Zeilenbruch ääääääääääääääääääääääääääää\x07"
	s := calendarOf(t, job, plan)
	if s != calendarOf(t, job, plan) {
		t.Error("the same job gives another calendar")
	}
	lines := unfold(t, s)
	depth, uids := 0, map[string]bool{}
	for _, l := range lines {
		name, value, ok := strings.Cut(l, ":")
		if !ok || name == "" || !utf8.ValidString(l) || strings.ContainsAny(l, "\x07\n") {
			t.Errorf("not a content line: %q", l)
		}
		switch name {
		case "BEGIN":
			depth++
		case "END":
			depth--
		case "UID":
			if uids[value] {
				t.Errorf("UID %s twice", value)
			}
			uids[value] = true
		case "SUMMARY":
			for i, r := range value {
				if (r == ',' || r == ';') && (i == 0 || value[i-1] != '\\') {
					t.Errorf("unescaped %q in %q", r, value)
				}
			}
		}
	}
	if lines[0] != "BEGIN:VCALENDAR" || lines[len(lines)-1] != "END:VCALENDAR" || depth != 0 || len(uids) < 6 {
		t.Errorf("the calendar is not whole: %d events, depth %d", len(uids), depth)
	}
	if !strings.Contains(strings.Join(lines, "\n"), `Komma\; Semikolon\nund`) && !strings.Contains(strings.Join(lines, "\n"), `Titel\, mit Komma\; Semikolon\nund`) {
		t.Error("the title is not escaped as the standard says")
	}
}

func TestTheCalendarSpeaksAnotherLanguage(t *testing.T) {
	job, plan := leaves(2)
	start, _ := course.ParseDay("2026-03-05")
	tongue := map[string]string{}
	for _, w := range course.CalendarWords() {
		tongue[w] = "xx " + w
	}
	var b bytes.Buffer
	if err := course.WriteCalendar(&b, job, course.Plan(job, plan, start, course.WorkOrder(job), true), tongue); err != nil {
		t.Fatal(err)
	}
	n := 0
	for _, l := range unfold(t, b.String()) {
		if words, ok := strings.CutPrefix(l, "SUMMARY:"); ok {
			if n++; !strings.HasPrefix(words, "xx ") || strings.Contains(words, "%") {
				t.Errorf("an event is called %q", words)
			}
		}
	}
	if n < 5 {
		t.Errorf("%d events", n)
	}
}
