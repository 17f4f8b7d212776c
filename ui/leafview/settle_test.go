package leafview

import (
	"image"
	"testing"
	"time"

	"leafmend/mendplan/geom"
)

// careful remembers whether it was last asked for the finest.
type careful struct {
	Blank
	best *bool
}

func (c careful) Paint(dst *image.RGBA, v View, best bool) {
	*c.best = best
	c.Blank.Paint(dst, v, best)
}

func TestAFinePaintingFollowsOnceTheViewStandsStill(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	var settle func()
	stopped := 0
	r.s.after = func(_ time.Duration, f func()) func() {
		settle = f
		return func() { stopped++ }
	}
	best := false
	r.s.SetPicture(careful{Blank{W: 1000, H: 800}, &best})
	r.s.SetScene(crowded(400, 1000, 800))
	r.s.ZoomBy(1.5)
	r.s.pan(geom.Pt{X: 5})
	r.frame()
	if best || stopped == 0 {
		t.Errorf("painted at the finest %v while moving, %d timers stopped", best, stopped)
	}
	moving := append([]uint8(nil), r.frame().Pix...)
	settle()
	still := r.frame().Pix
	if !best {
		t.Error("not painted at the finest when it stands still")
	}
	same := true
	for i := range still {
		same = same && still[i] == moving[i]
	}
	if same {
		t.Error("a crowded scene has no more on it when the view stands still")
	}
	best = false
	r.frame()
	if best {
		t.Error("painted again although nothing changed")
	}
}
