package leafview

import (
	"image"
	"image/color"

	"leafmend/mendplan/geom"
)

// layers keeps painted pixels between frames.
type layers struct {
	base            *image.RGBA // surround and picture
	still           *image.RGBA // and the scene
	out             *image.RGBA // and what is in hand: what the toolkit is given
	baseOK, stillOK bool
}

func (l *layers) dropAll()   { l.baseOK, l.stillOK = false, false }
func (l *layers) dropView()  { l.baseOK, l.stillOK = false, false }
func (l *layers) dropStill() { l.stillOK = false }

type canvas struct{ dst *image.RGBA }

// frame paints one frame of w×h device pixels.
func (s *Surface) frame(w, h int) image.Image {
	s.setDevice(w, h)
	if s.layers.out == nil || s.layers.out.Rect.Dx() != w || s.layers.out.Rect.Dy() != h {
		s.layers.out = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	fillRect(s.layers.out, s.layers.out.Rect, color.RGBA{128, 128, 128, 255})
	if s.picture != nil {
		s.picture.Paint(s.layers.out, s.view, false)
	}
	return s.layers.out
}

func (s *Surface) settleLater()            {}
func (s *Surface) overviewRect() Rect      { return Rect{Min: geom.Pt{X: 1}, Max: geom.Pt{}} }
func (s *Surface) overviewTo(geom.Pt)      {}
func (s *Surface) stepPoint(int)           {}
func (s *Surface) deleteChosen() bool      { return false }
func (s *Surface) insertAfterChosen() bool { return false }
func (s *Surface) nudge(geom.Pt, bool)     {}
func newTool(*Surface, ToolID) tool        { return idle{} }

// JoinSelected joins the two chosen tears at their nearest ends; false when
// it cannot be done.
func (s *Surface) JoinSelected() bool { return false }
