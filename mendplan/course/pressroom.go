package course

import (
	"sort"

	"leafmend/mendplan"
	"leafmend/mendplan/phrase"
)

// What bounds how many leaves lie at once, in words.
const (
	boundOpenings    = "press openings"
	boundBoards      = "boards"
	boundWeights     = "weights"
	boundBlotters    = "blotters"
	boundInterleaves = "non-stick sheets"
)

// rimMM is what a place must be larger than a leaf on each side, so that its
// edges are pressed too (common practice, no source).
const rimMM = 5.0

// kind of place that leaves lie in under weight.
type station int

const (
	anywhere station = iota // nothing is entered that bounds it
	inPress
	underBoard
)

// berth is how a leaf lies: at which station, and how many of its like share
// one place there, side by side as along × across.
type berth struct {
	at            station
	along, across int
}

func (b berth) perPlace() int { return max(b.along*b.across, 1) }

// pressRoom places leaves: into press openings those that fit, under boards
// those that do not or where there is no press.
type pressRoom struct {
	has         mendplan.PressRoom
	blotters    float64 // for each leaf
	interleaves float64
	leaf        map[string]berth // by ID
	tooLarge    []mendplan.Problem
}

func newPressRoom(job mendplan.Job) pressRoom {
	rules := mendplan.InForce{Job: job.Rules}
	r := pressRoom{has: job.Press, leaf: map[string]berth{},
		blotters: rules.Number(mendplan.BlottersPerLeaf), interleaves: rules.Number(mendplan.InterleavesEach)}
	for _, l := range job.Leaves {
		w, h := leafSize(l)
		b, ok := r.berthFor(w, h)
		r.leaf[l.ID] = b
		if !ok {
			r.tooLarge = append(r.tooLarge, mendplan.Problem{Kind: mendplan.DoesNotFit, Weight: mendplan.Doubt, Leaf: l.ID,
				Words: phrase.Of("Leaf %s, %.0f × %.0f mm, is larger than any press opening or board that is entered.", l.Mark, w, h),
				Hint:  phrase.Of("Dry it under a larger board with weights, or folded once it is dry.")})
		}
	}
	return r
}

// leafSize returns the size of a leaf lying open, mm; 0 when it is not known.
func leafSize(l mendplan.Leaf) (w, h float64) {
	for _, side := range []mendplan.SideName{mendplan.Front, mendplan.Back} {
		if _, sheet, problem := mendplan.FrameOf(l, side); problem == nil {
			return sheet.Size()
		}
	}
	return 0, 0
}

// berthFor finds where a leaf of a size lies. ok is false when it is larger
// than everything there is; it is then planned as if it had a place to itself,
// so that the days come out right.
func (r pressRoom) berthFor(w, h float64) (b berth, ok bool) {
	p := r.has
	fits := true
	if p.Openings > 0 {
		if b, ok := side(inPress, w, h, p.LengthMM, p.WidthMM); ok {
			if p.PerOpening > 0 {
				b.along, b.across = p.PerOpening, 1
			}
			return b, true
		}
		fits = false
	}
	if p.Boards > 0 {
		if b, ok := side(underBoard, w, h, p.BoardLengthMM, p.BoardWidthMM); ok {
			return b, true
		}
		return berth{at: underBoard, along: 1, across: 1}, false
	}
	if !fits {
		return berth{at: inPress, along: 1, across: 1}, false
	}
	return berth{at: anywhere}, true
}

// side lays leaves side by side in a place of a size: as many as fit, all the
// same way round. A place or a leaf of unknown size holds one.
func side(at station, w, h, length, width float64) (berth, bool) {
	if length <= 0 || width <= 0 || w <= 0 || h <= 0 {
		return berth{at: at, along: 1, across: 1}, true
	}
	best := berth{at: at}
	for _, turned := range []bool{false, true} {
		a, c := w+2*rimMM, h+2*rimMM
		if turned {
			a, c = c, a
		}
		// A leaf may lie without a rim where it has the place to itself.
		along, across := int(length/a), int(width/c)
		if along*across == 0 && a-2*rimMM <= length && c-2*rimMM <= width {
			along, across = 1, 1
		}
		if along*across > best.along*best.across {
			best.along, best.across = along, across
		}
	}
	return best, best.along*best.across > 0
}

// places counts the places that a lot takes at each station. Leaves share one
// only with those that lie in the same grid.
func (r pressRoom) places(leaves []string) (press, boards int) {
	count := map[berth]int{}
	for _, id := range leaves {
		b := r.leaf[id]
		if count[b]%b.perPlace() == 0 {
			switch b.at {
			case inPress:
				press++
			case underBoard:
				boards++
			}
		}
		count[b]++
	}
	return press, boards
}

// lacks tells what there is not enough of for a lot beside others that still
// lie; "" when all fits.
func (r pressRoom) lacks(lying [][]string, lot []string) string {
	n := len(lot)
	press, boards := r.places(lot)
	for _, o := range lying {
		n += len(o)
		p, b := r.places(o)
		press, boards = press+p, boards+b
	}
	short := func(have int, need float64) bool { return have > 0 && need > float64(have)+1e-9 }
	p := r.has
	switch {
	case short(p.Openings, float64(press)):
		return boundOpenings
	case short(p.Boards, float64(boards)):
		return boundBoards
	case boards > 0 && short(p.Weights, float64(boards)):
		return boundWeights
	case short(p.Blotters, r.blotters*float64(n)):
		return boundBlotters
	case short(p.Interleaves, r.interleaves*float64(n)):
		return boundInterleaves
	}
	return ""
}

// mostLying bounds the search of [pressRoom.most].
const mostLying = 4096

// most returns how many leaves can lie at once, taken in the order given and
// begun again where they are fewer, and what bounds it; 0 when nothing does.
func (r pressRoom) most(order []string) (n int, why string) {
	if len(order) == 0 {
		return 0, ""
	}
	lot := make([]string, mostLying)
	for i := range lot {
		lot[i] = order[i%len(order)]
	}
	n = sort.Search(len(lot), func(i int) bool { return r.lacks(nil, lot[:i+1]) != "" })
	if n == len(lot) {
		return 0, ""
	}
	return max(n, 1), r.lacks(nil, lot[:n+1])
}
