package mendplan

import (
	"cmp"
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// Trim is one stretch of a leaf's edge past which tissue hangs, to be cut off
// when it is dry.
type Trim struct {
	Leaf    string
	Edge    EdgeName
	Side    SideName // the tissue is pasted on this side
	Up      SideName // the side that should face up while cutting
	From    float64  // mm along the edge as the side Up lies before you: from the left, or from the head
	To      float64
	HangMM  float64  // how far the tissue hangs over, at most
	Pieces  []string // labels, in the order of the cut list
	Bridged bool     // small nicks lie in the stretch; the cut follows the true edge over them
}

// Key names the stretch in [Leaf.EdgesTrimmed] by its edge and its first
// piece, such as "head 3f-7a". It holds no measure, so that a tick outlives a
// change of the margins.
func (t Trim) Key() string {
	if len(t.Pieces) == 0 {
		return string(t.Edge)
	}
	return string(t.Edge) + " " + t.Pieces[0]
}

// TrimTissueUp and TrimLeafUp are the choices of the rule TrimUp.
const (
	TrimTissueUp = "the tissue"
	TrimLeafUp   = "the leaf"
)

// least of a stretch or an overhang that is worth a cut, mm.
const leastTrim = 0.3

// gapTrim is the sound edge between two stretches below which they are cut as
// one, mm (common practice, no source).
const gapTrim = 3.0

// TrimList lists what must be trimmed, leaf by leaf in the order of the job,
// edge by edge: head, right, tail, left as the front lies before you. Tissue
// is trimmed last, when dry, and the cut follows the true edge (BonaDea,
// Repairing Paper Tears with Japanese Tissue). Which side faces up is the
// rule TrimUp.
func TrimList(job Job, pieces []Piece) []Trim {
	var out []Trim
	for _, leaf := range job.Leaves {
		sheet, ok := anySheet(leaf)
		if !ok {
			continue
		}
		own := slices.DeleteFunc(slices.Clone(pieces), func(p Piece) bool { return p.Leaf != leaf.ID })
		for i := range 4 {
			for _, side := range []SideName{Front, Back} {
				out = append(out, trimsAt(job, leaf, sheet, i, side, own)...)
			}
		}
	}
	return out
}

// anySheet returns the leaf's true edge from whichever side is calibrated.
func anySheet(leaf Leaf) (Sheet, bool) {
	for _, side := range []SideName{Front, Back} {
		if _, sheet, problem := FrameOf(leaf, side); problem == nil {
			return sheet, true
		}
	}
	return Sheet{}, false
}

// stretch is where one piece hangs over an edge.
type stretch struct {
	from, to, hang float64
	label          string
	damage         int
}

func trimsAt(job Job, leaf Leaf, sheet Sheet, edge int, side SideName, pieces []Piece) []Trim {
	a, b := sheet.Corners[edge], sheet.Corners[(edge+1)%4]
	var found []stretch
	for _, p := range pieces {
		if p.Side != side {
			continue
		}
		if s, ok := hangOver(p, a, b); ok {
			found = append(found, s)
		}
	}
	slices.SortStableFunc(found, func(x, y stretch) int { return cmp.Compare(x.from, y.from) })
	up := upSide(job, side)
	var out []Trim
	for _, s := range found {
		if n := len(out); n > 0 && s.from-out[n-1].To < gapTrim {
			t := &out[n-1]
			t.To, t.HangMM, t.Pieces = max(t.To, s.to), max(t.HangMM, s.hang), append(t.Pieces, s.label)
			t.Bridged = t.Bridged || nicked(leaf, s.damage)
			continue
		}
		out = append(out, Trim{Leaf: leaf.ID, Edge: sheet.EdgeName(edge), Side: side, Up: up, From: s.from, To: s.to,
			HangMM: s.hang, Pieces: []string{s.label}, Bridged: nicked(leaf, s.damage)})
	}
	for i := range out {
		out[i].From, out[i].To = asLying(edge, up, out[i].From, out[i].To, a.Dist(b))
	}
	return out
}

// hangOver measures how a piece reaches past the edge from a to b, beyond
// which lies the outside: its stretch along the edge and its reach.
func hangOver(p Piece, a, b geom.Pt) (stretch, bool) {
	along := b.Sub(a).Unit()
	out := geom.Pt{X: along.Y, Y: -along.X} // clockwise corners: outside is on the left
	length := a.Dist(b)
	far := p.Outline.Bounds().Expand(1)
	reach := far.Width() + far.Height() + length
	beyond := geom.Area{{a.Add(out.Mul(reach)), b.Add(out.Mul(reach)), b, a}}
	over := geom.Intersect(p.Outline, beyond)
	s := stretch{from: math.Inf(1), to: math.Inf(-1), label: p.Label, damage: p.Damage}
	for _, ring := range over {
		for _, q := range ring {
			d := q.Sub(a)
			s.from, s.to = min(s.from, d.Dot(along)), max(s.to, d.Dot(along))
			s.hang = max(s.hang, d.Dot(out))
		}
	}
	s.from, s.to = max(s.from, 0), min(s.to, length)
	return s, s.hang > leastTrim && s.to-s.from > leastTrim
}

func upSide(job Job, side SideName) SideName {
	if (InForce{Job: job.Rules}).Word(TrimUp) == TrimLeafUp {
		return side.Other()
	}
	return side
}

// asLying turns a stretch measured round the leaf, clockwise from the front,
// into one from the left or from the head as the side up lies before you.
func asLying(edge int, up SideName, from, to, length float64) (float64, float64) {
	flip := edge == 2 || edge == 3 // tail runs right to left, left edge tail to head
	if up == Back && (edge == 0 || edge == 2) {
		flip = !flip
	}
	if flip {
		return length - to, length - from
	}
	return from, to
}

// nicked reports whether a damage is a run of nicks that a strip bridges.
func nicked(leaf Leaf, number int) bool {
	d, ok := leaf.Damage(number)
	return ok && d.Kind == Nicks
}
