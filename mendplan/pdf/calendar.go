package pdf

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"leafmend/mendplan/course"
)

// calendar prints the days of mending and drying.
func (b *book) calendar() {
	fl := b.newFlow(b.say("Calendar"), b.say("Calendar"))
	start, err := course.ParseDay(b.day())
	if err != nil {
		fl.words(b.say("No first day is set for this job, so no days can be named."))
		return
	}
	s := course.Plan(b.job, b.plan, start, course.WorkOrder(b.job), true)
	if len(s.Slots) == 0 {
		fl.words(b.say("Nothing is left to mend."))
		return
	}
	bound := b.say("nothing entered bounds how many leaves can lie under weight")
	if s.PerDay > 0 {
		bound = b.say("at most %s under weight at once, for want of more %s", b.count(s.PerDay, "1 leaf", "%d leaves"), b.say(s.BoundBy))
	}
	fl.fact(b.say("At the bench"), b.say("%.1f hours", s.HandsOn))
	fl.fact(b.say("Elapsed"), fmt.Sprintf("%s; %s", b.count(s.Elapsed, "1 day", "%d days"), bound))
	fl.fact(b.say("Trimming"), b.say("from %s, when the last leaf is out and dry", b.dayWords(s.LastOut)))
	fl.fact(b.say("Putting together"), b.say("from %s", b.dayWords(s.Reassembly)))
	for _, p := range s.Problems {
		fl.fact(b.say("To look at"), b.problemWords(p))
	}
	fl.y += 2
	cols := b.stretch([]column{{"", 6, false}, {b.say("day"), 34, false}, {b.say("leaves"), 40, false}, {b.say("at the bench"), 22, true}, {b.say("under weight"), 24, false}, {b.say("out"), 30, false}, {b.say("change blotters"), 36, false}}, 2)
	var rows [][]string
	for _, slot := range s.Slots {
		var changes []string
		for _, c := range slot.Changes {
			changes = append(changes, c.Format("15:04"))
		}
		change := strings.Join(changes, ", ")
		if len(changes) > 0 && slot.Blotters > 0 {
			change += " " + b.say("(%d dry each time)", slot.Blotters)
		}
		rows = append(rows, []string{box, b.shortDay(slot.Begin), b.marks(slot.Leaves), fmt.Sprintf("%.0f min", slot.Minutes),
			slot.In.Format("15:04") + b.lieIn(slot), b.shortDay(slot.Out) + " " + slot.Out.Format("15:04"), change})
	}
	fl.table(cols, rows)
	fl.cautions()
}

// lieIn says what a lot takes of press and boards.
func (b *book) lieIn(s course.Slot) string {
	words := ""
	if s.Openings > 0 {
		words += ", " + b.count(s.Openings, "1 opening", "%d openings")
	}
	if s.Boards > 0 {
		words += ", " + b.count(s.Boards, "1 board", "%d boards")
	}
	return words
}

// dayWords is a day in full: "Monday 2 March 2026".
func (b *book) dayWords(t time.Time) string {
	return b.say("%s %d %s %d", b.say(t.Weekday().String()), t.Day(), b.say(t.Month().String()), t.Year())
}

// shortDay is a day in a table: "Mon 2 Mar 2026".
func (b *book) shortDay(t time.Time) string {
	return b.say("%s %d %s %d", b.say(t.Format("Mon")), t.Day(), b.say(t.Format("Jan")), t.Year())
}

func (b *book) day() string {
	if b.opt.Day != "" {
		return b.opt.Day
	}
	return b.job.StartDate
}

// marks lists leaves by their marks; runs of numbers are drawn together, as
// "1–4, 7".
func (b *book) marks(ids []string) string {
	var out []string
	first, last := 0, 0 // of the run in hand; 0 when there is none
	flush := func() {
		switch {
		case first == 0:
		case last-first > 1:
			out = append(out, fmt.Sprintf("%d–%d", first, last))
		default:
			for n := first; n <= last; n++ {
				out = append(out, fmt.Sprint(n))
			}
		}
		first, last = 0, 0
	}
	for _, id := range ids {
		leaf, _ := b.job.Leaf(id)
		if leaf.Mark == "" {
			leaf.Mark = id
		}
		n, err := strconv.Atoi(leaf.Mark)
		switch {
		case err != nil || n < 1 || strconv.Itoa(n) != leaf.Mark:
			flush()
			out = append(out, leaf.Mark)
		case first > 0 && n == last+1:
			last = n
		default:
			flush()
			first, last = n, n
		}
	}
	flush()
	return strings.Join(out, ", ")
}

// cautions prints what to mind, and that local rules come first.
func (fl *flow) cautions() {
	fl.heading(fl.b.say("Mind"))
	for _, c := range course.AllCautions() {
		fl.fact(fl.b.say(c.Topic), fl.b.say(c.Words)+" ("+fl.b.say(c.Basis)+")")
	}
	fl.y += 1
	var stops []string
	for _, w := range course.StopList() {
		stops = append(stops, fl.b.say(w))
	}
	fl.fact(fl.b.say("Ask a conservator first when there is"), strings.Join(stops, "; "))
	fl.words(fl.b.say(course.Defer))
}
