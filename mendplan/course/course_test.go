package course_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// leaves makes a job of n leaves L1 … with a tear each, and a plan with one
// 50 mm piece on each.
func leaves(n int) (mendplan.Job, mendplan.Plan) {
	job := mendplan.Job{Title: "Annual, of the; Lantern Club", Tissues: []mendplan.Tissue{{ID: "T1", Grammage: 5}}}
	var plan mendplan.Plan
	for i := range n {
		id := fmt.Sprintf("L%d", i+1)
		job.Leaves = append(job.Leaves, mendplan.Leaf{ID: id, Mark: fmt.Sprint(i + 1), Damages: []mendplan.Damage{{Number: i + 1, Kind: mendplan.Tear}}})
		plan.Pieces = append(plan.Pieces, mendplan.Piece{Label: id, Leaf: id, Tissue: "T1", Role: mendplan.RoleMend, BlankLengthMM: 50, BlankWidthMM: 10, AreaMM2: 500, PasteMM2: 500})
	}
	job.LastNumber = n
	return job, plan
}

func step(leaf string, kind mendplan.StepKind, day, hour string) mendplan.Step {
	return mendplan.Step{Leaf: leaf, Kind: kind, Date: day, Time: hour, By: "A. B."}
}

func tested(leaf string, r mendplan.TestResult) mendplan.Step {
	s := step(leaf, mendplan.Tested, "2026-03-01", "10:00")
	s.Test = &mendplan.SpotTest{Medium: "red ink", Place: "title", Liquid: "water", Seconds: 30, Result: r}
	return s
}

func TestQuestionsAreAskedWhereTheyMatter(t *testing.T) {
	in, out := step("L1", mendplan.PressedIn, "2026-03-02", "17:00"), step("L1", mendplan.PressedOut, "2026-03-03", "09:00")
	mended := step("L1", mendplan.MendedStep, "2026-03-02", "16:00")
	withBatch := mended
	withBatch.Batch = "P1"
	nobody := step("L1", mendplan.Bleached, "2026-03-02", "")
	nobody.By = " "
	for _, c := range []struct {
		name string
		have []mendplan.Step
		next mendplan.Step
		want []string // words that must be asked, in order; none means silence
	}{
		{"washing without a test", nil, step("L1", mendplan.Washed, "2026-03-02", ""), []string{"No solubility test"}},
		{"washing after a test that held", []mendplan.Step{tested("L1", mendplan.Stable)}, step("L1", mendplan.Washed, "2026-03-02", ""), nil},
		{"washing what bleeds", []mendplan.Step{tested("L1", mendplan.Bleeds)}, step("L1", mendplan.Washed, "2026-03-02", ""), []string{"red ink bleeds in water"}},
		{"a test of another leaf does not count", []mendplan.Step{tested("L2", mendplan.Stable)}, mended, []string{"No solubility test"}},
		{"surveying asks nothing", nil, step("L1", mendplan.Surveyed, "2026-03-01", ""), nil},
		{"trimming what lies in the press", []mendplan.Step{mended, in}, step("L1", mendplan.TrimmedStep, "2026-03-02", "18:00"), []string{"still in the press"}},
		{"trimming what was never dried", []mendplan.Step{mended}, step("L1", mendplan.TrimmedStep, "2026-03-02", "18:00"), []string{"not been dried"}},
		{"trimming what was mended again after drying", []mendplan.Step{mended, in, out, step("L1", mendplan.MendedStep, "2026-03-05", "")}, step("L1", mendplan.TrimmedStep, "2026-03-05", ""), []string{"not been dried"}},
		{"trimming dry", []mendplan.Step{mended, in, out}, step("L1", mendplan.TrimmedStep, "2026-03-03", "10:00"), nil},
		{"the press opened after an hour", []mendplan.Step{in}, step("L1", mendplan.PressedOut, "2026-03-02", "18:00"), []string{"1.0 h; 12 h are set"}},
		{"the press opened in the morning", []mendplan.Step{in}, out, nil},
		{"out of a press it never was in", nil, out, []string{"not recorded as put into"}},
		{"bleaching by nobody", []mendplan.Step{tested("L1", mendplan.Stable)}, nobody, []string{"only recorded here", "Say who"}},
		{"paste that is not there", []mendplan.Step{tested("L1", mendplan.Stable)}, withBatch, []string{"no batch P1"}},
		{"disbinding first of all", nil, step("L1", mendplan.Disbound, "2026-03-01", ""), []string{"is collated", "is surveyed", "stop list"}},
		{"putting together unchecked", nil, step("L1", mendplan.Reassembled, "2026-04-01", ""), []string{"checked 0 times"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, _ := leaves(2)
			got := course.Questions(job.AddSteps(c.have...), c.next)
			if len(got) != len(c.want) {
				t.Fatalf("asked %v, want %v", got, c.want)
			}
			for i, w := range c.want {
				if !strings.Contains(got[i].Words.String(), w) || got[i].Basis == "" {
					t.Errorf("asked %+v, want %q with its basis", got[i], w)
				}
			}
		})
	}
}

