package course

import (
	"slices"

	"leafmend/mendplan"
)

// Last returns the latest step of a kind on a leaf, by day and hour, and
// among equals the one recorded last.
func Last(job mendplan.Job, leaf string, kind mendplan.StepKind) (mendplan.Step, bool) {
	var best mendplan.Step
	found := false
	for _, s := range job.Steps {
		if s.Leaf == leaf && s.Kind == kind && (!found || s.Date+" "+s.Time >= best.Date+" "+best.Time) {
			best, found = s, true
		}
	}
	return best, found
}

// Done reports whether a step of the kind is recorded for the leaf.
func Done(job mendplan.Job, leaf string, kind mendplan.StepKind) bool {
	_, ok := Last(job, leaf, kind)
	return ok
}

// InPress reports whether a leaf lies in the press: it went in and has not
// come out since.
func InPress(job mendplan.Job, leaf string) bool {
	in, ok := Last(job, leaf, mendplan.PressedIn)
	if !ok {
		return false
	}
	out, ok := Last(job, leaf, mendplan.PressedOut)
	return !ok || out.Date+" "+out.Time < in.Date+" "+in.Time
}

// Tests returns the spot tests of a leaf, oldest first as recorded.
func Tests(job mendplan.Job, leaf string) []mendplan.SpotTest {
	var out []mendplan.SpotTest
	for _, s := range job.Steps {
		if s.Leaf == leaf && s.Test != nil {
			out = append(out, *s.Test)
		}
	}
	return out
}

// Next returns what usually comes next for a leaf: of the acts that most
// leaves need, in their usual order, the first after the latest of those
// recorded; what was passed over is not asked for again, but a survey always
// is. Wet treatments are a decision and never proposed. "" when all is done.
func Next(job mendplan.Job, leaf mendplan.Leaf) mendplan.StepKind {
	usual := []mendplan.StepKind{mendplan.Surveyed, mendplan.Tested, mendplan.SurfaceCleaned, mendplan.MendedStep,
		mendplan.PressedIn, mendplan.PressedOut, mendplan.TrimmedStep, mendplan.Checked}
	needsMend := slices.ContainsFunc(leaf.Damages, func(d mendplan.Damage) bool { return d.Kind.Mended() && !d.NoMend })
	latest := 0
	for i, k := range usual {
		if Done(job, leaf.ID, k) {
			latest = i
		}
	}
	for i, k := range usual {
		if i > 0 && i <= latest {
			continue
		}
		if k == mendplan.MendedStep && !needsMend || k == mendplan.TrimmedStep && !needsMend {
			continue
		}
		if !Done(job, leaf.ID, k) {
			return k
		}
	}
	return ""
}
