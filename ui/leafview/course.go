package leafview

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// This file changes the course of lines: pure functions on points, each
// returning fresh slices.

// geometry returns the shape's course in slices of its own.
func (s Shape) geometry() Geometry {
	g := Geometry{Ref: s.Ref, Points: slices.Clone(s.Points)}
	for _, f := range s.Forks {
		g.Forks = append(g.Forks, slices.Clone(f))
	}
	return g
}

// sound reports whether the course is a shape still: two points a line, three
// a ring.
func (g Geometry) sound(closed bool) bool {
	for _, f := range g.Forks {
		if len(f) < 2 {
			return false
		}
	}
	return len(g.Points) >= 3 || len(g.Points) == 2 && !closed
}

// path returns a line of the course: 0 is Points, i the fork i−1.
func (g Geometry) path(i int) []geom.Pt {
	if i == 0 {
		return g.Points
	}
	return g.Forks[i-1]
}

// withPath returns g with one line replaced; a fork of less than two points
// is left out.
func (g Geometry) withPath(i int, pts []geom.Pt) Geometry {
	if i == 0 {
		g.Points = pts
		return g
	}
	g.Forks = slices.Clone(g.Forks)
	if len(pts) < 2 {
		g.Forks = slices.Delete(g.Forks, i-1, i)
		return g
	}
	g.Forks[i-1] = pts
	return g
}

// shape returns sh with the course of g, for drawing.
func (g Geometry) shape(sh Shape) Shape {
	sh.Points, sh.Forks = g.Points, g.Forks
	return sh
}

// moved returns g moved by d.
func (g Geometry) moved(d geom.Pt) Geometry {
	out := Geometry{Ref: g.Ref, Points: shifted(g.Points, d)}
	for _, f := range g.Forks {
		out.Forks = append(out.Forks, shifted(f, d))
	}
	return out
}

func shifted(pts []geom.Pt, d geom.Pt) []geom.Pt {
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[i] = p.Add(d)
	}
	return out
}

// reversed returns the points in the other order.
func reversed(pts []geom.Pt) []geom.Pt {
	out := slices.Clone(pts)
	slices.Reverse(out)
	return out
}

// tidy returns pts without points that repeat the one before; of a ring also
// without a last point that repeats the first.
func tidy(pts []geom.Pt, closed bool) []geom.Pt {
	var out []geom.Pt
	for _, p := range pts {
		if len(out) == 0 || p.Dist(out[len(out)-1]) > 1e-9 {
			out = append(out, p)
		}
	}
	if closed && len(out) > 1 && out[0].Dist(out[len(out)-1]) <= 1e-9 {
		out = out[:len(out)-1]
	}
	return out
}

// before reports whether spot a comes before b along an open line.
func (a spot) before(b spot) bool { return a.seg < b.seg || a.seg == b.seg && a.t < b.t }

// arc returns the points of a ring strictly between two spots, going forward
// from a to b.
func arc(ring []geom.Pt, a, b spot) []geom.Pt {
	n := len(ring)
	steps := (b.seg - a.seg + n) % n
	if steps == 0 && b.before(a) {
		steps = n
	}
	var out []geom.Pt
	for k := 1; k <= steps; k++ {
		out = append(out, ring[(a.seg+k)%n])
	}
	return out
}

// splice replaces the stretch of an open line between two spots by with,
// which runs from a's place to b's.
func splice(pts []geom.Pt, a, b spot, with []geom.Pt) []geom.Pt {
	if b.before(a) {
		a, b, with = b, a, reversed(with)
	}
	out := slices.Clone(pts[:a.seg+1])
	out = append(out, with...)
	return tidy(append(out, pts[b.seg+1:]...), false)
}

// spliceRing returns the two rings that with, running from a to b across or
// around the ring, makes together with either of the ring's arcs.
func spliceRing(ring []geom.Pt, a, b spot, with []geom.Pt) (one, two []geom.Pt) {
	one = tidy(append(slices.Clone(with), arc(ring, b, a)...), true)
	two = tidy(append(reversed(with), arc(ring, a, b)...), true)
	return one, two
}

// retraced replaces the stretch of a shape's line between two spots of the
// same path. Of a ring the shorter of its arcs is the stretch meant.
func retraced(sh Shape, a, b spot, with []geom.Pt) Geometry {
	g := sh.geometry()
	line := g.path(a.path)
	if !sh.Closed || a.path > 0 {
		return g.withPath(a.path, splice(line, a, b, with))
	}
	one, two := spliceRing(line, a, b, with)
	forward := length(append(append([]geom.Pt{a.at}, arc(line, a, b)...), b.at), false)
	if forward <= length(line, true)/2 {
		return g.withPath(0, one) // keeps the arc b→a, so a→b is replaced
	}
	return g.withPath(0, two)
}

// meet is a crossing of a drawn line with a shape's line.
type meet struct {
	drawn spot // on the drawn line
	on    spot // on the shape's line
}