func TestMouldIsAskedAboutBeforeWater(t *testing.T) {
	job, _ := leaves(1)
	job = job.AddSteps(tested("L1", mendplan.Stable))
	job, _ = job.AddDamage("L1", mendplan.Damage{Kind: mendplan.Mould})
	if q := course.Questions(job, step("L1", mendplan.Washed, "2026-03-02", "")); len(q) != 1 || !strings.Contains(q[0].Words.String(), "Mould") {
		t.Errorf("asked %v", q)
	}
}

// Published recipes; figures as in their sources.
func TestRecipesWeighWhatTheySay(t *testing.T) {
	shares := map[string]float64{"loc": 12.47, "morse": 11.50, "museum": 11.89, "volume4": 12.09, "volume7": 7.28}
	for _, r := range course.PublishedRecipes() {
		a := course.Weigh(r, 300, 0.55)
		if d := a.Total() - 300; d > 1e-9 || d < -1e-9 {
			t.Errorf("%s: the parts make %.3f g, want 300", r.ID, a.Total())
		}
		if want, ok := shares[r.ID]; ok {
			if got := 100 * course.StarchShare(r, 0.55); got < want-0.006 || got > want+0.006 {
				t.Errorf("%s: %.2f %% starch, want %.2f", r.ID, got, want)
			}
		}
		if r.Source == "" {
			t.Errorf("%s has no source", r.ID)
		}
	}
	// S. S. Wagner: one part paste to two of a 2.5 % gel.
	for _, r := range course.PublishedRecipes() {
		if r.ID == "remoisten" {
			a := course.Weigh(r, 300, 0.55)
			if got := a.StarchG + a.WaterG; got < 99.99 || got > 100.01 || a.EtherG < 4.99 || a.EtherG > 5.01 {
				t.Errorf("remoistenable: %+v", a)
			}
		}
	}
}

func TestTheUsersRecipeGoesBeforeThePublishedOne(t *testing.T) {
	job := mendplan.Job{Recipes: []mendplan.Recipe{{ID: "loc", Name: "mine", Parts: 3}}}
	all := course.Recipes(job)
	if all[0].Name != "mine" || len(all) != len(course.PublishedRecipes()) {
		t.Errorf("got %v", all)
	}
}

func TestPasteAgesByItsDates(t *testing.T) {
	job := mendplan.Job{}
	useBy, err := course.UseBy(job, "2026-02-26")
	if err != nil || useBy != "2026-03-05" {
		t.Fatalf("use by %q, %v", useBy, err)
	}
	b := mendplan.Batch{ID: "P1", Made: "2026-02-26", UseBy: useBy}
	for day, want := range map[string]course.Freshness{"2026-02-25": course.NotYet, "2026-02-26": course.Fresh, "2026-03-02": course.Fresh,
		"2026-03-03": course.Old, "2026-03-05": course.Old, "2026-03-06": course.Expired} {
		if got := course.BatchState(job, b, day); got != want {
			t.Errorf("on %s: %s, want %s", day, got, want)
		}
	}
	b.Discarded = "2026-03-01"
	if got := course.BatchState(job, b, "2026-03-02"); got != course.Discarded {
		t.Errorf("thrown away, yet %s", got)
	}
	if got := course.BatchState(job, mendplan.Batch{Made: "soon"}, "2026-03-02"); got != course.Undated {
		t.Errorf("without a date, yet %s", got)
	}
}

func TestTheWetCoatIsLearntFromWeighedStrips(t *testing.T) {
	samples := []mendplan.Sample{
		{AreaMM2: 1000, DryG: 0.005, WetG: 0.085}, {AreaMM2: 1000, DryG: 0.005, WetG: 0.125}, // 80 and 120 g/m²
		{AreaMM2: 0, DryG: 1, WetG: 2}, {AreaMM2: 100, DryG: 2, WetG: 1},
	}
	coat, spread, used, bad := course.WetCoat(samples)
	if coat < 99.999 || coat > 100.001 || used != 2 || bad != 2 || spread < 28.28 || spread > 28.29 {
		t.Errorf("coat %.3f ± %.3f from %d, %d left out", coat, spread, used, bad)
	}
	if coat, _, used, _ := course.WetCoat(nil); coat != 0 || used != 0 {
		t.Error("no samples taught something")
	}
}

