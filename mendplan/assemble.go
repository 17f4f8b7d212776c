package mendplan

import "context"

// Assemble makes the plan of pieces that are known already: it lays them on
// the stock with a budget of work for each tissue and adds up the estimate.
// The pieces and their problems come from [Pieces]. Only a cancelled context
// makes the result depend on anything but the arguments.
func Assemble(ctx context.Context, job Job, pieces []Piece, problems []Problem, effort int, progress func(tissue string, done, total int)) Plan {
	layouts, more := Layouts(ctx, job, pieces, effort, progress)
	all := append(problems[:len(problems):len(problems)], stockProblems(job)...)
	return Plan{
		Pieces:   pieces,
		Layouts:  layouts,
		Estimate: estimate(job, pieces, layouts),
		Problems: append(all, more...),
	}
}
