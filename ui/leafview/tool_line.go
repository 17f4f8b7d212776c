package leafview

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"leafmend/mendplan/geom"
)

// lineTool traces a line or a ring, point by point, freehand, or along what
// the picture shows, all mixed. It is the base of every tool that traces;
// what becomes of the line is up to commit.
type lineTool struct {
	idle
	s    *Surface
	kind Kind
	ring bool
	// commit takes the finished line; false keeps it in hand.
	commit func(pts []geom.Pt) bool
	// admit may refuse a point, or say that it is the last; nil admits all.
	admit func(p pointer) (ok, last bool)
	// words may replace the hint; "" leaves it.
	words  func() string
	follow bool // the picture may be followed

	pts   []geom.Pt
	marks []int     // length of pts after each gesture: what one step back undoes
	start snap      // what the first point holds on to
	end   snap      // what the last point holds on to
	ahead []geom.Pt // from the last point to the pointer, without the last point
	free  bool      // a freehand stretch is being drawn
	few   bool      // finish was refused: too few points
}

// least is how many points make a shape.
func (t *lineTool) least() int {
	if t.ring {
		return 3
	}
	return 2
}

// first is what snapping closes a ring by.
func (t *lineTool) first() (geom.Pt, bool) {
	if t.ring && len(t.pts) >= 3 {
		return t.pts[0], true
	}
	return geom.Pt{}, false
}

func (t *lineTool) snaps() bool { return true }
func (t *lineTool) busy() bool  { return len(t.pts) > 0 }

func (t *lineTool) press(p pointer) {
	t.few = false
	if p.snap.kind == snapFirst {
		t.pts = append(t.pts, t.route(p)...)
		t.finish()
		return
	}
	last := false
	if t.admit != nil {
		ok, done := t.admit(p)
		if !ok {
			return
		}
		last = done
	}
	if len(t.pts) == 0 {
		t.start = p.snap
		t.pts = []geom.Pt{p.snap.at}
	} else {
		t.pts = append(t.pts, t.route(p)...)
	}
	t.end = p.snap
	t.marks = append(t.marks, len(t.pts))
	t.ahead = nil
	if last {
		t.finish()
	}
}

// route returns the way from the last point to the pointer, without the last
// point.
func (t *lineTool) route(p pointer) []geom.Pt {
	from, to := t.pts[len(t.pts)-1], p.snap.at
	if t.following() && !p.has(shift) {
		if way := t.s.Follow(from, to); len(way) > 2 {
			way = slices.Clone(way[1:])
			way[len(way)-1] = to
			return way
		}
	}
	return []geom.Pt{to}
}

func (t *lineTool) following() bool {
	return t.follow && t.s.habits.Follow && t.s.Follow != nil
}

func (t *lineTool) drag(p pointer) {
	if len(t.marks) == 0 {
		return
	}
	t.free, t.ahead = true, nil
	step := 2 * t.s.px / t.s.view.Scale
	if last := t.pts[len(t.pts)-1]; last.Dist(p.at) >= step {
		t.pts = append(t.pts, p.at)
	}
}

// release ends a freehand stretch: it is thinned out, and a ring that came
// back to its first point closes.
func (t *lineTool) release(p pointer) {
	if !t.free || len(t.marks) == 0 {
		return
	}
	t.free = false
	// The press and the stretch are one gesture, taken back together.
	mark := &t.marks[len(t.marks)-1]
	from := *mark - 1
	if p.snap.kind != snapNone { // the last trembling before what it holds on to
		reach := t.s.habits.SnapRadius * t.s.px / t.s.view.Scale
		for n := len(t.pts); n > from+1 && t.pts[n-1].Dist(p.snap.at) < reach; n-- {
			t.pts = t.pts[:n-1]
		}
	}
	t.pts = append(t.pts, p.snap.at)
	t.pts = append(slices.Clone(t.pts[:from]), geom.Simplify(t.pts[from:], 0.8*t.s.px/t.s.view.Scale)...)
	*mark = len(t.pts)
	t.end = p.snap
	if p.snap.kind == snapFirst {
		t.finish()
	}
}

// double ends the line: the first press of the two has put the last point.
func (t *lineTool) double(p pointer) {
	if len(t.pts) < t.least() {
		return
	}
	t.finish()
}

func (t *lineTool) hover(p pointer) {
	t.ahead = nil
	if len(t.pts) > 0 {
		t.ahead = t.route(p)
	}
}

func (t *lineTool) finish() bool {
	if len(t.pts) == 0 {
		return false
	}
	pts := tidy(t.pts, t.ring)
	if len(pts) < t.least() {
		t.few = true
		return true
	}
	if t.commit(pts) {
		t.clear()
	}
	return true
}