// meets lists the crossings of a drawn line with a line, along the drawn one.
func meets(drawn, line []geom.Pt, closed bool) []meet {
	var out []meet
	for i := range segments(drawn, false) {
		for k := range segments(line, closed) {
			a, b := drawn[i], drawn[i+1]
			t, u, ok := crossing(a, b, line[k], line[(k+1)%len(line)])
			if ok && t < 1 && u < 1 { // a corner belongs to the stretch it begins
				at := a.Lerp(b, t)
				out = append(out, meet{spot{seg: i, t: t, at: at}, spot{seg: k, t: u, at: at}})
			}
		}
	}
	slices.SortStableFunc(out, func(x, y meet) int {
		switch {
		case x.drawn.before(y.drawn):
			return -1
		case y.drawn.before(x.drawn):
			return 1
		}
		return 0
	})
	return out
}

// reshaped changes a shape by a line drawn across it. Where the line crosses
// twice, the stretch between the first and the last crossing is replaced; of
// a ring the larger of the two rings that come about is kept, so drawing
// outside takes in and drawing through cuts off. An open line crossed once
// gets a new end: the drawn line's longer part replaces the nearer end. False
// when there is no such crossing.
func reshaped(sh Shape, drawn []geom.Pt) (Geometry, bool) {
	g := sh.geometry()
	for i, line := range sh.paths() {
		closed := sh.Closed && i == 0
		ms := meets(drawn, line, closed)
		if len(ms) == 1 && !closed {
			h := g.withPath(i, newEnd(line, drawn, ms[0]))
			return h, h.sound(sh.Closed)
		}
		if len(ms) < 2 {
			continue
		}
		first, last := ms[0], ms[len(ms)-1]
		with := between(drawn, first.drawn, last.drawn)
		if !closed {
			h := g.withPath(i, splice(line, first.on, last.on, with))
			return h, h.sound(sh.Closed)
		}
		one, two := spliceRing(line, first.on, last.on, with)
		if ringArea(two) > ringArea(one) {
			one = two
		}
		h := g.withPath(i, one)
		return h, h.sound(sh.Closed)
	}
	return g, false
}

// between returns the part of an open line from spot a to a later spot b.
func between(line []geom.Pt, a, b spot) []geom.Pt {
	out := append([]geom.Pt{a.at}, line[a.seg+1:b.seg+1]...)
	return append(out, b.at)
}

// newEnd replaces the nearer end of an open line, beyond the crossing, by the
// longer part of the drawn line.
func newEnd(line, drawn []geom.Pt, m meet) []geom.Pt {
	ahead := append([]geom.Pt{m.drawn.at}, drawn[m.drawn.seg+1:]...)
	back := append([]geom.Pt{m.drawn.at}, reversed(drawn[:m.drawn.seg+1])...)
	if length(back, false) > length(ahead, false) {
		ahead = back
	}
	head := append(slices.Clone(line[:m.on.seg+1]), m.on.at)
	tail := append([]geom.Pt{m.on.at}, line[m.on.seg+1:]...)
	if length(tail, false) <= length(head, false) {
		return tidy(append(head, ahead...), false)
	}
	return tidy(append(reversed(ahead), tail...), false)
}

// divided makes two courses of an open shape at a spot. Forks go with the
// part their root lies on. Dividing a fork takes its outer part off. False
// when a part would be no line.
func divided(sh Shape, at spot) (first, second Geometry, ok bool) {
	g := sh.geometry()
	line := g.path(at.path)
	head := tidy(append(slices.Clone(line[:at.seg+1]), at.at), false)
	tail := tidy(append([]geom.Pt{at.at}, line[at.seg+1:]...), false)
	if sh.Closed || len(tail) < 2 || len(head) < 2 && at.path == 0 {
		return first, second, false
	}
	if at.path > 0 {
		return g.withPath(at.path, head), Geometry{Points: tail}, true
	}
	first, second = Geometry{Ref: sh.Ref, Points: head}, Geometry{Points: tail}
	for _, f := range g.Forks {
		if root, found := nearestOn(line, false, f[0]); found && at.before(root) {
			second.Forks = append(second.Forks, f)
		} else {
			first.Forks = append(first.Forks, f)
		}
	}
	return first, second, true
}

// joinedAtEnds returns one course of two open shapes, joined at the nearest
// of their ends; it keeps a's number and direction.
func joinedAtEnds(a, b Shape) Geometry {
	p, q := slices.Clone(a.Points), slices.Clone(b.Points)
	best, flipA, flipB := math.Inf(1), false, false
	for _, fa := range []bool{false, true} {
		for _, fb := range []bool{false, true} {
			if d := endOf(p, fa).Dist(endOf(q, !fb)); d < best {
				best, flipA, flipB = d, fa, fb
			}
		}
	}
	// The end of a meets the start of b; flips turn either round first.
	if flipA {
		p = reversed(p)
	}
	if flipB {
		q = reversed(q)
	}
	line := tidy(append(p, q...), false)
	if flipA {
		line = reversed(line)
	}
	g := Geometry{Ref: a.Ref, Points: line}
	for _, f := range append(slices.Clone(a.Forks), b.Forks...) {
		g.Forks = append(g.Forks, slices.Clone(f))
	}
	return g
}

// endOf returns the last point, or with first the first.
func endOf(pts []geom.Pt, first bool) geom.Pt {
	if first {
		return pts[0]
	}
	return pts[len(pts)-1]
}
