package leafview

import (
	"image/color"

	"leafmend/mendplan/geom"
)

// twoTool takes two points: for a calibration, or for the fold. They may be
// pressed one after the other or dragged in one go.
type twoTool struct {
	idle
	s    *Surface
	id   ToolID
	a    geom.Pt
	have bool // a is set
	to   geom.Pt
	far  bool // dragged away from a
}

func (t *twoTool) busy() bool  { return t.have }
func (t *twoTool) snaps() bool { return t.id == FoldTool }

func (t *twoTool) press(p pointer) {
	t.far = false
	if t.have {
		t.to = p.snap.at
		t.done()
		return
	}
	t.a, t.to, t.have = p.snap.at, p.snap.at, true
}

func (t *twoTool) drag(p pointer)  { t.to, t.far = p.snap.at, t.have }
func (t *twoTool) hover(p pointer) { t.to = p.snap.at }

func (t *twoTool) release(p pointer) {
	if t.have && t.far {
		t.to = p.snap.at
		t.done()
	}
}

// done hands out both points, unless they are one.
func (t *twoTool) done() {
	a, b := t.a, t.to
	if a.Dist(b)*t.s.view.Scale < slop*t.s.px {
		return
	}
	t.have = false
	if t.id == FoldTool {
		t.s.edit(FoldLine{A: a, B: b})
	} else {
		t.s.edit(TwoPoints{A: a, B: b})
	}
	t.s.giveWay(SelectTool)
}

func (t *twoTool) cancel() bool {
	had := t.have
	t.have = false
	return had
}

func (t *twoTool) stepBack() bool { return t.cancel() }

func (t *twoTool) hint() string {
	switch {
	case t.have:
		return t.s.say(hintTwoOn)
	case t.id == FoldTool:
		return t.s.say(hintFold)
	}
	return t.s.say(hintTwo)
}

func (t *twoTool) draw(c *canvas) {
	if !t.have {
		return
	}
	c.twoTone([]geom.Pt{t.a, t.to}, false, 1.4, toolCore, nil, 1)
	for _, p := range []geom.Pt{t.a, t.to} {
		c.cross(c.view.ToDevice(p), toolCore)
	}
}

// cross draws a fine upright cross that leaves its very middle free.
func (c *canvas) cross(at geom.Pt, core color.RGBA) {
	for _, w := range []float64{3.4, 1.4} {
		for _, d := range []geom.Pt{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}} {
			c.mask.line(at.Add(d.Mul(3*c.px)), at.Add(d.Mul(12*c.px)), w*c.px)
		}
		if w > 2 {
			c.ink(casingColour, 1, nil)
		} else {
			c.ink(core, 1, nil)
		}
	}
}
