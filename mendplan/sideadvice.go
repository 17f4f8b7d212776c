package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// SideAdvice proposes the side a piece is pasted on.
type SideAdvice struct {
	Side        SideName
	Front, Back float64       // share of the piece over print, 0 to 1; NaN unknown
	Reason      phrase.Phrase // in words
}

// adviseSide chooses the side where the outlines cover less print (F26). Where
// nothing is known of both sides, or they differ by less than a hundredth,
// the rule for undecided sides speaks.
func adviseSide(leaf Leaf, outlines []geom.Area, r InForce, look Look) SideAdvice {
	def := SideName(r.Word(DefaultSide))
	a := SideAdvice{Side: def, Front: printUnder(leaf, Front, outlines, look), Back: printUnder(leaf, Back, outlines, look)}
	const even = 0.01
	switch {
	case math.IsNaN(a.Front) || math.IsNaN(a.Back):
		a.Reason = phrase.Of("on the %s: as a rule, since print under it is not known for both sides", sideWord(def))
		if def == Back {
			a.Reason = phrase.Of("%s (Cockerell, Bookbinding, and the Care of Books)", a.Reason)
		}
	case math.Abs(a.Front-a.Back) < even:
		a.Reason = phrase.Of("on the %s: as a rule, since print under it is alike, front %.0f %%, back %.0f %%", sideWord(def), a.Front*100, a.Back*100)
	default:
		a.Side = Front
		if a.Back < a.Front {
			a.Side = Back
		}
		a.Reason = phrase.Of("on the %s: it covers less print there, front %.0f %%, back %.0f %%", sideWord(a.Side), a.Front*100, a.Back*100)
	}
	return a
}

// printUnder is the share of all outlines together that lies on print.
func printUnder(leaf Leaf, side SideName, outlines []geom.Area, look Look) float64 {
	covered, total := 0.0, 0.0
	for _, o := range outlines {
		share, known := look.print(leaf.ID, side, o)
		if !known {
			return math.NaN()
		}
		covered += share * o.Area()
		total += o.Area()
	}
	if total == 0 {
		return math.NaN()
	}
	return covered / total
}
