package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"

	"leafmend/mendplan"
	"leafmend/mendplan/export"
	"leafmend/mendplan/nest"
)

// checkWhole lists the problems of a job that could be read.
func checkWhole(ctx context.Context, c call, job mendplan.Job, problems []mendplan.Problem, asJSON bool) (bool, error) {
	problems = append(problems, computeWith(ctx, job, firstLayout).Problems...)
	if asJSON {
		return len(problems) > 0, printJSON(c.out, export.ProblemsOf(problems))
	}
	listProblems(c.out, job, problems)
	return len(problems) > 0, nil
}

// plan prints everything that follows from a job.
func plan(ctx context.Context, c call) (bool, error) {
	asJSON := c.flags.Bool("json", false, "print JSON")
	effort := c.flags.Int("effort", nest.DefaultEffort, "budget of work for the layout of each tissue; about a thousandth of a second each")
	path, err := c.one("job")
	if err != nil {
		return false, err
	}
	job, problems, err := openJob(path)
	if err != nil {
		return false, err
	}
	p := computeWith(ctx, job, *effort)
	p.Problems = append(problems, p.Problems...)
	if *asJSON {
		return len(p.Problems) > 0, printJSON(c.out, export.PlanOf(job, p))
	}
	told := export.PlanOf(job, p)
	writePieces(c.out, job, p)
	writeReasons(c.out, told)
	writeAfter(c.out, job, told)
	writeSheets(c.out, job, told)
	writeEstimate(c.out, job, p.Estimate)
	listProblems(c.err, job, p.Problems)
	return len(p.Problems) > 0, nil
}

func printJSON(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetIndent("", " ")
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("writing the result: %w", err)
	}
	return nil
}

func listProblems(w io.Writer, job mendplan.Job, problems []mendplan.Problem) {
	for _, p := range problems {
		place := ""
		if leaf, ok := job.Leaf(p.Leaf); ok {
			place = " leaf " + leaf.Mark
			if p.Side != "" {
				place += " " + string(p.Side)
			}
		}
		if p.Damage > 0 {
			place += fmt.Sprintf(" damage %d", p.Damage)
		}
		fmt.Fprintf(w, "%s:%s: %s %s\n", p.Weight, place, p.Words, p.Hint)
	}
}
