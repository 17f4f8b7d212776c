package mendplan

import (
	"cmp"
	"context"
	"errors"
	"slices"

	"leafmend/mendplan/nest"
)

// Search says how long to look for a layout, and whom to tell. The zero
// value looks for about a second for each tissue.
type Search struct {
	Effort   int               // budget of work for each tissue, as in [nest.Options.Effort]
	Progress func(SearchState) // told now and then how far it is; may be nil
	Memo     *LayoutMemo       // what earlier searches found; may be nil
	Anew     bool              // search, whatever the memo knows; the better of both is the result
}

// ErrGoodEnough, as the cause of a cancelled context, says that the best
// layout so far is wanted and to be remembered. Any other cause gives it back
// too, but it is not remembered.
var ErrGoodEnough = errors.New("good enough")

// SearchState is how far a search is.
type SearchState struct {
	Tissue      string       // ID of the tissue that is laid out
	Done, Total int          // of its budget
	Best        nest.Summary // the best layout so far
}

// Layouts lays out the pieces of a job; see the function of that name.
func (s Search) Layouts(ctx context.Context, job Job, pieces []Piece) ([]TissueLayout, []Problem) {
	var out []TissueLayout
	problems := heldProblems(job, pieces)
	for _, tissue := range job.Tissues {
		blanks, held := blanksOf(job, pieces, tissue.ID), heldOf(job, tissue.ID)
		if len(blanks) == 0 && len(held) == 0 {
			continue
		}
		layout := s.interlocked(ctx, job, pieces, tissue.ID, blanks)
		problems = append(problems, unplacedProblems(job, pieces, tissue, layout)...)
		out = append(out, TissueLayout{Tissue: tissue.ID, Layout: withHeld(job, layout, held)})
	}
	return out, problems
}

// Assemble makes the plan as the function of that name does.
func (s Search) Assemble(ctx context.Context, job Job, pieces []Piece, problems []Problem) Plan {
	layouts, more := s.Layouts(ctx, job, pieces)
	all := append(problems[:len(problems):len(problems)], stockProblems(job)...)
	return Plan{Pieces: pieces, Layouts: layouts, Estimate: estimate(job, pieces, layouts), Problems: append(all, more...)}
}

// solve lays one tissue out, or remembers how it was laid out before. With
// nothing to lay, the layout is empty.
func (s Search) solve(ctx context.Context, job Job, tissue string, blanks []nest.Blank) nest.Layout {
	if len(blanks) == 0 {
		return nest.Layout{Proven: true}
	}
	stock, opt := stockOf(job, tissue), nestOptions(job, s.Effort)
	key := layoutKey(blanks, stock, opt)
	if l, ok := s.Memo.find(key, s.Effort); ok && (!s.Anew || l.Proven) {
		return l
	}
	if s.Progress != nil {
		opt.Progress = func(done, total int, best nest.Summary) { s.Progress(SearchState{tissue, done, total, best}) }
	}
	same := blanksKey(blanks, opt)
	opt.Before = s.Memo.others(same)
	l := nest.Solve(ctx, blanks, stock, opt)
	if cause := context.Cause(ctx); cause != nil && !errors.Is(cause, ErrGoodEnough) {
		return l
	}
	return s.Memo.keep(key, same, s.Effort, l)
}

// heldOf returns the held sheets of a tissue in the order of holding.
func heldOf(job Job, tissue string) []HeldSheet {
	var out []HeldSheet
	for _, h := range job.Held {
		if h.Tissue == tissue {
			out = append(out, h)
		}
	}
	slices.SortStableFunc(out, func(a, b HeldSheet) int { return cmp.Compare(a.Number, b.Number) })
	return out
}

// heldCopies is how many sheets of a stock item are or were held: so many
// copies come before those of the layout.
func (j Job) heldCopies(stock string) int {
	n := 0
	for _, h := range j.Held {
		if h.Stock == stock {
			n++
		}
	}
	return n
}

// withHeld puts the held sheets before those of a layout, so that sheets keep
// their numbers when the whole layout is held and one after the other is cut.
func withHeld(job Job, l nest.Layout, held []HeldSheet) nest.Layout {
	var all []nest.Sheet
	for _, h := range held {
		s := h.Sheet()
		addSheet(&l, s)
		all = append(all, s)
	}
	for _, s := range l.Sheets {
		s.Copy += job.heldCopies(s.Stock)
		all = append(all, s)
	}
	l.Sheets = all
	return l
}

// addSheet adds a held sheet to the sums of a layout. What of it is kept is
// not added: it is one remnant among others only once it is in stock.
func addSheet(l *nest.Layout, s nest.Sheet) {
	l.Opened += s.W * s.H
	l.Price += s.Price
	l.Cuts += len(s.Cuts)
	l.Settings += s.Settings
	for _, p := range s.Places {
		l.Placed += p.W * p.H
	}
}
