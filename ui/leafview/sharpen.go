package leafview

import (
	"image"
	"time"
)

// sharpBands is in how many level bands a crowded leaf is painted at the
// finest once the view stands still: one a moment, so that a hand that moves
// on is not kept waiting for the whole.
const sharpBands = 12

// betweenBands is the pause in which other events are heard.
const betweenBands = 2 * time.Millisecond

// sharpen has band k painted, and the next after it, unless the view moves on.
func (s *Surface) sharpen(k int) {
	l := &s.layers
	if l.still == nil {
		return
	}
	w, h := l.still.Rect.Dx(), l.still.Rect.Dy()
	l.band, l.bandNo = image.Rect(0, h*k/sharpBands, w, h*(k+1)/sharpBands), k
	if k == 0 {
		s.layDown()
	}
	s.redraw()
}

// layDown makes a stretched frame the one to be sharpened: the picture is
// painted under it, so that whatever changes meanwhile lies on solid ground.
func (s *Surface) layDown() {
	l := &s.layers
	if !l.zooming {
		return
	}
	s.paintBase(l.base, s.view, false)
	l.zooming, l.baseOK, l.view, l.stale = false, true, s.view, nil
	l.drawn = s.toShow(s.canvas(l.still))
}

// paintBand paints the band whose turn it is and arranges for the next: from
// the frame, so that a surface that is not seen waits.
func (s *Surface) paintBand() {
	l := &s.layers
	if l.band.Empty() || !l.drawn.ok || !l.baseOK || l.view != s.view {
		l.band = image.Rectangle{}
		return
	}
	s.paintBasePart(l.band, true)
	l.stale = append(l.stale, l.band)
	l.band, l.stillOK = image.Rectangle{}, false
	if k := l.bandNo + 1; k < sharpBands {
		s.stopSettle = s.after(betweenBands, func() { s.sharpen(k) })
	} else {
		l.best = true
	}
}
