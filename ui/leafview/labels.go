package leafview

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
)

// placed is one damage's label and where it goes.
type placed struct {
	ref    int
	words  string
	at     geom.Pt // its middle, device pixels
	plate  Rect    // kept inside the window
	chosen bool
}

// placeLabels finds the places of the damages' labels, the chosen first,
// leaving out those that would cover another.
func (s *Surface) placeLabels(c *canvas) []placed {
	var out []placed
	taken := map[[2]int]bool{}
	seen := s.seen(c)
	for _, chosen := range []bool{true, false} {
		for _, i := range seen {
			sh := s.scene.Shapes[i]
			if sh.Label == "" || sh.Faint || s.isSelected(sh.Ref) != chosen {
				continue
			}
			at, ok := c.labelPlace(sh)
			if !ok {
				continue
			}
			if b, fits := c.plate(at, sh.Label); fits && (c.claim(taken, b) || chosen) {
				out = append(out, placed{sh.Ref, sh.Label, at, b, chosen})
			}
		}
	}
	return out
}

// drawLabels writes the labels, the chosen last.
func (c *canvas) drawLabels(labels []placed) {
	for i := len(labels) - 1; i >= 0; i-- {
		l := labels[i]
		if c.mask.outside(l.plate, 1) {
			continue
		}
		ink, plate := white, casingColour
		if l.chosen {
			ink, plate = casingColour, selection
		}
		c.label(l.at, l.words, ink, plate)
	}
}

// labelChanges lists the places where labels came, went or look another way.
func labelChanges(was, now []placed) []image.Rectangle {
	before := make(map[int]placed, len(was))
	for _, l := range was {
		before[l.ref] = l
	}
	var out []image.Rectangle
	for _, l := range now {
		old, had := before[l.ref]
		delete(before, l.ref)
		if had && old.plate == l.plate && old.words == l.words && old.chosen == l.chosen {
			continue
		}
		out = append(out, deviceRect(l.plate.Grow(1)))
		if had {
			out = append(out, deviceRect(old.plate.Grow(1)))
		}
	}
	for _, l := range was {
		if _, gone := before[l.ref]; gone {
			out = append(out, deviceRect(l.plate.Grow(1)))
		}
	}
	return out
}

// labelPlace returns where the label of a shape goes: beside the end of a
// path, above a ring; ok is false when that is out of sight.
func (c *canvas) labelPlace(sh Shape) (geom.Pt, bool) {
	if sh.Closed {
		b := RectOf(sh.Points...)
		top := c.view.ToDevice(geom.Pt{X: b.Centre().X, Y: b.Min.Y}).Add(geom.Pt{Y: -12 * c.px})
		return top, c.window().Holds(top)
	}
	n := len(sh.Points)
	end := c.view.ToDevice(sh.Points[n-1])
	dir := geom.Pt{X: 0, Y: -1}
	if n > 1 {
		if d := end.Sub(c.view.ToDevice(sh.Points[n-2])).Unit(); d != (geom.Pt{}) {
			dir = d
		}
	}
	return end.Add(dir.Mul(16 * c.px)), c.window().Holds(end)
}

// claim takes the cells that a plate covers; false when one is taken. The
// cells lie fast on the scan, so that labels do not come and go as the view
// slides.
func (c *canvas) claim(taken map[[2]int]bool, b Rect) bool {
	cell := func(v, off float64) int { return int(math.Floor((v - off) / (12 * c.px))) }
	x0, x1 := cell(b.Min.X, c.view.Offset.X), cell(b.Max.X, c.view.Offset.X)
	y0, y1 := cell(b.Min.Y, c.view.Offset.Y), cell(b.Max.Y, c.view.Offset.Y)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			if taken[[2]int{x, y}] {
				return false
			}
		}
	}
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			taken[[2]int{x, y}] = true
		}
	}
	return true
}
