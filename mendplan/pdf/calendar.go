package pdf

import (
	"fmt"
	"strings"

	"leafmend/mendplan/course"
)

// calendar prints the days of mending and drying.
func (b *book) calendar() {
	fl := b.newFlow("Calendar", "Calendar")
	start, err := course.ParseDay(b.day())
	if err != nil {
		fl.words("No first day is set for this job, so no days can be named.")
		return
	}
	s := course.Plan(b.job, b.plan, start, course.WorkOrder(b.job), true)
	if len(s.Slots) == 0 {
		fl.words("Nothing is left to mend.")
		return
	}
	bound := "nothing entered bounds how many leaves can lie under weight"
	if s.PerDay > 0 {
		bound = fmt.Sprintf("at most %s under weight at once, for want of more %s", b.count(s.PerDay, "1 leaf", "%d leaves"), s.BoundBy)
	}
	fl.fact("At the bench", fmt.Sprintf("%.1f hours", s.HandsOn))
	fl.fact("Elapsed", fmt.Sprintf("%s; %s", b.count(s.Elapsed, "1 day", "%d days"), bound))
	fl.fact("Trimming", "from "+s.LastOut.Format("Monday 2 January 2006")+", when the last leaf is out and dry")
	fl.fact("Putting together", "from "+s.Reassembly.Format("Monday 2 January 2006"))
	for _, p := range s.Problems {
		fl.fact("To look at", p.Words+" "+p.Hint)
	}
	fl.y += 2
	cols := b.stretch([]column{{"", 6, false}, {"day", 34, false}, {"leaves", 40, false}, {"at the bench", 22, true}, {"under weight", 24, false}, {"out", 30, false}, {"change blotters", 36, false}}, 2)
	var rows [][]string
	for _, slot := range s.Slots {
		var changes []string
		for _, c := range slot.Changes {
			changes = append(changes, c.Format("15:04"))
		}
		rows = append(rows, []string{box, slot.Begin.Format("Mon 2 Jan 2006"), b.marks(slot.Leaves), fmt.Sprintf("%.0f min", slot.Minutes),
			slot.In.Format("15:04"), slot.Out.Format("Mon 2 Jan 15:04"), strings.Join(changes, ", ")})
	}
	fl.table(cols, rows)
	fl.cautions()
}

func (b *book) day() string {
	if b.opt.Day != "" {
		return b.opt.Day
	}
	return b.job.StartDate
}

func (b *book) marks(ids []string) string {
	var out []string
	for _, id := range ids {
		leaf, _ := b.job.Leaf(id)
		if leaf.Mark == "" {
			leaf.Mark = id
		}
		out = append(out, leaf.Mark)
	}
	return strings.Join(out, ", ")
}

// cautions prints what to mind, and that local rules come first.
func (fl *flow) cautions() {
	fl.heading("Mind")
	for _, c := range course.AllCautions() {
		fl.fact(c.Topic, c.Words+" ("+c.Basis+")")
	}
	fl.y += 1
	fl.words(course.Defer)
}
