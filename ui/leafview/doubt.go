package leafview

import (
	"math"

	"leafmend/mendplan/geom"
)

// pointingPx is how far off a point is put by eye, in pixels of the scan or of
// the screen, whichever are larger: half of one (common practice, no source).
const pointingPx = 0.5

// pointingMM returns how far off a point that was put by eye may be, mm.
func (s *Surface) pointingMM() float64 {
	per := s.scene.Frame.PxPerMM()
	if per <= 0 {
		return 0
	}
	return pointingPx * math.Max(1, 1/math.Max(s.view.Scale, 1e-9)) / per
}

// lengthDoubt returns by how much the length of a line of mm millimetres may
// be off: the scale's own doubt and the pointing at both ends, which are
// independent.
func (s *Surface) lengthDoubt(mm float64) float64 {
	return math.Hypot(mm*s.scene.Frame.DoubtPercent/100, math.Sqrt2*s.pointingMM())
}

// areaDoubt returns by how much the area of a ring in millimetres may be off.
// A scale that is off by a share is off by twice that in areas; each corner
// that is off moves the area by half the distance of its neighbours.
func (s *Surface) areaDoubt(ring []geom.Pt) float64 {
	n, sum := len(ring), 0.0
	for i := range ring {
		d := ring[(i+1)%n].Dist(ring[(i+n-1)%n]) / 2
		sum += d * d
	}
	return math.Hypot(ringArea(ring)*2*s.scene.Frame.DoubtPercent/100, math.Sqrt(sum)*s.pointingMM())
}

// angleDoubt returns by how much the angle at b may be off, degrees: what the
// pointing turns either leg. A scale that is off alike in x and y turns none.
func (s *Surface) angleDoubt(a, b, c geom.Pt) float64 {
	p, q := a.Dist(b), c.Dist(b)
	if p == 0 || q == 0 {
		return 180
	}
	off := math.Sqrt2 * s.pointingMM()
	return math.Min(180, math.Hypot(math.Atan2(off, p), math.Atan2(off, q))*180/math.Pi)
}

// withDoubt adds to the words of a length by how much it may be off, when
// that is asked for.
func (s *Surface) withDoubt(words string, mm float64) string {
	if !s.look.Doubt {
		return words
	}
	return words + " ± " + s.fineWords(s.lengthDoubt(mm))
}

// fineWords writes a small length to two digits.
func (s *Surface) fineWords(mm float64) string {
	if s.look.Inches {
		return s.look.number(twoDigits(mm/inch)) + " in"
	}
	return s.look.number(twoDigits(mm)) + " mm"
}

// twoDigits writes a number to two digits that count.
func twoDigits(v float64) string {
	if !(v > 0) {
		return "0"
	}
	return trimmed(v, max(0, 1-int(math.Floor(math.Log10(v)))))
}
