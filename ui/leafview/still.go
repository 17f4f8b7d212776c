package leafview

import (
	"image"
	"slices"

	"leafmend/mendplan/geom"
)

// drawn is what the still layer shows. The next painting compares it with
// what is to be shown and paints only where they differ, so that one damage
// taken in hand among thousands costs no more than its own place.
type drawn struct {
	ok     bool // false: nothing of the layer can be kept
	scene  Scene
	index  index
	chosen map[int]bool
	hidden map[int]bool // by the tool that draws them itself
	edges  [2]bool      // outline and true edge are in a tool's hand
	labels []placed
}

// keptShare is how much of the window may be painted anew before painting all
// is the simpler way.
const keptShare = 0.6

// toShow returns what the still layer is to show now.
func (s *Surface) toShow(c *canvas) drawn {
	d := drawn{ok: true, scene: s.scene, index: s.index, chosen: map[int]bool{}, hidden: map[int]bool{},
		edges: [2]bool{s.toolID == OutlineTool, s.toolID == EdgeTool}}
	for _, ref := range s.selected {
		d.chosen[ref] = true
	}
	for _, sh := range s.scene.Shapes {
		if s.tool.hides(sh.Ref) {
			d.hidden[sh.Ref] = true
		}
	}
	if c.look.Labels {
		d.labels = s.placeLabels(c)
	}
	return d
}

// paintStill brings the still layer up to date.
func (s *Surface) paintStill() {
	l := &s.layers
	c := s.canvas(l.still)
	next := s.toShow(c)
	if l.drawn.ok {
		stale, partly := s.changes(c, l.drawn, next)
		if stale = gathered(append(stale, l.stale...), l.still.Rect); partly && areaOf(stale) < keptShare*areaOf([]image.Rectangle{l.still.Rect}) {
			for _, r := range stale {
				copyRect(l.still, l.base, r)
				s.drawScene(c.within(r), next)
			}
			l.drawn, l.stale, l.stillOK = next, nil, true
			return
		}
	}
	copy(l.still.Pix, l.base.Pix)
	s.drawScene(c, next)
	l.drawn, l.stale, l.stillOK = next, nil, true
}

// crowded reports whether there is so much on the leaf that drawing all of it
// for each frame of a moving view would be felt.
func (s *Surface) crowded() bool { return len(s.scene.Shapes)+len(s.scene.Pieces) > crowdedFrom }

// changes lists where two states of the still layer differ; ok is false when
// that cannot be told by places.
func (s *Surface) changes(c *canvas, was, now drawn) (stale []image.Rectangle, ok bool) {
	if was.edges != now.edges || !sameGround(was.scene, now.scene) || !sameOrder(was, now) {
		return nil, false
	}
	add := func(r Rect) { stale = append(stale, deviceRect(r)) }
	shape := func(d drawn, i int) { add(c.shapeRect(d.index.boxes[i])) }
	for i, sh := range now.scene.Shapes {
		k, had := was.index.at[sh.Ref]
		if had && was.chosen[sh.Ref] == now.chosen[sh.Ref] && was.hidden[sh.Ref] == now.hidden[sh.Ref] && sameShape(was.scene.Shapes[k], sh) {
			continue
		}
		shape(now, i)
		if had {
			shape(was, k)
		}
	}
	for k, sh := range was.scene.Shapes {
		if _, still := now.index.at[sh.Ref]; !still {
			shape(was, k)
		}
	}
	for i := range max(len(was.scene.Pieces), len(now.scene.Pieces)) {
		if i < len(was.scene.Pieces) && i < len(now.scene.Pieces) && samePiece(was.scene.Pieces[i], now.scene.Pieces[i]) {
			continue
		}
		for _, d := range []drawn{was, now} {
			if i < len(d.scene.Pieces) {
				add(c.pieceRect(d.scene.Pieces[i], d.index.pieces[i]))
			}
		}
	}
	return append(stale, labelChanges(was.labels, now.labels)...), true
}

// sameGround compares what of two scenes is not told by single places.
func sameGround(a, b Scene) bool {
	samePoints := func(p, q []geom.Pt) bool { return slices.Equal(p, q) }
	return a.Frame == b.Frame && samePoints(a.Outline, b.Outline) && samePoints(a.TrueEdge, b.TrueEdge) && samePoints(a.Fold, b.Fold) &&
		slices.EqualFunc(a.Proposals, b.Proposals, func(p, q Proposal) bool {
			return p.ID == q.ID && p.Kind == q.Kind && p.Label == q.Label && p.Open == q.Open && samePoints(p.Points, q.Points)
		})
}

// sameOrder reports whether the shapes of both states lie over each other in
// the same order.
func sameOrder(was, now drawn) bool {
	last := -1
	for _, sh := range now.scene.Shapes {
		if k, had := was.index.at[sh.Ref]; had {
			if k < last {
				return false
			}
			last = k
		}
	}
	return true
}

func sameShape(a, b Shape) bool {
	return a.Kind == b.Kind && a.Closed == b.Closed && a.OtherSide == b.OtherSide && a.Faint == b.Faint && a.Label == b.Label &&
		slices.Equal(a.Points, b.Points) && slices.EqualFunc(a.Forks, b.Forks, slices.Equal)
}

func samePiece(a, b PieceShape) bool {
	return a.Label == b.Label && a.Ref == b.Ref && a.GrainDeg == b.GrainDeg && a.GrainFree == b.GrainFree &&
		a.OtherSide == b.OtherSide && a.Strong == b.Strong && slices.EqualFunc(a.Rings, b.Rings, slices.Equal)
}

// shapeRect returns the device pixels that a shape with this box in the scan
// may ink, its label excepted.
func (c *canvas) shapeRect(box Rect) Rect {
	reach := (1.4*c.look.LineWidth+4.4)/2 + combReach + 2
	return Rect{c.view.ToDevice(box.Min), c.view.ToDevice(box.Max)}.Grow(reach * c.px)
}

// pieceRect is the same for a piece, with its label.
func (c *canvas) pieceRect(p PieceShape, box Rect) Rect {
	r := Rect{c.view.ToDevice(box.Min), c.view.ToDevice(box.Max)}.Grow(4 * c.px)
	if at, ok := c.pieceLabel(p, box); ok {
		if plate, ok := c.plate(at, p.Label); ok {
			r = r.Join(plate.Grow(1))
		}
	}
	return r
}
