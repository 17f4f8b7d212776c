package leafview

import "leafmend/mendplan/geom"

// sampleTool takes a place whose colour is wanted: a press is one point, a
// drag a box.
type sampleTool struct {
	idle
	s    *Surface
	a, b geom.Pt
	have bool
}

func (t *sampleTool) busy() bool      { return t.have }
func (t *sampleTool) press(p pointer) { t.a, t.b, t.have = p.at, p.at, true }
func (t *sampleTool) drag(p pointer)  { t.b = p.at }

func (t *sampleTool) release(pointer) {
	if t.have {
		t.have = false
		t.s.edit(Sample{Box: RectOf(t.a, t.b)})
		t.s.giveWay(SelectTool)
	}
}

func (t *sampleTool) cancel() bool {
	had := t.have
	t.have = false
	return had
}

func (t *sampleTool) hint() string { return t.s.say(hintSample) }

func (t *sampleTool) draw(c *canvas) {
	if t.have {
		c.rubber(RectOf(t.a, t.b))
	}
}

// rubber draws a box in scan pixels that is being dragged.
func (c *canvas) rubber(r Rect) {
	b := Rect{c.view.ToDevice(r.Min), c.view.ToDevice(r.Max)}
	c.box(b, 0)
	c.ink(white, 0.12, nil)
	c.frameBox(b, 3*c.px)
	c.ink(casingColour, 0.7, nil)
	c.dashed([]geom.Pt{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}, true, 1.3*c.px, dash{6, 4})
	c.ink(white, 1, nil)
}
