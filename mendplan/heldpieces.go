package mendplan

import (
	"math"

	"leafmend/mendplan/phrase"
)

// sizeSlack is by how much a piece may be larger than when its sheet was
// held before it counts as another, mm: less than a ruler shows.
const sizeSlack = 0.05

// heldPlace finds the held sheet on which a piece lies, the last if several.
func (j Job) heldPlace(label string) (HeldSheet, HeldPiece, bool) {
	for i := len(j.Held) - 1; i >= 0; i-- {
		for _, p := range j.Held[i].Pieces {
			if p.Label == label || p.Share != nil && p.Share.Label == label {
				return j.Held[i], p, true
			}
		}
	}
	return HeldSheet{}, HeldPiece{}, false
}

// holds reports whether a piece lies on a held sheet of its tissue, large
// enough for what it is now.
func (j Job) holds(p Piece) bool {
	h, at, ok := j.heldPlace(p.Label)
	return ok && h.Tissue == p.Tissue && at.covers(p)
}

// covers reports whether the place is as large as the piece needs.
func (h HeldPiece) covers(p Piece) bool {
	length, width := h.LengthMM, h.WidthMM
	switch {
	case h.Share != nil && h.Share.Label == p.Label:
		length, width = h.Share.LengthMM, h.Share.WidthMM
	case h.Share != nil:
		length, width = h.Share.OwnLengthMM, h.Share.OwnWidthMM
	case h.Turned:
		length, width = width, length
	}
	return p.BlankLengthMM <= length+sizeSlack && p.BlankWidthMM <= width+sizeSlack
}

// unheld is the stock item without what held sheets of it take that are not
// cut yet.
func (j Job) unheld(s Stock) Stock {
	for _, h := range j.Held {
		if h.Stock == s.ID && !h.Done {
			s = takenFrom(s, h)
		}
	}
	return s
}

// heldProblems names pieces on held sheets that are not what is needed now,
// and held sheets of tissue or stock that is gone.
func heldProblems(job Job, pieces []Piece) []Problem {
	byLabel := map[string]Piece{}
	for _, p := range pieces {
		byLabel[p.Label] = p
	}
	var out []Problem
	for _, h := range job.Held {
		if _, ok := job.Tissue(h.Tissue); !ok {
			out = append(out, Problem{Kind: NoTissue, Weight: Doubt, Words: phrase.Of("A sheet that is held, number %d, is of a tissue that is not in the list.", h.Number),
				Hint: phrase.Of("Add the tissue again, or undo its removal.")})
		}
		gone := 0
		for _, at := range h.Pieces {
			for _, label := range at.labels() {
				p, ok := byLabel[label]
				if !ok {
					gone++
					continue
				}
				if h.Tissue == p.Tissue && !at.covers(p) {
					out = append(out, changedPiece(h, at, p))
				}
			}
		}
		if gone > 0 {
			out = append(out, Problem{Kind: DoesNotFit, Weight: Advice, Words: phrase.Of("On the held sheet %d, %d pieces lie that no mend needs any more.", h.Number, gone),
				Hint: phrase.Of("Release the sheet to lay it out anew; what is cut already can serve for another mend.")})
		}
	}
	return out
}

func changedPiece(h HeldSheet, at HeldPiece, p Piece) Problem {
	sizes := []any{p.Label, math.Max(at.LengthMM, at.WidthMM), math.Min(at.LengthMM, at.WidthMM),
		math.Max(p.BlankLengthMM, p.BlankWidthMM), math.Min(p.BlankLengthMM, p.BlankWidthMM)}
	says := phrase.Of("Piece %s is held at %.1f × %.1f mm, and now needs %.1f × %.1f mm.", sizes...)
	hint := phrase.Of("Release the sheet to lay it out anew.")
	if at.Off || h.Done {
		says = phrase.Of("Piece %s was cut at %.1f × %.1f mm, and now needs %.1f × %.1f mm.", sizes...)
		hint = phrase.Of("It is laid out once more; the one that is cut can serve elsewhere.")
	}
	return Problem{Kind: DoesNotFit, Weight: Doubt, Leaf: p.Leaf, Side: p.Side, Damage: p.Damage, Words: says, Hint: hint}
}
