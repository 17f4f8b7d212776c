package course_test

import (
	"math"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// Two to three per cent of calcium carbonate are published as 400 to 600
// meq/kg.
func TestAlkalineReserveInBothUnits(t *testing.T) {
	for _, c := range []struct{ percent, exact, published float64 }{{2, 399.7, 400}, {3, 599.5, 600}, {0, 0, 0}} {
		got := course.ReserveMeq(c.percent)
		if math.Abs(got-c.exact) > 0.05 || math.Abs(got-c.published) > 0.6 {
			t.Errorf("%g %% is %.2f meq/kg, want %.1f", c.percent, got, c.exact)
		}
	}
	if course.ReserveTarget != 2 {
		t.Errorf("the target is %g %%", course.ReserveTarget)
	}
}

// US measures (NIST Handbook 44, appendix C): a cup is sixteen tablespoons.
func TestSpoonsAndCups(t *testing.T) {
	const cup = 236.588
	for _, c := range []struct {
		name               string
		tablespoons, cups  float64
		parts, sharePerCnt float64
	}{
		{"six tablespoons to two cups", 6, 2, 5.33, 9.35},
		{"three and a half tablespoons to two cups", 3.5, 2, 9.14, 5.68},
	} {
		parts := c.cups * cup / (c.tablespoons * mendplan.TablespoonML)
		if math.Abs(parts-c.parts) > 0.005 {
			t.Errorf("%s are 1 : %.3f, want 1 : %.2f", c.name, parts, c.parts)
		}
		r := mendplan.Recipe{Parts: parts}
		if got := 100 * course.StarchShare(r, 0.55); math.Abs(got-c.sharePerCnt) > 0.01 {
			t.Errorf("%s hold %.3f %% starch, want %.2f", c.name, got, c.sharePerCnt)
		}
	}
}

// A recipe quoted on the Book Arts list says that 6 g to 100 mL is one
// tablespoon to the cup. That would be powder of 0.96 g/mL, which no spoon
// holds: such a figure must not pass as the density of loose powder.
func TestAnInconsistentRecipeIsNoCalibration(t *testing.T) {
	implied := 6.0 / 100 * 236.588 / mendplan.TablespoonML
	if math.Abs(implied-0.96) > 0.005 {
		t.Fatalf("it implies %.3f g/mL, want 0.96", implied)
	}
	for _, r := range mendplan.RuleTable() {
		if r.Key == mendplan.BulkDensity && (implied <= r.Max || 0.55 < r.Min || 0.55 > r.Max) {
			t.Errorf("%g g/mL passes as a density between %g and %g", implied, r.Min, r.Max)
		}
	}
	job := mendplan.Job{}.WithRule(mendplan.BulkDensity, mendplan.Num(implied))
	if got := (mendplan.InForce{Job: job.Rules}).Number(mendplan.BulkDensity); got == implied {
		t.Errorf("%g g/mL is in force", got)
	}
}
