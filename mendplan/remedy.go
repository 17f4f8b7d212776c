package mendplan

import (
	"context"
	"math"
	"slices"

	"leafmend/mendplan/nest"
)

// Remedy is stock that would give a place to pieces that have none.
type Remedy struct {
	Tissue string   // ID
	Labels []string // of the pieces
	Reason string   // in words, as the layout tells it
	Stock  Stock    // to put into the job: an item it has, with a higher count, or a new one
	More   int      // how many sheets that adds
}

// Apply returns the job with the stock of the remedy.
func (r Remedy) Apply(j Job) Job { return j.WithStock(r.Stock) }

// remedyRound is to what sizes of stock that is added are rounded up, mm.
const remedyRound = 10

// mostMore bounds how many sheets a remedy adds.
const mostMore = 500

// Remedies says for each tissue with pieces on no sheet what stock would do:
// more of a sheet that there is where they fit one, else a new sheet just
// large enough. Pieces that fit none are told apart from those for which
// there is not enough. Each is worked out for itself, on the job as it is.
func Remedies(ctx context.Context, job Job, plan Plan) []Remedy {
	var out []Remedy
	for _, l := range plan.Layouts {
		byKind := map[bool][]Piece{}
		reasons := map[bool]string{}
		for _, u := range l.Layout.Unplaced {
			i := slices.IndexFunc(plan.Pieces, func(p Piece) bool { return p.Label == u.Blank })
			if i < 0 {
				continue
			}
			_, fits := job.sheetFor(l.Tissue, plan.Pieces[i])
			byKind[fits] = append(byKind[fits], plan.Pieces[i])
			reasons[fits] = u.Reason
		}
		for _, fits := range []bool{true, false} {
			if len(byKind[fits]) > 0 && ctx.Err() == nil {
				out = append(out, remedyFor(ctx, job, l.Tissue, plan.Pieces, byKind[fits], reasons[fits]))
			}
		}
	}
	return out
}

// sheetFor finds a sheet of the tissue in stock, perhaps none left of it, that
// would hold the piece; the largest.
func (j Job) sheetFor(tissue string, p Piece) (Stock, bool) {
	var best Stock
	found := false
	for _, s := range j.Stock {
		if s.Tissue != tissue || s.Kind != SheetStock {
			continue
		}
		w, h := s.WidthMM-2*s.MarginMM, s.LengthMM-2*s.MarginMM
		if s.GrainAlong == "width" {
			w, h = h, w
		}
		fits := p.BlankWidthMM <= w && p.BlankLengthMM <= h || p.GrainFree && p.BlankLengthMM <= w && p.BlankWidthMM <= h
		if fits && (!found || s.WidthMM*s.LengthMM > best.WidthMM*best.LengthMM) {
			best, found = s, true
		}
	}
	return best, found
}

// remedyFor finds how many more sheets the pieces need, by laying them out.
func remedyFor(ctx context.Context, job Job, tissue string, all, lost []Piece, reason string) Remedy {
	r := Remedy{Tissue: tissue, Reason: reason}
	length, width := 0.0, 0.0
	for _, p := range lost {
		r.Labels = append(r.Labels, p.Label)
		length, width = math.Max(length, p.BlankLengthMM), math.Max(width, p.BlankWidthMM)
	}
	stock, ok := job.sheetFor(tissue, lost[0])
	for _, p := range lost {
		if s, fits := job.sheetFor(tissue, p); !fits || s.ID != stock.ID {
			ok = ok && fits
		}
	}
	if !ok {
		stock = Stock{ID: job.FreshStockID(), Tissue: tissue, Kind: SheetStock, LengthMM: roundUp(length), WidthMM: roundUp(width), GrainAlong: "length"}
	}
	had := stock.Count
	for r.More = 1; r.More < mostMore && ctx.Err() == nil; r.More++ {
		stock.Count = had + r.More
		if !lacks(ctx, job.WithStock(stock), tissue, all, r.Labels) {
			break
		}
	}
	r.Stock = stock
	return r
}

// lacks reports whether one of the labels finds no place in a first layout.
func lacks(ctx context.Context, job Job, tissue string, pieces []Piece, labels []string) bool {
	l := nest.Solve(ctx, blanksOf(job, pieces, tissue), stockOf(job, tissue), nestOptions(job, -1))
	return slices.ContainsFunc(l.Unplaced, func(u nest.Unplaced) bool { return slices.Contains(labels, u.Blank) })
}

func roundUp(mm float64) float64 { return math.Ceil(mm/remedyRound-1e-9) * remedyRound }
