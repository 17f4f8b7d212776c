package pdf

import (
	"slices"
	"strings"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// stepLine is one line of the report: the same act on one day by the same
// person, on as many leaves as have it recorded alike.
type stepLine struct {
	step    mendplan.Step
	leaves  []string // IDs
	details string
}

// stepLines joins steps that differ only in their leaf, so that a lot of
// leaves in one bath is one line. The order is that of the record.
func (b *book) stepLines() []stepLine {
	var out []stepLine
	at := map[string]int{}
	for _, s := range b.job.Steps {
		details := b.stepDetails(s)
		key := strings.Join([]string{s.Date, string(s.Kind), string(s.Side), s.By, details}, "\x00")
		i, ok := at[key]
		if !ok {
			i = len(out)
			at[key] = i
			out = append(out, stepLine{step: s, details: details})
		}
		if s.Leaf != "" && !slices.Contains(out[i].leaves, s.Leaf) {
			out[i].leaves = append(out[i].leaves, s.Leaf)
		}
	}
	return out
}

func (fl *flow) stepTable() {
	b := fl.b
	cols := b.stretch([]column{{b.say("day"), 20, false}, {b.say("leaves"), 34, false}, {b.say("side"), 14, false}, {b.say("step"), 30, false}, {b.say("by"), 28, false}, {b.say("details"), 60, false}}, 5)
	var rows [][]string
	for _, l := range b.stepLines() {
		side := ""
		if l.step.Side != "" {
			side = b.say(string(l.step.Side))
		}
		rows = append(rows, []string{l.step.Date, b.marks(l.leaves), side, b.say(string(l.step.Kind)), l.step.By, l.details})
	}
	if len(rows) == 0 {
		fl.words(b.say("None recorded."))
	}
	fl.table(cols, rows)
}

func (b *book) stepDetails(s mendplan.Step) string {
	var parts []string
	if t := s.Test; t != nil {
		parts = append(parts, b.say("%s, %s: %s, %g s: %s", t.Medium, t.Place, t.Liquid, t.Seconds, b.say(string(t.Result))))
	}
	if s.Bath != nil {
		parts = append(parts, b.bathWords(*s.Bath)...)
	}
	if s.Batch != "" {
		parts = append(parts, b.say("paste %s", s.Batch))
	}
	if s.Note != "" {
		parts = append(parts, s.Note)
	}
	return strings.Join(parts, "; ")
}

// bathWords say what is recorded of a bath, and nothing of what is not.
func (b *book) bathWords(h mendplan.Bath) []string {
	var out []string
	add := func(known bool, english string, values ...any) {
		if known {
			out = append(out, b.say(english, values...))
		}
	}
	if s := strings.TrimSpace(h.Agent + " " + h.Concentration); s != "" {
		out = append(out, s)
	}
	add(h.Water != "", "water: %s", h.Water)
	add(h.Baths > 0, "%d baths", h.Baths)
	add(h.Minutes > 0, "%g min", h.Minutes)
	add(h.Celsius != 0, "%g °C", h.Celsius)
	add(h.PHBefore > 0 || h.PHAfter > 0, "bath pH %s to %s", b.figure(h.PHBefore), b.figure(h.PHAfter))
	add(h.LeafPHBefore > 0 || h.LeafPHAfter > 0, "leaf pH %s to %s", b.figure(h.LeafPHBefore), b.figure(h.LeafPHAfter))
	add(h.ReservePercent > 0, "alkaline reserve %g %% calcium carbonate, %.0f meq/kg", h.ReservePercent, course.ReserveMeq(h.ReservePercent))
	add(h.Drying != "", "dried: %s", h.Drying)
	return out
}

// figure writes a figure, or a question mark for one that was not taken.
func (b *book) figure(v float64) string {
	if v == 0 {
		return "?"
	}
	return b.figures("%g", v)
}
