package course

import (
	"fmt"
	"io"
	"strings"
	"time"
	"unicode/utf8"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// WriteCalendar writes the schedule as iCalendar (RFC 5545): an event for
// each lot at the bench and under weight, each change of blotters, and the
// day of reassembly. Times float: they are the bench's own. tongue maps the
// English of [CalendarWords] to another language; nil is English. The same job
// gives the same bytes.
func WriteCalendar(w io.Writer, job mendplan.Job, s Schedule, tongue phrase.Tongue) error {
	c := calendar{tongue: tongue}
	c.line("BEGIN:VCALENDAR")
	c.line("VERSION:2.0")
	c.line("PRODID:-//Leafmend//Leafmend//EN")
	stamp := time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	if len(s.Slots) > 0 {
		stamp = s.Slots[0].Begin
	}
	event := func(uid string, from, to time.Time, words string) {
		c.line("BEGIN:VEVENT")
		c.line("UID:" + uid + "@leafmend.invalid")
		c.line("DTSTAMP:" + stamp.Format("20060102T150405Z"))
		c.line("DTSTART:" + from.Format("20060102T150405"))
		c.line("DTEND:" + to.Format("20060102T150405"))
		c.line("SUMMARY:" + escapeText(words))
		c.line("END:VEVENT")
	}
	for i, slot := range s.Slots {
		names := marks(job, slot.Leaves)
		event(fmt.Sprintf("mend-%d", i+1), slot.Begin, slot.In, c.tongue.Say(wordsMend, names))
		event(fmt.Sprintf("weight-%d", i+1), slot.In, slot.Out, c.tongue.Say(wordsWeight, names))
		for k, t := range slot.Changes {
			event(fmt.Sprintf("blotters-%d-%d", i+1, k+1), t, t.Add(10*time.Minute), c.tongue.Say(wordsBlotters, names))
		}
	}
	if len(s.Slots) > 0 {
		event("trim", s.LastOut, s.LastOut.Add(time.Hour), c.tongue.Say(wordsTrim))
		c.line("BEGIN:VEVENT")
		c.line("UID:reassembly@leafmend.invalid")
		c.line("DTSTAMP:" + stamp.Format("20060102T150405Z"))
		c.line("DTSTART;VALUE=DATE:" + s.Reassembly.Format("20060102"))
		c.line("SUMMARY:" + escapeText(c.title(job)))
		c.line("END:VEVENT")
	}
	c.line("END:VCALENDAR")
	if _, err := io.WriteString(w, c.b.String()); err != nil {
		return fmt.Errorf("writing the calendar: %w", err)
	}
	return nil
}

// Words of the calendar.
const (
	wordsMend     = "Mend leaves %s"
	wordsWeight   = "Under weight: leaves %s"
	wordsBlotters = "Change blotters: leaves %s"
	wordsTrim     = "All leaves out of the press: trim"
	wordsTogether = "Earliest day to put %s together"
	wordsAny      = "Earliest day to put the publication together"
)

// CalendarWords lists the words of the calendar, for whoever makes a catalogue
// of another language.
func CalendarWords() []string {
	return []string{wordsMend, wordsWeight, wordsBlotters, wordsTrim, wordsTogether, wordsAny}
}

func (c *calendar) title(job mendplan.Job) string {
	if job.Title == "" {
		return c.tongue.Say(wordsAny)
	}
	return c.tongue.Say(wordsTogether, job.Title)
}

func marks(job mendplan.Job, ids []string) string {
	var out []string
	for _, id := range ids {
		l, _ := job.Leaf(id)
		if l.Mark == "" {
			l.Mark = id
		}
		out = append(out, l.Mark)
	}
	return strings.Join(out, ", ")
}

// calendar writes content lines: ended by CR LF, folded at 75 octets without
// splitting a character (RFC 5545, 3.1).
type calendar struct {
	b      strings.Builder
	tongue phrase.Tongue
}

func (c *calendar) line(s string) {
	room := 75
	for len(s) > room {
		cut := room
		for cut > 0 && !utf8.RuneStart(s[cut]) {
			cut--
		}
		if cut == 0 {
			break
		}
		c.b.WriteString(s[:cut] + "\r\n ")
		s, room = s[cut:], 74
	}
	c.b.WriteString(s + "\r\n")
}

// escapeText makes text safe as a value (RFC 5545, 3.3.11). Control
// characters become spaces, bytes that are no text a replacement mark.
func escapeText(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' && r != '\n' || r == 0x7f {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(s, "\uFFFD"))
	return strings.NewReplacer("\\", "\\\\", ";", "\\;", ",", "\\,", "\n", "\\n").Replace(s)
}
