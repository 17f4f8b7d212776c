package collate

import (
	"math"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// Diagram is a gathering as one sees it from the tail when it is closed: each
// leaf a line from the fold to the fore-edge, the first on top, the two leaves
// of a bifolium joined at the fold by a U that holds those of the sheets
// inside it. It is geometry only, so that window and print draw the same.
//
// The unit of length is the distance from one leaf to the next. x runs from
// the fold to the fore-edge, y down from the first leaf, and all lines lie
// within Width × Height.
type Diagram struct {
	Width, Height float64
	Leaves        []DiagramLeaf // in reading order
	Joins         []DiagramJoin // in the order of the sheets, outermost first
	Cover         bool          // to be drawn heavier
}

// DiagramLeaf is one leaf in a [Diagram].
type DiagramLeaf struct {
	Place  Place
	Line   geom.Path // from the gutter to the fore-edge
	Single bool      // joined to no other leaf
	Inset  bool      // laid in: it lies away from the fold and from the fore-edges of the others
	// Stub is a short line across the gutter end of a single leaf; nil for
	// others.
	Stub geom.Path
	// Hatch are strokes across the line of a leaf that is missing; nil for
	// others.
	Hatch []geom.Path
	// Recto and Verso are where page numbers are written, by the middle of
	// their right end: above the line, where the recto faces, and below it.
	Recto, Verso geom.Pt
	// Words is where a name is written, by the middle of its left end.
	Words geom.Pt
}

// DiagramJoin is the fold of one bifolium.
type DiagramJoin struct {
	Sheet   int // index in the gathering
	Line    geom.Path
	Inset   bool
	Missing bool // one of its leaves or both are gone
}

// Sizes of a diagram, in its own unit.
const (
	diagramRim    = 0.5
	diagramNest   = 0.5  // from one fold to the next inside it
	diagramInset  = 1.3  // the same before an inset, which lies loose
	diagramLength = 14.0 // of the innermost leaf
	diagramRound  = 0.4  // radius at a fold
	diagramStroke = 0.22 // half the height of a hatch stroke and of a stub
)

// DiagramOf returns the diagram of one gathering of the job.
func DiagramOf(job mendplan.Job, gathering int) Diagram {
	g := job.Gatherings[gathering]
	folds, right := foldPlaces(g)
	d := Diagram{Width: right + diagramRim, Cover: g.Cover}
	places := Places(job, gathering)
	d.Height = float64(max(len(places)-1, 0)) + 2*diagramRim
	first := map[int]int{} // leaf in d.Leaves by sheet
	joins := make([]DiagramJoin, 0, len(g.Sheets))
	for i, p := range places {
		s := g.Sheets[p.Sheet]
		y := diagramRim + float64(i)
		l := DiagramLeaf{Place: p, Single: s.Half != mendplan.WholeSheet, Inset: s.Inset}
		end := right
		if s.Inset {
			end -= 1
		}
		from := folds[p.Sheet] + diagramRound
		if l.Single {
			l.Stub = geom.Path{{X: from, Y: y - diagramStroke}, {X: from, Y: y + diagramStroke}}
		}
		l.Line = geom.Path{{X: from, Y: y}, {X: end, Y: y}}
		l.Recto, l.Verso = geom.Pt{X: end - 0.3, Y: y - 0.25}, geom.Pt{X: end - 0.3, Y: y + 0.25}
		l.Words = geom.Pt{X: right + diagramRim, Y: y}
		if p.Missing {
			l.Hatch = hatch(from, end, y)
		}
		if j, ok := first[p.Sheet]; ok && !l.Single {
			joins = append(joins, DiagramJoin{Sheet: p.Sheet, Inset: s.Inset, Missing: s.Missing != mendplan.NothingMissing,
				Line: joint(folds[p.Sheet], d.Leaves[j].Line[0].Y, y)})
		}
		first[p.Sheet] = i
		d.Leaves = append(d.Leaves, l)
	}
	for i := len(joins) - 1; i >= 0; i-- { // the innermost is joined first
		d.Joins = append(d.Joins, joins[i])
	}
	return d
}

// foldPlaces returns the x of each sheet's fold and that of the fore-edges.
func foldPlaces(g mendplan.Gathering) (folds []float64, right float64) {
	x := diagramRim
	for i, s := range g.Sheets {
		switch {
		case i == 0:
		case s.Inset:
			x += diagramInset
		default:
			x += diagramNest
		}
		folds = append(folds, x)
	}
	return folds, x + diagramLength
}

// joint is a U lying on its side from one leaf to the other of a bifolium.
func joint(x, top, bottom float64) geom.Path {
	r := min(diagramRound, (bottom-top)/2)
	var out geom.Path
	const steps = 6
	for i := range steps + 1 {
		sin, cos := math.Sincos(float64(i) / steps * math.Pi / 2)
		out = append(out, geom.Pt{X: x + diagramRound - r*sin, Y: top + r - r*cos})
	}
	for i := range steps + 1 {
		sin, cos := math.Sincos(float64(i) / steps * math.Pi / 2)
		out = append(out, geom.Pt{X: x + diagramRound - r*cos, Y: bottom - r + r*sin})
	}
	return out
}

// hatch are slanting strokes across a line.
func hatch(from, to, y float64) []geom.Path {
	var out []geom.Path
	for x := from + 0.4; x < to-2.2; x += 0.6 {
		out = append(out, geom.Path{{X: x - diagramStroke, Y: y + diagramStroke}, {X: x + diagramStroke, Y: y - diagramStroke}})
	}
	return out
}
