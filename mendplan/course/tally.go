package course

import "leafmend/mendplan"

// Tally counts what has been done so far and what the plan holds.
type Tally struct {
	Leaves     int
	Steps      []StepCount // in the usual order of acts, then the user's own
	Mends      []KindCount // damages that get a mend, by kind; Done counts those on mended leaves
	Pieces     int
	PiecesDone int // on mended leaves
	Tissue     []TissueCount
}

// StepCount is how many leaves have a step of a kind.
type StepCount struct {
	Kind   mendplan.StepKind
	Leaves int
}

// KindCount is how many damages of a kind there are.
type KindCount struct {
	Kind  mendplan.DamageKind
	Count int
	Done  int
}

// TissueCount is what is used of a tissue.
type TissueCount struct {
	Tissue  string
	Pieces  int
	AreaMM2 float64
	MassG   float64
}

// Count makes the tally of a job.
func Count(job mendplan.Job, plan mendplan.Plan) Tally {
	t := Tally{Leaves: len(job.Leaves), Pieces: len(plan.Pieces)}
	for _, k := range append(mendplan.StepKinds(), job.OwnSteps...) {
		n := 0
		for _, l := range job.Leaves {
			if Done(job, l.ID, k) {
				n++
			}
		}
		t.Steps = append(t.Steps, StepCount{k, n})
	}
	mended := map[string]bool{}
	for _, l := range job.Leaves {
		mended[l.ID] = Done(job, l.ID, mendplan.MendedStep)
	}
	for _, kind := range mendplan.MendedKinds() {
		c := KindCount{Kind: kind}
		for _, l := range job.Leaves {
			for _, d := range l.Damages {
				if d.Kind == kind && !d.NoMend {
					c.Count++
					if mended[l.ID] {
						c.Done++
					}
				}
			}
		}
		if c.Count > 0 {
			t.Mends = append(t.Mends, c)
		}
	}
	for _, tissue := range job.Tissues {
		c := TissueCount{Tissue: tissue.ID}
		for _, p := range plan.Pieces {
			if p.Tissue == tissue.ID {
				c.Pieces++
				c.AreaMM2 += p.AreaMM2
			}
		}
		c.MassG = c.AreaMM2 / 1e6 * tissue.Grammage
		if c.Pieces > 0 {
			t.Tissue = append(t.Tissue, c)
		}
	}
	for _, p := range plan.Pieces {
		if mended[p.Leaf] {
			t.PiecesDone++
		}
	}
	return t
}
