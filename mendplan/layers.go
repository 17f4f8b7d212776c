package mendplan

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// checks tells what the pieces of a leaf do to one another and to the leaf.
func (w leafWork) checks(pieces []Piece, sites map[SideName]*siteOf) []Problem {
	boxes := make([]geom.Box, len(pieces))
	for i, p := range pieces {
		boxes[i] = p.Outline.Bounds()
	}
	out := w.crowded(pieces, boxes, sites)
	out = append(out, w.sameLines(pieces, boxes, sites)...)
	out = append(out, w.intrusions(pieces, boxes, sites)...)
	return append(out, w.edgeRuns(sites)...)
}

// crowded finds the places where more pieces of one side lie over one another
// than the rules allow (F12), one problem for each set of damages, at the
// deepest place found.
func (w leafWork) crowded(pieces []Piece, boxes []geom.Box, sites map[SideName]*siteOf) []Problem {
	most := int((InForce{Job: w.job.Rules}).Number(MostLayers))
	var out []Problem
	told := map[string]bool{}
	for i := range pieces {
		over := []int{}
		for k := i + 1; k < len(pieces); k++ {
			if pieces[k].Side == pieces[i].Side && boxes[i].Overlaps(boxes[k]) {
				over = append(over, k)
			}
		}
		if len(over) < most {
			continue
		}
		stack, place := deepest(pieces, boxes, []int{i}, pieces[i].Outline, boxes[i], over, most)
		if len(stack) <= most {
			continue
		}
		numbers := damagesOf(pieces, stack)
		if key := fmt.Sprint(numbers, pieces[i].Side); !told[key] {
			told[key] = true
			out = append(out, w.crowdProblem(pieces, stack, numbers, place, sites))
		}
	}
	return out
}

// deepest searches the pieces that lie over one another at one place: those
// of stack do, within area. It stops at the first stack of more than most.
func deepest(pieces []Piece, boxes []geom.Box, stack []int, area geom.Area, box geom.Box, over []int, most int) ([]int, geom.Area) {
	best, place := stack, area
	for n, k := range over {
		if len(stack)+len(over)-n <= max(most, len(best)) {
			break // not enough left
		}
		shared := intersectBoxes(box, boxes[k])
		if shared.Empty() {
			continue
		}
		common := geom.Intersect(area, pieces[k].Outline)
		if common.Area() < layerMM2 {
			continue
		}
		s, a := deepest(pieces, boxes, append(slices.Clone(stack), k), common, shared, over[n+1:], most)
		if len(s) > len(best) {
			best, place = s, a
		}
		if len(best) > most {
			break
		}
	}
	return best, place
}

// layerMM2 is the least area, mm², that counts as lying over one another:
// touching corners do no harm.
const layerMM2 = 0.25

func intersectBoxes(a, b geom.Box) geom.Box {
	return geom.Box{
		Min: geom.Pt{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: geom.Pt{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
	}
}

func damagesOf(pieces []Piece, stack []int) []int {
	var out []int
	for _, i := range stack {
		out = append(out, pieces[i].Damage)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func (w leafWork) crowdProblem(pieces []Piece, stack, numbers []int, place geom.Area, sites map[SideName]*siteOf) Problem {
	p := w.placed(Crowded, Doubt, pieces[stack[0]].Side, place.Bounds().Centre(), sites)
	p.Damage = numbers[0]
	p.Joins = numbers
	p.Words = phrase.Of("At least %d layers of tissue meet on the %s of leaf %s, of %s.", len(stack), sideWord(pieces[stack[0]].Side), markOf(w.leaf), damageWords(numbers))
	p.Hint = phrase.Of("Join these pieces, or move one to the other side.")
	return p
}

// placed starts a problem at a place of the leaf frame, shown on the side
// where it can be.
func (w leafWork) placed(kind ProblemKind, weight Weight, side SideName, at geom.Pt, sites map[SideName]*siteOf) Problem {
	p := Problem{Kind: kind, Weight: weight, Leaf: w.leaf.ID, Side: side}
	on := side
	if s := sites[on]; s == nil || s.fault != nil {
		on = side.Other()
	}
	if s := sites[on]; s != nil && s.fault == nil {
		if px := s.frame.ToScan(at); px.Finite() && !math.IsNaN(px.X) {
			p.Side, p.At = on, &px
		}
	}
	return p
}

// damageWords names damages: "damage 4" or "damages 4, 7, 9".
func damageWords(numbers []int) phrase.Phrase {
	if len(numbers) == 1 {
		return phrase.Of("damage %d", numbers[0])
	}
	each := make([]phrase.Phrase, len(numbers))
	for i, n := range numbers {
		each[i] = phrase.Of(strconv.Itoa(n))
	}
	return phrase.Of("damages %s", each)
}
