package mendplan

import (
	"context"
	"runtime"
	"sync"

	"leafmend/mendplan/phrase"
)

// layoutEffort is the budget of the layouts in [Compute], about a tenth of a
// second for each tissue. Who has time calls [Assemble] with more.
const layoutEffort = 100

// Compute returns what follows from a job: the pieces, how they come out of
// the stock, what it all takes, and what is wrong. It is pure: the same job
// gives the same plan, in every byte.
func Compute(job Job) Plan { return ComputeWith(job, Look{}) }

// ComputeWith is [Compute] with what the pictures tell.
func ComputeWith(job Job, look Look) Plan {
	pieces, problems := PiecesWith(job, look)
	return Finish(job, pieces, problems)
}

// Finish lays out pieces found by [Pieces] or a [Memo] and adds the estimate.
func Finish(job Job, pieces []Piece, problems []Problem) Plan {
	return Assemble(context.Background(), job, pieces, problems, layoutEffort, nil)
}

// Pieces returns the pieces of tissue that the job's damages need, in the
// order of leaves, damages and application, and what is wrong with the job.
// Damages that cannot be measured get no pieces, and a problem says so.
func Pieces(job Job) ([]Piece, []Problem) { return PiecesWith(job, Look{}) }

// PiecesWith is [Pieces] with what the pictures tell.
func PiecesWith(job Job, look Look) ([]Piece, []Problem) {
	return new(Memo).PiecesWith(job, look)
}

// gather puts the results of all leaves in order and adds what concerns the
// whole job.
func gather(job Job, results []*leafResult) ([]Piece, []Problem) {
	n := 0
	for _, r := range results {
		n += len(r.pieces)
	}
	pieces := make([]Piece, 0, n)
	problems := jobProblems(job, n)
	for _, r := range results {
		pieces = append(pieces, r.pieces...)
		problems = append(problems, r.problems...)
	}
	return pieces, problems
}

// jobProblems names what concerns the job as a whole.
func jobProblems(job Job, pieces int) []Problem {
	out := ruleProblems(job.Rules, Problem{})
	if len(job.Tissues) == 0 && pieces > 0 {
		out = append(out, Problem{Kind: NoTissue, Weight: Wrong,
			Words: phrase.Of("The job names no tissue, so nothing can be cut."), Hint: phrase.Of("Add a tissue and what you have of it in stock.")})
	}
	return append(out, fileScales(job)...)
}

// fileScales tells once how many sides take their scale from the file alone.
func fileScales(job Job) []Problem {
	n, worst := 0, 0.0
	for _, l := range job.Leaves {
		for _, c := range []Calibration{l.Front.Calibration, l.Back.Calibration} {
			if c.Origin == FromFile {
				n, worst = n+1, max(worst, c.DoubtPercent)
			}
		}
	}
	if worst <= (InForce{Job: job.Rules}).Number(ScaleTolerance) {
		return nil
	}
	return []Problem{{Kind: DoubtfulScale, Weight: Advice,
		Words: phrase.Of("The scale of %d scans rests on what their files say, and may be off by %.1f %%.", n, worst),
		Hint:  phrase.Of("Measure a known length of 100 mm or more, in both directions, on one scan from each scanner.")}}
}

// everyLeaf calls do for each index on all processors. What it computes goes
// to its own place, so the order of work leaves no trace.
func everyLeaf(n int, do func(i int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	if workers <= 1 {
		for i := range n {
			do(i)
		}
		return
	}
	var wg sync.WaitGroup
	next := make(chan int)
	for range workers {
		wg.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	wg.Wait()
}
