package mendplan

import (
	"context"

	"leafmend/mendplan/nest"
	"leafmend/mendplan/phrase"
)

// remnantsFirst is by how much a remnant's area counts less than a fresh
// sheet's: wholly, so that what can come out of remnants does.
const remnantsFirst = 1

// Layouts lays the blanks of the pieces on the stock, tissue by tissue, with
// a budget of work for each as in [nest.Options.Effort]. A cancelled context
// gives the best layouts so far. What found no place is told as problems.
// Sheets that are held come first and stay as they are; see [HeldSheet].
func Layouts(ctx context.Context, job Job, pieces []Piece, effort int, progress func(tissue string, done, total int)) ([]TissueLayout, []Problem) {
	s := Search{Effort: effort}
	if progress != nil {
		s.Progress = func(p SearchState) { progress(p.Tissue, p.Done, p.Total) }
	}
	return s.Layouts(ctx, job, pieces)
}

func nestOptions(job Job, effort int) nest.Options {
	rules := InForce{Job: job.Rules}
	w, h := rules.Number(KeepWidth), rules.Number(KeepLength)
	largest := rules.Number(LargestWorth) / 100
	if largest == 0 {
		largest = -1 // there, 0 stands for the usual half
	}
	return nest.Options{
		Gap:      rules.Number(CutGap),
		KeepW:    min(w, h),
		KeepH:    min(w, h),
		KeepArea: w * h,
		Effort:   effort,
		Weights: nest.Weights{RemnantsFirst: remnantsFirst, LargestRemnant: largest,
			FewerCuts: rules.Number(CutWorth), FewerSettings: rules.Number(SettingWorth)},
	}
}

// blanksOf turns the pieces of one tissue into blanks, length along y. Those
// that lie on held sheets as they are needed are left out.
func blanksOf(job Job, pieces []Piece, tissue string) []nest.Blank {
	var out []nest.Blank
	for _, p := range pieces {
		if p.Tissue != tissue || job.holds(p) {
			continue
		}
		turn := nest.Fixed
		if p.GrainFree {
			turn = nest.Free
		}
		b := nest.Blank{ID: p.Label, W: p.BlankWidthMM, H: p.BlankLengthMM, Count: 1, Turn: turn, Group: tissue}
		if pin, ok := job.PinOf(p.Label); ok {
			b.Pins = []nest.Pin{{Stock: pin.Stock, Copy: pin.Copy, X: pin.XMM, Y: pin.YMM, Turned: pin.Turned}}
		}
		out = append(out, b)
	}
	return out
}

// stockOf turns the stock of one tissue round so that the grain runs along y.
func stockOf(job Job, tissue string) []nest.Stock {
	var out []nest.Stock
	for _, s := range job.Stock {
		if s = job.unheld(s); s.Tissue != tissue || s.Count < 1 {
			continue
		}
		w, h := s.WidthMM, s.LengthMM
		if s.GrainAlong == "width" && s.Kind != Roll {
			w, h = h, w
		}
		out = append(out, nest.Stock{ID: s.ID, Group: tissue, W: w, H: h, Copies: s.Count,
			Margin: nest.All(s.MarginMM), Roll: s.Kind == Roll, Remnant: s.Kind == Remnant, Price: s.Price})
	}
	return out
}

func unplacedProblems(job Job, pieces []Piece, tissue Tissue, layout nest.Layout) []Problem {
	var out []Problem
	for _, u := range layout.Unplaced {
		p := Problem{Kind: DoesNotFit, Weight: Wrong, Words: phrase.Of("Piece %s of %s found no place: %s", u.Blank, tissue.Name, u.Reason), Hint: phrase.Of("%s", u.Remedy)}
		for _, piece := range pieces {
			if piece.Label == u.Blank {
				p.Leaf, p.Side, p.Damage = piece.Leaf, piece.Side, piece.Damage
			}
		}
		out = append(out, p)
	}
	for _, note := range layout.Notes {
		out = append(out, Problem{Kind: NoStock, Weight: Doubt, Words: phrase.Of("Stock of %s: %s", tissue.Name, note), Hint: phrase.Of("Look at the stock of this tissue.")})
	}
	return out
}

// stockProblems names stock that belongs to no tissue and rolls whose grain
// cannot run across them.
func stockProblems(job Job) []Problem {
	var out []Problem
	for _, s := range job.Stock {
		if _, ok := job.Tissue(s.Tissue); !ok {
			out = append(out, Problem{Kind: NoTissue, Weight: Doubt, Words: phrase.Of("Stock item %s belongs to a tissue that is not in the list", s.ID), Hint: phrase.Of("Choose its tissue, or take the item out.")})
		}
		if s.Kind == Roll && s.GrainAlong == "width" {
			out = append(out, Problem{Kind: NoStock, Weight: Doubt, Words: phrase.Of("Roll %s is said to have its grain across; it is laid out with the grain along", s.ID), Hint: phrase.Of("Enter what is cut off it as sheets, with the grain along the width.")})
		}
	}
	return out
}
