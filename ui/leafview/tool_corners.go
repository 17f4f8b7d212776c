package leafview

import (
	"slices"

	"leafmend/mendplan/geom"
)

// cornerTool sets the four corners of a rectangle: the leaf's true edge, or,
// for a photograph, something of known size. Where there are corners already
// they are dragged, singly or by the side; else they are pressed one after
// the other, or a rectangle is drawn by its diagonal.
type cornerTool struct {
	idle
	s       *Surface
	id      ToolID
	pts     []geom.Pt // so far, or all four
	was     []geom.Pt // before the drag
	grab    int       // corner 0…3, side 4…7, none −1
	from    geom.Pt   // where the drag began
	dragged bool
	box     bool // a diagonal is being drawn
}

func newCornerTool(s *Surface, id ToolID) tool {
	t := &cornerTool{s: s, id: id, grab: -1}
	t.renew()
	return t
}

// renew takes the true edge from the scene, unless it is just being set.
func (t *cornerTool) renew() {
	if t.id != EdgeTool || t.busy() {
		return
	}
	t.pts = nil
	if len(t.s.scene.TrueEdge) == 4 {
		t.pts = slices.Clone(t.s.scene.TrueEdge)
	}
}

// busy reports whether corners are being put; a whole rectangle is not in
// hand, for it has been handed out.
func (t *cornerTool) busy() bool  { return len(t.pts) > 0 && len(t.pts) < 4 || t.dragged }
func (t *cornerTool) snaps() bool { return false }

func (t *cornerTool) press(p pointer) {
	t.from, t.dragged, t.box, t.grab = p.at, false, false, -1
	t.was = slices.Clone(t.pts)
	if len(t.pts) == 4 {
		t.grab = t.gripAt(p)
		return
	}
	t.pts = append(t.pts, p.at)
	if len(t.pts) == 4 {
		t.done()
	}
}

// gripAt returns the corner or side under the pointer.
func (t *cornerTool) gripAt(p pointer) int {
	reach := pointReach * t.s.px / t.s.view.Scale
	for i, c := range t.pts {
		if c.Dist(p.at) < reach {
			return i
		}
	}
	for i := range t.pts {
		if q, _ := nearestOnSegment(t.pts[i], t.pts[(i+1)%len(t.pts)], p.at); q.Dist(p.at) < reach {
			return 4 + i
		}
	}
	return -1
}

func (t *cornerTool) drag(p pointer) {
	t.dragged = true
	d := p.at.Sub(t.from)
	switch {
	case t.grab >= 4: // a side moves across itself
		i, k := t.grab-4, (t.grab-3)%4
		along := t.was[k].Sub(t.was[i]).Unit()
		across := geom.Pt{X: -along.Y, Y: along.X}
		d = across.Mul(d.Dot(across))
		t.pts[i], t.pts[k] = t.was[i].Add(d), t.was[k].Add(d)
	case t.grab >= 0:
		t.pts[t.grab] = t.was[t.grab].Add(d)
	default:
		t.box = true
		r := RectOf(t.from, p.at)
		t.pts = []geom.Pt{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}}
	}
}

func (t *cornerTool) release(pointer) {
	if t.dragged {
		t.dragged = false
		t.done()
	}
}

// done hands the corners out. The true edge stays in hand to be adjusted.
func (t *cornerTool) done() {
	corners := slices.Clone(t.pts)
	if t.id == EdgeTool {
		t.s.edit(TrueEdge{Corners: corners})
		return
	}
	t.pts = nil
	t.s.edit(FourCorners{Corners: corners})
	t.s.giveWay(SelectTool)
}

func (t *cornerTool) cancel() bool {
	had := t.busy()
	if t.dragged {
		t.pts, t.dragged, t.grab = t.was, false, -1
	} else if had {
		t.pts = nil
	}
	return had
}

func (t *cornerTool) stepBack() bool {
	if !t.busy() || t.dragged {
		return false
	}
	t.pts = t.pts[:len(t.pts)-1]
	return true
}

func (t *cornerTool) hint() string {
	if len(t.pts) == 4 {
		return t.s.say(hintEdgeDrag)
	}
	next := cornerNames[len(t.pts)]
	if t.id == EdgeTool {
		return t.s.say(hintEdge, next)
	}
	return t.s.say(hintCorners, next)
}

func (t *cornerTool) draw(c *canvas) {
	c.twoTone(t.pts, len(t.pts) == 4, 1.6, trueEdgeCore, nil, 1)
	hot := -1
	if len(t.pts) == 4 && !t.box {
		if hot = t.grab; !t.dragged {
			hot = t.gripAt(t.s.hand.last)
		}
	}
	for i, p := range t.pts {
		c.handle(c.view.ToDevice(p), i == hot, false)
	}
	if hot >= 4 {
		c.twoTone([]geom.Pt{t.pts[hot-4], t.pts[(hot-3)%4]}, false, 2.4, grabbed, nil, 1)
	}
}
