package course_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// sized gives the leaves of a job sizes in millimetres, in turn.
func sized(job mendplan.Job, sizes ...[2]float64) mendplan.Job {
	for i, l := range job.Leaves {
		s := sizes[i%len(sizes)]
		side := mendplan.Side{Scan: mendplan.Scan{Path: "a", Width: int(s[0] * 10), Height: int(s[1] * 10)},
			Calibration: mendplan.Calibration{MMPerPxX: 0.1, MMPerPxY: 0.1, Origin: mendplan.FromFile}}
		job = job.WithLeaf(l.WithSide(mendplan.Front, side))
	}
	return job
}

func TestLeavesLieByTheirSize(t *testing.T) {
	for _, c := range []struct {
		name  string
		press mendplan.PressRoom
		size  [2]float64
		most  int
		by    string
	}{
		{"two to an opening, side by side", mendplan.PressRoom{Openings: 3, LengthMM: 500, WidthMM: 350}, [2]float64{240, 170}, 6, "press openings"},
		{"small ones turned lie eight to an opening", mendplan.PressRoom{Openings: 1, LengthMM: 500, WidthMM: 350}, [2]float64{160, 110}, 8, "press openings"},
		{"a leaf as large as the opening lies alone", mendplan.PressRoom{Openings: 2, LengthMM: 300, WidthMM: 210}, [2]float64{210, 300}, 2, "press openings"},
		{"an opening of unknown size holds one", mendplan.PressRoom{Openings: 4}, [2]float64{100, 80}, 4, "press openings"},
		{"by hand, five to an opening", mendplan.PressRoom{Openings: 2, PerOpening: 5, LengthMM: 500, WidthMM: 350}, [2]float64{240, 170}, 10, "press openings"},
		{"too large for the press, under boards", mendplan.PressRoom{Openings: 9, LengthMM: 200, WidthMM: 150, Boards: 2, BoardLengthMM: 420, BoardWidthMM: 300}, [2]float64{400, 280}, 2, "boards"},
		{"boards without weights enough", mendplan.PressRoom{Boards: 5, Weights: 3}, [2]float64{400, 280}, 3, "weights"},
		{"boards bound nothing that lies in the press", mendplan.PressRoom{Openings: 6, Boards: 1}, [2]float64{100, 80}, 6, "press openings"},
		{"blotters run out first", mendplan.PressRoom{Openings: 6, Blotters: 8}, [2]float64{100, 80}, 4, "blotters"},
		{"nothing entered bounds nothing", mendplan.PressRoom{}, [2]float64{100, 80}, 0, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, plan := leaves(4)
			job = sized(job, c.size)
			job.Press = c.press
			start, _ := course.ParseDay("2026-03-02")
			s := course.Plan(job, plan, start, course.WorkOrder(job), true)
			if s.PerDay != c.most || s.BoundBy != c.by || len(s.Problems) > 0 {
				t.Errorf("%d leaves bound by %q, problems %v; want %d by %q", s.PerDay, s.BoundBy, s.Problems, c.most, c.by)
			}
		})
	}
}

// Whatever is entered, no lot and no sum of lots that lie at once takes more
// than there is, every leaf is planned once, and dry blotters are told for
// each change.
func TestNoScheduleTakesMoreThanThereIs(t *testing.T) {
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 11))
		job, plan := leaves(10 + rng.IntN(50))
		job = sized(job, [2]float64{420, 297}, [2]float64{297, 210}, [2]float64{210, 148}, [2]float64{30 + 300*rng.Float64(), 30 + 300*rng.Float64()})
		job.Press = mendplan.PressRoom{Openings: 1 + rng.IntN(6), LengthMM: 450, WidthMM: 320, Boards: 1 + rng.IntN(5), BoardLengthMM: 600, BoardWidthMM: 400,
			Weights: 6, Blotters: 2 + rng.IntN(40), Interleaves: 2 + rng.IntN(40)}
		start, _ := course.ParseDay("2026-03-02")
		s := course.Plan(job, plan, start, course.WorkOrder(job), true)
		n := 0
		for _, a := range s.Slots {
			n += len(a.Leaves)
			if a.Blotters != 2*len(a.Leaves) {
				t.Errorf("seed %d: %d dry blotters for %d leaves", seed, a.Blotters, len(a.Leaves))
			}
			openings, boards, lying := 0, 0, 0
			for _, b := range s.Slots {
				if !b.In.After(a.In) && b.Out.After(a.In) {
					openings, boards, lying = openings+b.Openings, boards+b.Boards, lying+len(b.Leaves)
				}
			}
			if p := job.Press; openings > p.Openings || boards > p.Boards || 2*lying > p.Blotters || 2*lying > p.Interleaves {
				t.Errorf("seed %d: %d openings, %d boards, %d leaves lie at once in %+v", seed, openings, boards, lying, p)
			}
			if area := lotArea(job, a.Leaves); area > float64(a.Openings)*450*320+float64(a.Boards)*600*400 {
				t.Errorf("seed %d: leaves of %.0f mm² lie in %d openings and %d boards", seed, area, a.Openings, a.Boards)
			}
		}
		if n != len(job.Leaves) {
			t.Errorf("seed %d: %d leaves planned, want %d", seed, n, len(job.Leaves))
		}
	}
}

