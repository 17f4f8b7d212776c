package leafview

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// measureTool reads lengths, areas and angles off the picture. The last
// reading stays until the next begins; nothing of it goes into the job.
type measureTool struct {
	lineTool
	last  Measurement
	shown []geom.Pt
	area  bool
}

func newMeasureTool(s *Surface) tool {
	t := &measureTool{lineTool: lineTool{s: s, kind: "measure"}}
	t.words = func() string { return s.say(hintMeasure) }
	t.commit = func(pts []geom.Pt) bool {
		t.shown, t.last = pts, s.measure(pts, t.area)
		t.tell()
		return true
	}
	return t
}

// first lets a path of three points close to an area.
func (t *measureTool) first() (geom.Pt, bool) {
	if len(t.pts) >= 3 {
		return t.pts[0], true
	}
	return geom.Pt{}, false
}

func (t *measureTool) press(p pointer) {
	t.area = p.snap.kind == snapFirst
	t.lineTool.press(p)
	if len(t.pts) > 0 {
		t.last = t.s.measure(t.pts, false)
		t.tell()
	}
}

// hover reads on with the point a press would put.
func (t *measureTool) hover(p pointer) {
	t.lineTool.hover(p)
	if len(t.pts) > 0 {
		t.last = t.s.measure(append(slices.Clone(t.pts), t.ahead...), p.snap.kind == snapFirst)
		t.tell()
	}
}

func (t *measureTool) cancel() bool {
	had := t.lineTool.cancel() || len(t.shown) > 0
	t.shown = nil
	return had
}

func (t *measureTool) tell() {
	if t.s.OnMeasure != nil {
		t.s.OnMeasure(t.last)
	}
}

func (t *measureTool) draw(c *canvas) {
	pts := t.shown
	if len(t.pts) > 0 {
		t.lineTool.draw(c)
		pts = t.pts
	} else if len(pts) > 0 {
		if t.area {
			c.area(pts)
			c.ink(toolCore, 0.2, nil)
		}
		c.twoTone(pts, t.area, 1.6, toolCore, nil, 1)
		for _, p := range pts {
			c.cross(c.view.ToDevice(p), toolCore)
		}
	}
	if len(pts) > 0 {
		at := c.view.ToDevice(pts[len(pts)-1]).Add(geom.Pt{X: 30 * c.px, Y: -24 * c.px})
		c.label(at, t.last.Words, white, casingColour)
	}
}

// measure reads a line, or with area a ring. The area of a ring in an affine
// frame is its pixel area over the pixels of a square millimetre.
func (s *Surface) measure(pts []geom.Pt, area bool) Measurement {
	m := Measurement{Points: slices.Clone(pts), LengthPx: length(pts, area), Known: s.scene.Frame.Known()}
	if len(pts) >= 3 {
		m.AngleDeg = angleAt(s.inMM(pts[0]), s.inMM(pts[1]), s.inMM(pts[2]))
		m.AngleDoubtDeg = s.angleDoubt(s.inMM(pts[0]), s.inMM(pts[1]), s.inMM(pts[2]))
	}
	if m.Known {
		mm := make([]geom.Pt, len(pts))
		for i, p := range pts {
			mm[i] = s.scene.Frame.ToMM(p)
		}
		m.LengthMM = length(mm, area)
		m.LengthDoubtMM = s.lengthDoubt(m.LengthMM)
		if area {
			m.AreaMM2, m.AreaDoubtMM2 = ringArea(mm), s.areaDoubt(mm)
		}
	}
	m.Words = s.measureWords(m)
	return m
}

// inMM maps to millimetres where they are known; angles need no unit but the
// right proportions.
func (s *Surface) inMM(p geom.Pt) geom.Pt {
	if s.scene.Frame.Known() {
		return s.scene.Frame.ToMM(p)
	}
	return p
}

// angleAt returns the angle at b between a and c in degrees, 0…180.
func angleAt(a, b, c geom.Pt) float64 {
	p, q := a.Sub(b), c.Sub(b)
	return math.Abs(math.Atan2(p.Cross(q), p.Dot(q))) * 180 / math.Pi
}

// measureWords writes a reading: never a millimetre without a calibration.
func (s *Surface) measureWords(m Measurement) string {
	if !m.Known {
		words := s.look.number(trimmed(m.LengthPx, 0)) + " px"
		if m.AngleDeg > 0 {
			words += " · " + s.look.number(trimmed(m.AngleDeg, 1)) + "°"
		}
		return words + " · " + s.say(notCalibrated)
	}
	words := s.lengthWords(m.LengthMM) + " ± " + s.fineWords(m.LengthDoubtMM)
	if m.AreaMM2 > 0 {
		if s.look.Inches {
			words += " · " + s.look.number(trimmed(m.AreaMM2/inch/inch, 3)) + " ± " + s.look.number(twoDigits(m.AreaDoubtMM2/inch/inch)) + " in²"
		} else {
			words += " · " + s.look.number(trimmed(m.AreaMM2, 1)) + " ± " + s.look.number(twoDigits(m.AreaDoubtMM2)) + " mm²"
		}
	} else if m.AngleDeg > 0 {
		words += " · " + s.look.number(trimmed(m.AngleDeg, 1)) + " ± " + s.look.number(twoDigits(m.AngleDoubtDeg)) + "°"
	}
	return words
}
