package leafview

import (
	"leafmend/mendplan/geom"
)

// index finds shapes by number and by place. Boxes are enough: with 2,000
// damages of 20 points a search over boxes and the few shapes that meet costs
// some 10 µs.
type index struct {
	at     map[int]int // number → place in Scene.Shapes
	boxes  []Rect      // of the shapes, forks included
	pieces []Rect      // of the pieces
	bounds Rect        // of all shapes and the leaf's edges
}

func indexScene(sc *Scene) index {
	ix := index{at: make(map[int]int, len(sc.Shapes)), boxes: make([]Rect, len(sc.Shapes)),
		pieces: make([]Rect, len(sc.Pieces))}
	for i, sh := range sc.Shapes {
		ix.at[sh.Ref] = i
		ix.boxes[i] = sh.bounds()
	}
	for i, p := range sc.Pieces {
		ix.pieces[i] = RectOf(joined(p.Rings)...)
	}
	ix.bounds = boundsOf(sc, ix.boxes)
	return ix
}

// boundsOf returns the box around everything that lies on the leaf.
func boundsOf(sc *Scene, boxes []Rect) Rect {
	all := append(append([]geom.Pt(nil), sc.Outline...), sc.TrueEdge...)
	for i, b := range boxes {
		if len(sc.Shapes[i].Points) > 0 {
			all = append(all, b.Min, b.Max)
		}
	}
	return RectOf(all...)
}

// joined returns all points of the lines in one slice.
func joined(lines [][]geom.Pt) []geom.Pt {
	var out []geom.Pt
	for _, l := range lines {
		out = append(out, l...)
	}
	return out
}
