package course

import (
	"math"
	"slices"
	"time"

	"leafmend/mendplan"
)

// Slot is a lot of leaves mended on one day and dried together.
type Slot struct {
	Leaves   []string // IDs, in the order they are mended
	Minutes  float64  // at the bench
	Begin    time.Time
	In, Out  time.Time   // under weight
	Changes  []time.Time // of damp blotters
	Blotters int         // dry ones to have ready for each change
	Openings int         // of the press that the lot takes
	Boards   int         // with weights that it takes
}

// Schedule is when what happens, from the first day at the bench.
type Schedule struct {
	Slots      []Slot
	PerDay     int       // most leaves that can lie at once, as large as those to be mended; 0 when nothing bounds it
	BoundBy    string    // what bounds it, in words
	LastOut    time.Time // the last leaf comes out; it can be trimmed
	Reassembly time.Time // earliest day to put the publication together
	HandsOn    float64   // hours at the bench
	Elapsed    int       // days from the first to reassembly
	Problems   []mendplan.Problem
}

// Hours of the bench's day. Work begins at nine; a lot goes under weight
// when its last leaf is done.
const dayBegins = 9

// Plan lays out the days from start on: leaves are mended in the order given
// by order (leaf IDs; those without pieces are passed over) until the day's
// hours or the room under weight is used up. Leaves lie by their size: side by
// side in the openings of the press that hold them, else under boards and
// weights; blotters and non-stick sheets bound them too, and what is not
// entered bounds nothing. changes asks for changes of damp blotters. Saturdays
// and Sundays are free.
func Plan(job mendplan.Job, plan mendplan.Plan, start time.Time, order []string, changes bool) Schedule {
	rules := mendplan.InForce{Job: job.Rules}
	var s Schedule
	minutes := map[string]float64{}
	for _, l := range Hours(job, plan) {
		minutes[l.Leaf] = l.Minutes()
		s.HandsOn += l.Minutes() / 60
	}
	var left []string
	for _, id := range order {
		if minutes[id] > 0 && !Done(job, id, mendplan.MendedStep) {
			left = append(left, id)
		}
	}
	room := newPressRoom(job)
	s.Problems = room.tooLarge
	s.PerDay, s.BoundBy = room.most(left)
	budget := rules.Number(mendplan.WorkHours) * 60
	hold := time.Duration(rules.Number(mendplan.UnderWeight) * float64(time.Hour))
	day := workday(start.Truncate(24*time.Hour), 0)
	for len(left) > 0 {
		slot := Slot{Begin: day.Add(dayBegins * time.Hour)}
		left = slot.fill(left, minutes, budget, room, s.lying(slot.Begin.Add(time.Duration(budget)*time.Minute)))
		if len(slot.Leaves) > 0 {
			slot.In = slot.Begin.Add(time.Duration(min(slot.Minutes, budget)) * time.Minute)
			slot.Out = bench(slot.In.Add(hold), budget)
			slot.Openings, slot.Boards = room.places(slot.Leaves)
			if changes {
				slot.Changes = blotterChanges(slot.In, slot.Out)
				slot.Blotters = int(math.Ceil(room.blotters * float64(len(slot.Leaves))))
			}
			s.Slots = append(s.Slots, slot)
		}
		day = workday(day, 1)
	}
	s.close(rules)
	return s
}

// fill takes leaves into the lot, in their order, until the day's minutes or
// the room beside those that still lie is used up, and returns the others.
func (slot *Slot) fill(left []string, minutes map[string]float64, budget float64, room pressRoom, lying [][]string) []string {
	for len(left) > 0 {
		m := minutes[left[0]]
		if len(slot.Leaves) > 0 && slot.Minutes+m > budget {
			break
		}
		// One leaf goes in even where less is entered than it asks for, or
		// no day would ever come.
		with := append(slices.Clone(slot.Leaves), left[0])
		if room.lacks(lying, with) != "" && len(lying)+len(slot.Leaves) > 0 {
			break
		}
		slot.Leaves, slot.Minutes, left = with, slot.Minutes+m, left[1:]
	}
	return left
}

// lying lists the lots that are still under weight at a moment.
func (s *Schedule) lying(at time.Time) [][]string {
	var out [][]string
	for _, o := range s.Slots {
		if o.Out.After(at) {
			out = append(out, o.Leaves)
		}
	}
	return out
}

func (s *Schedule) close(rules mendplan.InForce) {
	if len(s.Slots) == 0 {
		return
	}
	for _, o := range s.Slots {
		if o.Out.After(s.LastOut) {
			s.LastOut = o.Out
		}
	}
	last := s.Slots[len(s.Slots)-1].In
	after := last.AddDate(0, 0, int(rules.Number(mendplan.PressAfterDays)))
	if after.Before(s.LastOut) {
		after = s.LastOut
	}
	s.Reassembly = workday(after.Truncate(24*time.Hour), 0)
	s.Elapsed = int(s.Reassembly.Sub(s.Slots[0].Begin.Truncate(24*time.Hour)).Hours()/24) + 1
}

// workday returns the n-th working day after day; for n = 0 the day itself
// or the next that is one.
func workday(day time.Time, n int) time.Time {
	for {
		if wd := day.Weekday(); wd != time.Saturday && wd != time.Sunday {
			if n == 0 {
				return day
			}
			n--
		}
		day = day.AddDate(0, 0, 1)
	}
}

// bench returns the first moment from t on at which someone is at the bench.
func bench(t time.Time, budget float64) time.Time {
	day := t.Truncate(24 * time.Hour)
	open, closed := day.Add(dayBegins*time.Hour), day.Add(dayBegins*time.Hour+time.Duration(budget)*time.Minute)
	if t.After(closed) {
		return workday(day.AddDate(0, 0, 1), 0).Add(dayBegins * time.Hour)
	}
	if w := workday(day, 0); !w.Equal(day) {
		return w.Add(dayBegins * time.Hour)
	}
	if t.Before(open) {
		return open
	}
	return t
}

// blotterChanges follows common practice, no source: after 20 minutes, after
// a further hour and a half, then daily while under weight.
func blotterChanges(in, out time.Time) []time.Time {
	var list []time.Time
	for _, t := range []time.Time{in.Add(20 * time.Minute), in.Add(110 * time.Minute)} {
		if t.Before(out) {
			list = append(list, t)
		}
	}
	for t := in.AddDate(0, 0, 1); t.Before(out); t = t.AddDate(0, 0, 1) {
		list = append(list, t)
	}
	return list
}
