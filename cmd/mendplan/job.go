package main

import (
	"context"
	"path/filepath"

	"leafmend/mendplan"
)

// openJob reads a job and looks whether its scans are still there.
func openJob(path string) (mendplan.Job, []mendplan.Problem, error) {
	job, problems, err := mendplan.LoadFile(path)
	if err != nil {
		return job, nil, err
	}
	return job, append(problems, mendplan.CheckScans(job, filepath.Dir(path))...), nil
}

// firstLayout is a budget for those who want the problems only: what does not
// fit at all shows in the first layout already.
const firstLayout = -1

// computeWith plans a job with a budget of work for each layout.
func computeWith(ctx context.Context, job mendplan.Job, effort int) mendplan.Plan {
	pieces, problems := mendplan.Pieces(job)
	return mendplan.Assemble(ctx, job, pieces, problems, effort, nil)
}
