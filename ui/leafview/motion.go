package leafview

import (
	"encoding/binary"
	"image"
	"math"

	"leafmend/mendplan/geom"
)

// paintPicture brings the layer of the picture up to date. When the view only
// moved by whole pixels, both layers are slid and the parts that came into
// sight are painted.
func (s *Surface) paintPicture() {
	l := &s.layers
	if l.baseOK {
		return
	}
	dx, dy, ok := s.slide()
	if !ok {
		s.paintBase(l.base, s.view, l.best)
		l.drawn.ok = false
		l.baseOK, l.stillOK, l.view = true, false, s.view
		return
	}
	bare := slid(l.base, dx, dy)
	slid(l.still, dx, dy)
	for _, r := range bare {
		s.paintBasePart(r, false)
	}
	l.drawn = l.drawn.slid(geom.Pt{X: float64(dx), Y: float64(dy)})
	for i, r := range l.stale {
		l.stale[i] = r.Add(image.Pt(dx, dy))
	}
	l.stale = append(l.stale, bare...)
	l.baseOK, l.stillOK, l.view = true, false, s.view
}

// slide returns by how many whole pixels the view moved since the layers were
// painted; ok is false when that is not all that happened.
func (s *Surface) slide() (dx, dy int, ok bool) {
	l := &s.layers
	d := s.view.Offset.Sub(l.view.Offset)
	x, y := math.Round(d.X), math.Round(d.Y)
	switch {
	case !l.drawn.ok, l.best, l.view.Scale != s.view.Scale, s.filter.Local > 0:
		return 0, 0, false
	case math.Abs(d.X-x) > 1e-6, math.Abs(d.Y-y) > 1e-6, math.Abs(x) > float64(s.devW), math.Abs(y) > float64(s.devH):
		return 0, 0, false
	}
	return int(x), int(y), true
}

// slid returns the state of a still layer that was moved by whole pixels.
func (d drawn) slid(by geom.Pt) drawn {
	moved := make([]placed, len(d.labels))
	for i, p := range d.labels {
		p.at, p.plate = p.at.Add(by), Rect{p.plate.Min.Add(by), p.plate.Max.Add(by)}
		moved[i] = p
	}
	d.labels = moved
	return d
}

// paintBasePart paints surround and picture on a part of their layer.
func (s *Surface) paintBasePart(r image.Rectangle, best bool) {
	part := image.NewRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
	s.paintBase(part, s.view.Panned(geom.Pt{X: float64(-r.Min.X), Y: float64(-r.Min.Y)}), best)
	for y := range r.Dy() {
		copy(s.layers.base.Pix[s.layers.base.PixOffset(r.Min.X, r.Min.Y+y):], part.Pix[y*part.Stride:(y+1)*part.Stride])
	}
}

// How much larger or smaller the last full frame may be shown while the view
// zooms.
const leastStretch, mostStretch = 0.4, 2.5

// zoomed shows, while the view of a crowded leaf zooms, the last full frame
// stretched, with the picture painted round it; once the view stands still
// everything is drawn sharply. False when the layers have to be painted.
func (s *Surface) zoomed() bool {
	l := &s.layers
	if l.zooming && l.view == s.view && l.stillOK {
		return true
	}
	goesOn := l.zooming && l.view != s.view
	begins := !l.zooming && l.drawn.ok && l.view.Scale != s.view.Scale && s.crowded()
	if l.zooming = (goesOn || begins) && s.moving && !l.best && !s.keys.hide; !l.zooming {
		return false
	}
	if begins {
		if l.sample == nil || l.sample.Rect != l.still.Rect {
			l.sample = image.NewRGBA(l.still.Rect)
		}
		copy(l.sample.Pix, l.still.Pix)
		l.sampleView, l.drawn.ok = l.view, false
	}
	k := s.view.Scale / l.sampleView.Scale
	if l.zooming = k >= leastStretch && k <= mostStretch; !l.zooming {
		return false
	}
	at := s.view.Offset.Sub(l.sampleView.Offset.Mul(k)) // of the sample's corner
	in := stretched(l.still, l.sample, k, at)
	for _, r := range around(l.still.Rect, in) {
		s.paintBasePart(r, false)
		copyRect(l.still, l.base, r)
	}
	l.view, l.stillOK = s.view, true
	return true
}

// stretched paints src on dst, k times as large, with its corner at a place;
// it returns what it covered. Pixels are the nearest.
func stretched(dst, src *image.RGBA, k float64, at geom.Pt) image.Rectangle {
	w, h := float64(src.Rect.Dx()), float64(src.Rect.Dy())
	in := image.Rect(iround(at.X), iround(at.Y), iround(at.X+k*w), iround(at.Y+k*h)).Intersect(dst.Rect)
	from := func(v, off, size float64) int { return int(max(0, min(size-1, (v+0.5-off)/k))) }
	xs := make([]int, in.Dx())
	for x := range xs {
		xs[x] = 4 * from(float64(in.Min.X+x), at.X, w)
	}
	last := -1
	for y := in.Min.Y; y < in.Max.Y; y++ {
		out := dst.Pix[dst.PixOffset(in.Min.X, y):][:4*in.Dx()]
		sy := from(float64(y), at.Y, h)
		if sy == last {
			copy(out, dst.Pix[dst.PixOffset(in.Min.X, y-1):][:4*in.Dx()])
			continue
		}
		last = sy
		row := src.Pix[sy*src.Stride:][:src.Stride]
		for x, sx := range xs {
			binary.LittleEndian.PutUint32(out[4*x:], binary.LittleEndian.Uint32(row[sx:]))
		}
	}
	return in
}
