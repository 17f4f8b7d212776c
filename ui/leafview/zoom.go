package leafview

import (
	"math"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
)

// fitMargin is the space round a fitted picture, in units: enough to trace
// past its edge.
const fitMargin = 24

// size returns the window's size in device pixels.
func (s *Surface) size() (w, h float64) { return float64(s.devW), float64(s.devH) }

// middle returns the middle of the window in device pixels.
func (s *Surface) middle() geom.Pt { return geom.Pt{X: float64(s.devW) / 2, Y: float64(s.devH) / 2} }

// whole returns the box of the picture, or of the scene when there is none.
func (s *Surface) whole() Rect {
	if s.picture != nil {
		w, h := s.picture.Size()
		return Rect{Max: geom.Pt{X: float64(w), Y: float64(h)}}
	}
	return s.index.bounds
}

// Fit shows the whole picture, and keeps it whole while the window is
// resized, until the view is moved.
func (s *Surface) Fit() {
	s.fitted = true
	w, h := s.size()
	s.setView(FitView(s.whole(), w, h, fitMargin*s.px))
}

// ZoomBy magnifies by factor about the middle of the window, or about the
// drawing cursor while keys lead it, which so stays where it is on the leaf.
func (s *Surface) ZoomBy(factor float64) {
	if !s.keys.cursorOn {
		s.zoomAt(s.middle(), factor)
		return
	}
	s.zoomAt(s.hand.last.dev, factor)
	s.moveTo(s.pointerOn(s.hand.last.dev, 0))
}

// ZoomTo shows r whole and centred.
func (s *Surface) ZoomTo(r Rect) {
	s.fitted = false
	w, h := s.size()
	s.setView(FitView(r, w, h, 3*fitMargin*s.px))
}

// ZoomToSelection shows the chosen damages, with a little of what is around
// them; false when none is chosen.
func (s *Surface) ZoomToSelection() bool {
	var r Rect
	for i, ref := range s.selected {
		b := s.index.boxes[s.index.at[ref]]
		if i == 0 {
			r = b
		} else {
			r = r.Join(b)
		}
	}
	if len(s.selected) > 0 {
		s.ZoomTo(r.Grow(0.1 * math.Max(r.W(), r.H())))
	}
	return len(s.selected) > 0
}

// OneToOne shows one scan pixel as one pixel of the screen.
func (s *Surface) OneToOne() { s.zoomAt(s.middle(), 1/s.view.Scale) }

// TrueSize shows the leaf as large as it is on a screen of dpi device pixels
// per inch; false when the side is not calibrated.
func (s *Surface) TrueSize(dpi float64) bool {
	per := s.scene.Frame.PxPerMM()
	if !s.scene.Frame.Known() || !(dpi > 0) {
		return false
	}
	s.zoomAt(s.middle(), dpi/25.4/per/s.view.Scale)
	return true
}

// CentreOn puts a scan position in the middle of the window.
func (s *Surface) CentreOn(p geom.Pt) {
	s.fitted = false
	w, h := s.size()
	s.setView(s.view.CentredOn(p, w, h))
}

// PanBy moves the picture by d units of the toolkit.
func (s *Surface) PanBy(dx, dy float64) { s.pan(geom.Pt{X: dx * s.px, Y: dy * s.px}) }

// View returns the scale in device pixels per scan pixel and the scan
// position in the middle of the window.
func (s *Surface) View() (scale float64, centre geom.Pt) {
	return s.view.Scale, s.view.ToScan(s.middle())
}

// SetView sets what [Surface.View] returns: for linked surfaces, and to come
// back to where one was. It does not call OnView.
func (s *Surface) SetView(scale float64, centre geom.Pt) {
	s.fitted = false
	w, h := s.size()
	s.setView(View{}.withScale(scale).CentredOn(centre, w, h))
}

// zoomAt zooms about a device position as a person's doing.
func (s *Surface) zoomAt(at geom.Pt, factor float64) {
	s.fitted = false
	s.setView(s.view.ZoomedAt(at, factor))
	s.tellView()
}

// pan moves the view by device pixels as a person's doing: by whole ones, so
// that what is painted can be slid, and the rest with the next.
func (s *Surface) pan(d geom.Pt) {
	s.fitted = false
	d = d.Add(s.panRest)
	whole := geom.Pt{X: math.Round(d.X), Y: math.Round(d.Y)}
	s.panRest = d.Sub(whole)
	s.setView(s.view.Panned(whole))
	s.tellView()
}

func (s *Surface) tellView() {
	if s.OnView != nil {
		s.OnView()
	}
}

// setView shows v, kept so that the picture is never lost.
func (s *Surface) setView(v View) {
	if r := s.whole(); r.W() > 0 && s.devW > 0 {
		w, h := s.size()
		v.Offset = v.Offset.Add(r.Min.Mul(v.Scale))
		v = v.Kept(r.W(), r.H(), w, h, 48*s.px)
		v.Offset = v.Offset.Sub(r.Min.Mul(v.Scale))
	}
	if v == s.view {
		return
	}
	s.view = v
	s.layers.dropView()
	s.settleLater()
	s.redraw()
}

// estimateDevice guesses the size in device pixels before the next frame
// tells it.
func (s *Surface) estimateDevice() {
	px := s.px
	if app := fyne.CurrentApp(); app != nil {
		if c := app.Driver().CanvasForObject(s); c != nil {
			px = float64(c.Scale())
		}
	}
	size := s.Size()
	s.setDevice(int(math.Ceil(float64(size.Width)*px)), int(math.Ceil(float64(size.Height)*px)))
}

// setDevice takes the window's size in device pixels: a fitted view is fitted
// again, another keeps its middle, and its size on the screen when the
// window went to a screen of another scale.
func (s *Surface) setDevice(w, h int) {
	if w <= 0 || h <= 0 || w == s.devW && h == s.devH {
		return
	}
	scale, centre := s.View()
	first := s.devW == 0
	s.devW, s.devH = w, h
	if width := float64(s.Size().Width); width > 0 {
		px := float64(w) / width
		// Frames are rounded up to whole pixels; less than that is no other screen.
		if math.Abs(px/s.px-1) > 2/float64(w) {
			scale *= px / s.px
		}
		s.px = px
	}
	s.layers.dropAll()
	if s.fitted || first {
		s.Fit()
		return
	}
	s.SetView(scale, centre)
}

// toDevice maps a position of the toolkit to device pixels.
func (s *Surface) toDevice(p fyne.Position) geom.Pt {
	return geom.Pt{X: float64(p.X) * s.px, Y: float64(p.Y) * s.px}
}