func TestIsABatchWorthCookingToday(t *testing.T) {
	job, plan := leaves(3)
	if c := course.WorthCooking(job, plan, "2026-03-02"); c.Worth || len(c.Ready) != 0 {
		t.Errorf("untested leaves are ready: %+v", c)
	}
	job = job.AddSteps(tested("L1", mendplan.Stable), tested("L2", mendplan.Stable), step("L2", mendplan.MendedStep, "2026-03-02", ""))
	c := course.WorthCooking(job, plan, "2026-03-02")
	if !c.Worth || len(c.Ready) != 1 || c.Ready[0] != "L1" || c.Pieces != 1 || c.Paste.BatchG != 100 {
		t.Errorf("got %+v", c)
	}
	job = job.WithBatch(mendplan.Batch{ID: "P1", Made: "2026-03-01"})
	if c := course.WorthCooking(job, plan, "2026-03-02"); c.Worth || c.Have != "P1" {
		t.Errorf("with fresh paste at hand: %+v", c)
	}
}

// 2026-03-02 is a Monday.
func TestLeavesLieUnderWeightOvernightAndWeekendsAreFree(t *testing.T) {
	job, plan := leaves(9)
	job.Press = mendplan.PressRoom{Openings: 4, Blotters: 6, Interleaves: 99}
	start, _ := course.ParseDay("2026-03-05") // a Thursday
	s := course.Plan(job, plan, start, course.WorkOrder(job), true)
	if s.PerDay != 3 || s.BoundBy != "blotters" {
		t.Errorf("%d leaves bound by %s; six blotters make three", s.PerDay, s.BoundBy)
	}
	var days []string
	seen := map[string]bool{}
	for _, slot := range s.Slots {
		days = append(days, course.Day(slot.Begin))
		if len(slot.Leaves) > 3 {
			t.Errorf("%d leaves in one lot", len(slot.Leaves))
		}
		if slot.Out.Sub(slot.In) < 12*time.Hour {
			t.Errorf("a lot lies for %v only", slot.Out.Sub(slot.In))
		}
		if wd := slot.Out.Weekday(); wd == time.Saturday || wd == time.Sunday {
			t.Errorf("a lot comes out on a %v", wd)
		}
		for _, l := range slot.Leaves {
			if seen[l] {
				t.Errorf("leaf %s is mended twice", l)
			}
			seen[l] = true
		}
		for _, c := range slot.Changes {
			if !c.After(slot.In) || !c.Before(slot.Out) {
				t.Errorf("blotters changed at %v, outside %v to %v", c, slot.In, slot.Out)
			}
		}
	}
	// Thursday and Friday, over the weekend, Monday.
	if diff := cmp.Diff([]string{"2026-03-05", "2026-03-06", "2026-03-09"}, days); diff != "" || len(seen) != 9 {
		t.Errorf("%s, %d leaves", diff, len(seen))
	}
	// A week in the press after the last mend.
	if got := course.Day(s.Reassembly); got != "2026-03-16" {
		t.Errorf("reassembly on %s, want 2026-03-16", got)
	}
	if s.Elapsed != 12 {
		t.Errorf("%d days elapse, want 12", s.Elapsed)
	}
}

func TestTheRoomUnderWeightIsNeverExceeded(t *testing.T) {
	for hours := 0.5; hours <= 24; hours += 3.5 {
		job, plan := leaves(40)
		job = job.WithRule(mendplan.UnderWeight, mendplan.Num(hours))
		job.Press = mendplan.PressRoom{Openings: 7}
		start, _ := course.ParseDay("2026-03-02")
		s := course.Plan(job, plan, start, course.WorkOrder(job), false)
		n := 0
		for _, a := range s.Slots {
			n += len(a.Leaves)
			lying := 0
			for _, b := range s.Slots {
				if !b.In.After(a.In) && b.Out.After(a.In) {
					lying += len(b.Leaves)
				}
			}
			if lying > 7 {
				t.Errorf("%g h: %d leaves lie at once", hours, lying)
			}
		}
		if n != 40 {
			t.Errorf("%g h: %d leaves planned, want 40", hours, n)
		}
	}
}

func TestMendedLeavesAreNotPlannedAgainAndLargeOnesAreNamed(t *testing.T) {
	job, plan := leaves(2)
	side := mendplan.Side{Scan: mendplan.Scan{Path: "a", Width: 4000, Height: 3000}, Calibration: mendplan.Calibration{MMPerPxX: 0.1, MMPerPxY: 0.1, Origin: mendplan.FromFile}}
	job = job.WithLeaf(job.Leaves[0].WithSide(mendplan.Front, side))
	job = job.AddSteps(step("L2", mendplan.MendedStep, "2026-03-01", ""))
	job.Press = mendplan.PressRoom{Openings: 1, LengthMM: 350, WidthMM: 250}
	start, _ := course.ParseDay("2026-03-02")
	s := course.Plan(job, plan, start, course.WorkOrder(job), false)
	if len(s.Slots) != 1 || len(s.Slots[0].Leaves) != 1 || s.Slots[0].Leaves[0] != "L1" {
		t.Errorf("slots %+v", s.Slots)
	}
	if len(s.Problems) != 1 || !strings.Contains(s.Problems[0].Words.String(), "400 × 300 mm") {
		t.Errorf("problems %v", s.Problems)
	}
	if s := course.Plan(mendplan.Job{}, mendplan.Plan{}, start, nil, true); len(s.Slots) != 0 || s.Elapsed != 0 {
		t.Errorf("an empty job takes %d days", s.Elapsed)
	}
}

