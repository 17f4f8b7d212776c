package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
)

// EdgeName names an edge of the leaf as its front lies before you.
type EdgeName string

// The edges. On a bifolium both upright edges are fore-edges; on a single
// leaf the front is a recto, so its left edge is the gutter.
const (
	HeadEdge  EdgeName = "head"
	TailEdge  EdgeName = "tail"
	LeftEdge  EdgeName = "left fore-edge"
	RightEdge EdgeName = "right fore-edge"
	ForeEdge  EdgeName = "fore-edge"
	Gutter    EdgeName = "gutter"
)

// Sheet is the shape of a leaf as it was before it was damaged, in the leaf
// frame: four corners, and for a bifolium the fold.
type Sheet struct {
	Corners [4]geom.Pt // head-left, head-right, tail-right, tail-left as seen from the front
	Folded  bool       // it has a fold
	FoldX   float64    // mm from the left edge of the front; the fold is upright
	single  bool
}

// newSheet makes the sheet from mapped corners; on the back the mirror has
// exchanged left and right.
func newSheet(leaf Leaf, c [4]geom.Pt, mirrored bool) Sheet {
	if mirrored {
		c[0], c[1], c[2], c[3] = c[1], c[0], c[3], c[2]
	}
	s := Sheet{Corners: c, single: leaf.Kind == SingleLeaf}
	if s.single {
		return s
	}
	s.Folded = true
	s.FoldX = leaf.FoldMM
	if s.FoldX <= 0 {
		s.FoldX = (c[0].X + c[1].X + c[2].X + c[3].X) / 4
	}
	return s
}

// Ring returns the true edge as a ring.
func (s Sheet) Ring() geom.Ring { return geom.Ring(s.Corners[:]) }

// Size returns the mean width and height of the sheet in mm.
func (s Sheet) Size() (width, height float64) {
	c := s.Corners
	return (c[0].Dist(c[1]) + c[3].Dist(c[2])) / 2, (c[0].Dist(c[3]) + c[1].Dist(c[2])) / 2
}

// Fold returns the fold as a path from head to tail; nil if there is none.
func (s Sheet) Fold() geom.Path {
	if !s.Folded {
		return nil
	}
	c := s.Corners
	at := func(a, b geom.Pt) geom.Pt {
		t := 0.5
		if a.X != b.X {
			t = (s.FoldX - a.X) / (b.X - a.X)
		}
		return a.Lerp(b, t)
	}
	return geom.Path{at(c[0], c[1]), at(c[3], c[2])}
}

// Grown returns the sheet with every edge moved outwards by d, corners sharp.
func (s Sheet) Grown(d float64) geom.Ring {
	out := make(geom.Ring, 4)
	for i := range out {
		before, after := (i+3)%4, i
		out[i] = cross(s.point(before, d), s.along(before), s.point(after, d), s.along(after), s.Corners[i])
	}
	return out
}

// edge i runs from corner i to corner i+1: head, right, tail, left.
func (s Sheet) edge(i int) (a, b geom.Pt) { return s.Corners[i], s.Corners[(i+1)%4] }

func (s Sheet) along(i int) geom.Pt {
	a, b := s.edge(i)
	return b.Sub(a).Unit()
}

// outward returns the unit normal of edge i that points off the leaf.
func (s Sheet) outward(i int) geom.Pt {
	d := s.along(i)
	return geom.Pt{X: d.Y, Y: -d.X}
}

// point returns a point at distance d outside edge i.
func (s Sheet) point(i int, d float64) geom.Pt {
	a, _ := s.edge(i)
	return a.Add(s.outward(i).Mul(d))
}

// depth returns how far inside edge i the point lies; negative is outside.
func (s Sheet) depth(i int, p geom.Pt) float64 {
	a, _ := s.edge(i)
	return -p.Sub(a).Dot(s.outward(i))
}

// nearestEdge returns the edge that p is least deep inside, and how deep.
func (s Sheet) nearestEdge(p geom.Pt) (edge int, depth float64) {
	depth = math.Inf(1)
	for i := range 4 {
		if d := s.depth(i, p); d < depth {
			edge, depth = i, d
		}
	}
	return edge, depth
}

// Contains reports whether p lies on the leaf as it was.
func (s Sheet) Contains(p geom.Pt) bool {
	_, d := s.nearestEdge(p)
	return d >= 0
}

// EdgeName returns the name of edge i: 0 head, 1 right, 2 tail, 3 left.
func (s Sheet) EdgeName(i int) EdgeName {
	switch {
	case i == 0:
		return HeadEdge
	case i == 2:
		return TailEdge
	case i == 1 && s.single:
		return ForeEdge
	case i == 1:
		return RightEdge
	case s.single:
		return Gutter
	}
	return LeftEdge
}

// cross returns where the line through p along u meets the one through q
// along v; where they are parallel, or the leaf is degenerate, it is fallback.
func cross(p, u, q, v, fallback geom.Pt) geom.Pt {
	den := u.Cross(v)
	if math.Abs(den) < 1e-9 {
		return fallback
	}
	return p.Add(u.Mul(q.Sub(p).Cross(v) / den))
}