func lotArea(job mendplan.Job, ids []string) float64 {
	sum := 0.0
	for _, id := range ids {
		l, _ := job.Leaf(id)
		sum += float64(l.Front.Scan.Width*l.Front.Scan.Height) / 100
	}
	return sum
}

func TestOneLeafAtATimeWhereBlottersDoNotEvenDoForOne(t *testing.T) {
	job, plan := leaves(3)
	job.Press = mendplan.PressRoom{Blotters: 1}
	start, _ := course.ParseDay("2026-03-02")
	s := course.Plan(job, plan, start, course.WorkOrder(job), true)
	if len(s.Slots) != 3 || s.PerDay != 1 {
		t.Errorf("%d lots, %d a day", len(s.Slots), s.PerDay)
	}
}

// A hundred leaves in eight gatherings, four weeks of bench work: order,
// schedule, tally.
func TestAHundredLeavesAreScheduledAndCounted(t *testing.T) {
	job, plan := leaves(100)
	job = sized(job, [2]float64{420, 297})
	for g := range 8 {
		sheets := mendplan.Gathering{ID: fmt.Sprint("g", g)}
		for i := range 13 {
			if n := g*13 + i + 1; n <= 100 {
				sheets.Sheets = append(sheets.Sheets, mendplan.SheetPlace{Leaf: fmt.Sprint("L", n)})
			}
		}
		job.Gatherings = append(job.Gatherings, sheets)
	}
	order := course.WorkOrder(job)
	if len(order) != 100 || order[0] != "L13" || order[12] != "L1" || order[13] != "L26" {
		t.Fatalf("the work begins %v", order[:14])
	}
	job.Press = mendplan.PressRoom{Openings: 10, LengthMM: 450, WidthMM: 320, Blotters: 40, Interleaves: 60}
	start, _ := course.ParseDay("2026-03-02")
	s := course.Plan(job, plan, start, order, true)
	// 22.5 minutes a leaf; ten openings bound a day before six hours do.
	if s.PerDay != 10 || s.BoundBy != "press openings" || len(s.Slots) != 10 || s.HandsOn != 37.5 {
		t.Errorf("%d a day by %s, %d lots, %g hours", s.PerDay, s.BoundBy, len(s.Slots), s.HandsOn)
	}
	// Ten working days from Monday, and a week in the press after the last.
	if course.Day(s.Slots[9].Begin) != "2026-03-13" || course.Day(s.Reassembly) != "2026-03-20" || s.Elapsed != 19 {
		t.Errorf("last lot %s, together %s, %d days", course.Day(s.Slots[9].Begin), course.Day(s.Reassembly), s.Elapsed)
	}
	var done []string
	for _, slot := range s.Slots[:6] {
		for _, id := range slot.Leaves {
			job = job.AddSteps(step(id, mendplan.MendedStep, course.Day(slot.Begin), ""))
			done = append(done, id)
		}
	}
	c := course.Count(job, plan)
	if c.Leaves != 100 || c.PiecesDone != 60 || c.Mends[0].Count != 100 || c.Mends[0].Done != 60 {
		t.Errorf("tally %+v", c)
	}
	again := course.Plan(job, plan, start, order, true)
	for _, slot := range again.Slots {
		for _, id := range slot.Leaves {
			if strings.Contains(" "+strings.Join(done, " ")+" ", " "+id+" ") {
				t.Errorf("leaf %s is mended and planned again", id)
			}
		}
	}
	if len(again.Slots) != 4 {
		t.Errorf("%d lots are left, want 4", len(again.Slots))
	}
}