// A commercial restorer's page: 15 to 30 minutes for the first tear with its
// preparation, little more for further ones; 30 to 45 minutes for a leaf with
// several tears, a corner and a hole or two.
func TestHoursAgreeWithAPublishedPrice(t *testing.T) {
	job, plan := leaves(1)
	one := course.Hours(job, plan)[0].Minutes()
	if one < 15 || one > 30 {
		t.Errorf("a leaf with one tear takes %.1f minutes", one)
	}
	for _, p := range []mendplan.Piece{
		{Role: mendplan.RoleMend, BlankLengthMM: 20}, {Role: mendplan.RoleMend, BlankLengthMM: 25},
		{Role: mendplan.RoleFill, AreaMM2: 200}, {Role: mendplan.RoleFill, AreaMM2: 40},
	} {
		p.Leaf = "L1"
		plan.Pieces = append(plan.Pieces, p)
	}
	if got := course.Hours(job, plan)[0].Minutes(); got < 30 || got > 45 {
		t.Errorf("a leaf with several mends takes %.1f minutes", got)
	}
	for hours, want := range map[float64]int{0.5: 1, 2: 2, 4: 3, 7: 4, 11: 5} {
		if got := course.Tier(hours); got != want {
			t.Errorf("%g h is tier %d, want %d", hours, got, want)
		}
	}
}

func TestTheTallyCountsLeavesMendsAndTissue(t *testing.T) {
	job, plan := leaves(3)
	job.OwnSteps = []mendplan.StepKind{"numbered in pencil"}
	job = job.AddSteps(step("L1", mendplan.MendedStep, "2026-03-02", ""), step("L1", mendplan.MendedStep, "2026-03-03", ""), step("L2", "numbered in pencil", "2026-03-02", ""))
	c := course.Count(job, plan)
	if c.Leaves != 3 || c.Pieces != 3 || c.PiecesDone != 1 || c.Mends[0].Count != 3 || c.Mends[0].Done != 1 {
		t.Errorf("got %+v", c)
	}
	if c.Tissue[0].Pieces != 3 || c.Tissue[0].AreaMM2 != 1500 || c.Tissue[0].MassG < 0.00749 || c.Tissue[0].MassG > 0.00751 {
		t.Errorf("tissue %+v", c.Tissue)
	}
	for _, s := range c.Steps {
		want := map[mendplan.StepKind]int{mendplan.MendedStep: 1, "numbered in pencil": 1}[s.Kind]
		if s.Leaves != want {
			t.Errorf("%d leaves %s, want %d", s.Leaves, s.Kind, want)
		}
	}
}

func TestNextLeadsThroughTheUsualActs(t *testing.T) {
	job, _ := leaves(1)
	var seen []mendplan.StepKind
	for range 20 {
		k := course.Next(job, job.Leaves[0])
		if k == "" {
			break
		}
		seen = append(seen, k)
		job = job.AddSteps(step("L1", k, "2026-03-02", ""))
	}
	want := []mendplan.StepKind{mendplan.Surveyed, mendplan.Tested, mendplan.SurfaceCleaned, mendplan.MendedStep, mendplan.PressedIn, mendplan.PressedOut, mendplan.TrimmedStep, mendplan.Checked}
	if diff := cmp.Diff(want, seen); diff != "" {
		t.Error(diff)
	}
}

func TestEveryWetOrSharpStepHasItsCaution(t *testing.T) {
	for _, k := range []mendplan.StepKind{mendplan.Surveyed, mendplan.Washed, mendplan.Alkalised, mendplan.Bleached, mendplan.MendedStep, mendplan.PressedIn, mendplan.TrimmedStep, mendplan.Disbound} {
		if len(course.Cautions(k)) == 0 {
			t.Errorf("%s has no caution", k)
		}
	}
	for _, c := range course.AllCautions() {
		if c.Basis == "" {
			t.Errorf("%s names no basis", c.Topic)
		}
	}
	job := mendplan.Job{StopList: course.StopList()}
	if len(course.OpenStops(job)) != 0 || len(course.OpenStops(mendplan.Job{})) != len(course.StopList()) {
		t.Error("the stop list is not answered as it should be")
	}
}
