package draw

import (
	"image"
	"math"
	"math/rand/v2"
	"slices"
)

// leaf is a Spec with its chance settled: every edge in its final shape, in
// millimetres of the leaf frame.
type leaf struct {
	spec    Spec
	outline []Pt // clockwise as seen, edge losses taken off
	losses  []loss
	tears   []rip
	stains  [][]Pt
	faces   [2]*face
}

type loss struct {
	kind string // corner, edge or hole
	ring []Pt   // closed along the true edge
	torn []Pt   // the part of it that is torn
	cut  []Pt   // ring to take off the paper, running out over the edge
}

// rip is a tear, a split or a fork of one.
type rip struct {
	kind       string
	path       []Pt // runs out over the edge
	seen       []Pt // the part on the leaf
	gap        []Pt // ring
	left       []Pt // flanks
	right      []Pt
	core       float64
	forks      []rip
	start, end string
}

// face is a side with its frame and its print.
type face struct {
	Face
	name      string
	back      bool
	frame     frame
	w, h      int
	key, spot mask
}

// Leaf draws both sides of a leaf and tells the truth about them. It is a
// pure function of the spec.
func Leaf(s Spec) (front, back *image.RGBA, truths [2]Truth) {
	l := settle(s)
	for i, f := range l.faces {
		l.print(f)
		truths[i] = l.truth(f)
	}
	return l.scan(0), l.scan(1), truths
}

// Know tells the truth about a leaf without drawing it.
func Know(s Spec) [2]Truth {
	l := settle(s)
	return [2]Truth{l.truth(l.faces[0]), l.truth(l.faces[1])}
}

func settle(s Spec) *leaf {
	l := &leaf{spec: s}
	l.outline = l.edge(0, l.around())
	rng := l.chance(1)
	for _, spec := range slices.Backward(byPlace(s.Losses)) {
		l.lose(spec, rng)
	}
	slices.Reverse(l.losses)
	for i, t := range s.Tears {
		l.tears = append(l.tears, l.tear("tear", t, l.chance(uint64(100+i))))
	}
	for i, t := range s.Splits {
		l.tears = append(l.tears, l.tear("split", t, l.chance(uint64(200+i))))
	}
	for i, st := range s.Stains {
		l.stains = append(l.stains, st.ring(uint32(s.Seed)+uint32(i)))
	}
	for i, f := range []Face{s.Front, s.Back} {
		l.faces[i] = l.place(f, i == 1)
	}
	return l
}

// chance returns a source of numbers of its own for each matter, so that one
// more tear does not change the rest.
func (l *leaf) chance(matter uint64) *rand.Rand { return rand.New(rand.NewPCG(l.spec.Seed, matter)) }

func (l *leaf) place(f Face, back bool) *face {
	s := l.spec
	wide, high := s.WidthMM+2*f.MarginMM, s.HeightMM+2*f.MarginMM
	if f.ScaleBar {
		high += barMM
	}
	side := &face{Face: f, name: "front", back: back}
	if back {
		side.name = "back"
	}
	k := s.PPI / 25.4
	side.w, side.h = int(math.Round(wide*k)), int(math.Round(high*k))
	middle := Pt{f.MarginMM + s.WidthMM/2, f.MarginMM + s.HeightMM/2}.add(f.ShiftMM).times(k)
	side.frame = newFrame(s, middle, f.Turn, back)
	return side
}

// around is the length of the leaf's perimeter.
func (l *leaf) around() float64 { return 2 * (l.spec.WidthMM + l.spec.HeightMM) }

// perimeter returns the point at a distance along the true edge, clockwise
// from the head-left corner.
func (l *leaf) perimeter(d float64) Pt {
	w, h := l.spec.WidthMM, l.spec.HeightMM
	switch {
	case d <= w:
		return Pt{d, 0}
	case d <= w+h:
		return Pt{w, d - w}
	case d <= 2*w+h:
		return Pt{2*w + h - d, h}
	}
	return Pt{0, 2*(w+h) - d}
}

// edge returns the true edge from one distance to another, with its corners.
func (l *leaf) edge(from, to float64) []Pt {
	w, h := l.spec.WidthMM, l.spec.HeightMM
	out := []Pt{l.perimeter(from)}
	for _, c := range []float64{w, w + h, 2*w + h} {
		if from < c && c < to {
			out = append(out, l.perimeter(c))
		}
	}
	if to < l.around() {
		out = append(out, l.perimeter(to))
	}
	return out
}
