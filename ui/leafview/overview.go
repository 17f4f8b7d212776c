package leafview

import (
	"image"
	"image/draw"
	"math"

	"leafmend/mendplan/geom"
)

// Size of the overview at most, units, and as a share of the surface; its
// distance from the corner; and the least surface that it is shown on, units.
const (
	overviewW, overviewH = 168.0, 150.0
	overviewShare        = 0.34
	overviewGap          = 12.0
	overviewLeast        = 220.0
)

// overviewRect returns where the overview lies, in device pixels; an inside-
// out rectangle, which holds nothing, when it is not shown.
func (s *Surface) overviewRect() Rect {
	none := Rect{Min: geom.Pt{X: 1}}
	w, h := s.size()
	if s.picture == nil || !s.look.Overview || math.Min(w, h) < overviewLeast*s.px {
		return none
	}
	vis, whole := s.view.Visible(w, h), s.whole()
	if vis.Holds(whole.Min) && vis.Holds(whole.Max) {
		return none
	}
	k := math.Min(math.Min(overviewW*s.px, w*overviewShare)/whole.W(), math.Min(overviewH*s.px, h*overviewShare)/whole.H())
	size := geom.Pt{X: math.Max(math.Round(whole.W()*k), 8), Y: math.Max(math.Round(whole.H()*k), 8)}
	max := geom.Pt{X: w - math.Round(overviewGap*s.px), Y: h - math.Round(overviewGap*s.px)}
	return Rect{max.Sub(size), max}
}

// overviewTo centres the view on what a device position in the overview
// shows.
func (s *Surface) overviewTo(dev geom.Pt) {
	r, whole := s.overviewRect(), s.whole()
	if r.W() <= 0 {
		return
	}
	at := dev.Sub(r.Min)
	s.CentreOn(geom.Pt{X: whole.Min.X + at.X/r.W()*whole.W(), Y: whole.Min.Y + at.Y/r.H()*whole.H()})
	s.tellView()
}

// drawOverview draws the small whole picture with its damages as dots and
// what the window shows as a frame.
func (s *Surface) drawOverview(c *canvas) {
	r := s.overviewRect()
	if r.W() <= 0 {
		return
	}
	v := FitView(s.whole(), r.W(), r.H(), 0)
	l := &s.layers
	if b := image.Rect(0, 0, int(r.W()), int(r.H())); !l.thumbOK || l.thumb == nil || l.thumb.Rect != b {
		l.thumb, l.thumbOK = image.NewRGBA(b), true
		s.paintBase(l.thumb, v, true)
		small := newCanvas(l.thumb, &l.small, v, s.px, s.look, &l.text)
		for i, sh := range s.scene.Shapes {
			if !sh.OtherSide && len(sh.Points) > 0 {
				small.mask.disc(v.ToDevice(s.index.boxes[i].Centre()), 1.6*s.px)
			}
		}
		small.ink(grabbed, 1, nil)
	}
	draw.Draw(c.dst, l.thumb.Rect.Add(image.Pt(int(r.Min.X), int(r.Min.Y))), l.thumb, image.Point{}, draw.Src)
	c.frameBox(r.Grow(c.px), 2*c.px)
	c.ink(casingColour, 0.9, nil)
	w, h := s.size()
	vis := s.view.Visible(w, h)
	a, z := v.ToDevice(vis.Min).Add(r.Min), v.ToDevice(vis.Max).Add(r.Min)
	sight := Rect{geom.Pt{X: math.Max(a.X, r.Min.X), Y: math.Max(a.Y, r.Min.Y)},
		geom.Pt{X: math.Min(z.X, r.Max.X), Y: math.Min(z.Y, r.Max.Y)}}
	c.frameBox(sight, 3.2*c.px)
	c.ink(casingColour, 0.9, nil)
	c.frameBox(sight, 1.6*c.px)
	c.ink(white, 1, nil)
}
