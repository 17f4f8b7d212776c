package mendplan

import "context"

// Assemble makes the plan of pieces that are known already: it lays them on
// the stock with a budget of work for each tissue and adds up the estimate.
// The pieces and their problems come from [Pieces]. Only a cancelled context
// makes the result depend on anything but the arguments.
func Assemble(ctx context.Context, job Job, pieces []Piece, problems []Problem, effort int, progress func(tissue string, done, total int)) Plan {
	s := Search{Effort: effort}
	if progress != nil {
		s.Progress = func(p SearchState) { progress(p.Tissue, p.Done, p.Total) }
	}
	return s.Assemble(ctx, job, pieces, problems)
}
