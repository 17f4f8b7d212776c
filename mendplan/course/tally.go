package course

import (
	"slices"

	"leafmend/mendplan"
)

// Tally counts what has been done so far and what the plan holds. A piece is
// done when its leaf is recorded as mended or when it is ticked off itself; a
// damage when all its pieces are.
type Tally struct {
	Leaves     int
	Steps      []StepCount // in the usual order of acts, then the user's own
	Mends      []KindCount // damages that get a mend, by kind
	Pieces     int
	PiecesDone int
	Tissue     []TissueCount
}

// StepCount is how many leaves have a step of a kind.
type StepCount struct {
	Kind   mendplan.StepKind
	Leaves int
}

// KindCount is how many damages of a kind there are, and how many are mended.
type KindCount struct {
	Kind  mendplan.DamageKind
	Count int
	Done  int
}

// TissueCount is what is used of a tissue: by the whole plan, and by the
// pieces that are done, which is what has been added to the object.
type TissueCount struct {
	Tissue      string // ID
	Pieces      int
	AreaMM2     float64
	MassG       float64
	PiecesDone  int
	AreaDoneMM2 float64
	MassDoneG   float64
}

// PieceDone reports whether a piece is on its leaf.
func PieceDone(job mendplan.Job, p mendplan.Piece) bool {
	leaf, ok := job.Leaf(p.Leaf)
	return ok && (Done(job, p.Leaf, mendplan.MendedStep) || slices.Contains(leaf.PiecesOn, p.Label))
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
	done := make([]bool, len(plan.Pieces))
	mended := map[string]bool{}
	for _, l := range job.Leaves {
		mended[l.ID] = Done(job, l.ID, mendplan.MendedStep)
	}
	for i, p := range plan.Pieces {
		if done[i] = mended[p.Leaf] || PieceDone(job, p); done[i] {
			t.PiecesDone++
		}
	}
	t.Mends = countMends(job, plan, done, mended)
	t.Tissue = countTissue(job, plan, done)
	return t
}

// countMends counts the damages that get a mend, kind by kind.
func countMends(job mendplan.Job, plan mendplan.Plan, done []bool, mended map[string]bool) []KindCount {
	pieces, on := map[int]int{}, map[int]int{} // by damage
	for i, p := range plan.Pieces {
		pieces[p.Damage]++
		if done[i] {
			on[p.Damage]++
		}
	}
	var out []KindCount
	for _, kind := range mendplan.MendedKinds() {
		c := KindCount{Kind: kind}
		for _, l := range job.Leaves {
			for _, d := range l.Damages {
				if d.Kind != kind || d.NoMend {
					continue
				}
				c.Count++
				if mended[l.ID] || pieces[d.Number] > 0 && on[d.Number] == pieces[d.Number] {
					c.Done++
				}
			}
		}
		if c.Count > 0 {
			out = append(out, c)
		}
	}
	return out
}

func countTissue(job mendplan.Job, plan mendplan.Plan, done []bool) []TissueCount {
	var out []TissueCount
	for _, tissue := range job.Tissues {
		c := TissueCount{Tissue: tissue.ID}
		for i, p := range plan.Pieces {
			if p.Tissue != tissue.ID {
				continue
			}
			c.Pieces++
			c.AreaMM2 += p.AreaMM2
			if done[i] {
				c.PiecesDone++
				c.AreaDoneMM2 += p.AreaMM2
			}
		}
		c.MassG, c.MassDoneG = c.AreaMM2/1e6*tissue.Grammage, c.AreaDoneMM2/1e6*tissue.Grammage
		if c.Pieces > 0 {
			out = append(out, c)
		}
	}
	return out
}