func (t *lineTool) cancel() bool {
	had := len(t.pts) > 0
	t.clear()
	return had
}

func (t *lineTool) clear() {
	t.pts, t.marks, t.ahead = nil, nil, nil
	t.start, t.end, t.free, t.few = snap{}, snap{}, false, false
}

func (t *lineTool) stepBack() bool {
	n := len(t.marks)
	if n == 0 {
		return false
	}
	t.marks, t.ahead, t.few, t.end = t.marks[:n-1], nil, false, snap{}
	if n == 1 {
		t.clear()
		return true
	}
	t.pts = t.pts[:t.marks[n-2]]
	t.hover(t.s.hand.last)
	return true
}

func (t *lineTool) hint() string {
	s := t.s
	if t.words != nil {
		if w := t.words(); w != "" {
			return w
		}
	}
	snapped := s.hand.last.snap.kind
	switch {
	case t.few && t.ring:
		return s.say(hintTooFew3)
	case t.few:
		return s.say(hintTooFew)
	case snapped == snapFirst && len(t.pts) > 0:
		return s.say(hintClose)
	case len(t.pts) > 0 && s.keys.cursorOn:
		return s.say(hintKeysOn)
	case s.keys.cursorOn:
		return s.say(hintKeys)
	case len(t.pts) > 0 && t.following():
		return s.say(hintFollow)
	case len(t.pts) > 0 && t.ring:
		return s.say(hintRingOn)
	case len(t.pts) > 0:
		return s.say(hintPathOn)
	case t.ring:
		return s.say(hintRing, string(t.kind))
	}
	return s.say(hintPath, string(t.kind))
}

// draw draws the line in hand, what the next press would add, and its points.
func (t *lineTool) draw(c *canvas) {
	if len(t.pts) == 0 {
		return
	}
	core := c.look.colour(t.kind)
	c.twoTone(t.pts, false, c.look.LineWidth*1.3, core, patternOf(t.kind), 1)
	if len(t.ahead) > 0 {
		way := append([]geom.Pt{t.pts[len(t.pts)-1]}, t.ahead...)
		c.twoTone(way, false, c.look.LineWidth, core, dash{4, 3}, 0.8)
		if t.ring && len(t.pts) > 1 {
			c.twoTone([]geom.Pt{way[len(way)-1], t.pts[0]}, false, c.look.LineWidth*0.6, core, dash{2, 5}, 0.5)
		}
	}
	for _, p := range t.pts {
		c.mask.disc(c.view.ToDevice(p), 3.4*c.px)
	}
	c.ink(casingColour, 1, nil)
	for _, p := range t.pts {
		c.mask.disc(c.view.ToDevice(p), 2.2*c.px)
	}
	c.ink(white, 1, nil)
	if first, ok := t.first(); ok { // the point that closes is easy to find
		c.mask.ring(c.view.ToDevice(first), 8*c.px, 4*c.px)
		c.ink(casingColour, 1, nil)
		c.mask.ring(c.view.ToDevice(first), 7*c.px, 2*c.px)
		c.ink(snapColour, 1, nil)
	}
	t.drawLength(c)
}

// drawLength writes the length in hand beside the pointer, when it is known.
func (t *lineTool) drawLength(c *canvas) {
	f := t.s.scene.Frame
	if !f.Known() || len(t.ahead) == 0 {
		return
	}
	mm := 0.0
	way := append(slices.Clone(t.pts), t.ahead...)
	for i := 1; i < len(way); i++ {
		mm += f.ToMM(way[i]).Dist(f.ToMM(way[i-1]))
	}
	at := c.view.ToDevice(way[len(way)-1]).Add(geom.Pt{X: 30 * c.px, Y: 24 * c.px})
	c.label(at, t.s.withDoubt(t.s.lengthWords(mm), mm), white, casingColour)
}

// trimmed writes a number with at most so many digits after the point.
func trimmed(v float64, digits int) string {
	p := math.Pow(10, float64(digits))
	return strconv.FormatFloat(math.Round(v*p)/p, 'f', -1, 64)
}

// lengthWords writes a length with its unit, to a tenth of a millimetre or a
// hundredth of an inch, or as the owner of the surface prefers.
func (s *Surface) lengthWords(mm float64) string {
	switch {
	case s.Length != nil:
		return s.Length(mm)
	case s.look.Inches:
		return s.look.number(trimmed(mm/inch, 2)) + " in"
	}
	return s.look.number(trimmed(mm, 1)) + " mm"
}

// number writes the text of a number with the decimal sign of the look.
func (l Look) number(text string) string {
	if l.Comma {
		return strings.Replace(text, ".", ",", 1)
	}
	return text
}
