package ui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// pressOn presses and lets go on the surface at scan positions, one after the
// other.
func pressOn(w *Window, pts ...geom.Pt) {
	for _, p := range pts {
		scale, centre := w.surface.View()
		q, size := p.Sub(centre).Mul(scale/float64(w.win.Canvas().Scale())), w.surface.Size()
		e := fyne.PointEvent{Position: fyne.NewPos(float32(q.X)+size.Width/2, float32(q.Y)+size.Height/2)}
		w.surface.MouseMoved(&desktop.MouseEvent{PointEvent: e})
		w.surface.MouseDown(&desktop.MouseEvent{PointEvent: e, Button: desktop.MouseButtonPrimary})
		w.surface.MouseUp(&desktop.MouseEvent{PointEvent: e, Button: desktop.MouseButtonPrimary})
	}
}

// near fails unless points agree to a scan pixel.
func near(t *testing.T, what string, got []geom.Pt, want ...geom.Pt) {
	t.Helper()
	same := len(got) == len(want)
	for i := 0; same && i < len(got); i++ {
		same = got[i].Dist(want[i]) < 1
	}
	if !same {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// TestToolsChangeTheJobByPointerAndKeys walks through every tool that changes
// the job, by events alone, on a plain and on a doubly fine screen, and looks
// at the job after each.
func TestToolsChangeTheJobByPointerAndKeys(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		t.Run(fmt.Sprintf("screen scale %g", scale), func(t *testing.T) {
			w := withBoth(t)
			w.win.Canvas().(interface{ SetScale(float32) }).SetScale(scale)
			w.win.Resize(fyne.NewSize(1250, 790)) // tells the surface
			h := w.surface.Habits()
			h.Follow = false
			w.surface.SetHabits(h)
			enter := func() { w.surface.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
			last := func() mendplan.Damage {
				all := mustLeaf(t, w).Damages
				return all[len(all)-1]
			}

			w.typedRune('t')
			pressOn(w, at(150, 150), at(200, 160), at(250, 150))
			enter()
			if d := last(); d.Kind != mendplan.Tear || d.Side != mendplan.Front {
				t.Fatalf("tear: %+v", d)
			}
			tear := last().Number
			near(t, "tear", last().Points, at(150, 150), at(200, 160), at(250, 150))

			pressOn(w, at(200, 160), at(210, 220)) // from its middle: a fork
			enter()
			if d := last(); d.Number != tear || len(d.Forks) != 1 {
				t.Fatalf("fork: %+v", d)
			}
			pressOn(w, at(250, 150), at(300, 170)) // from its end: longer
			enter()
			near(t, "extended", last().Points, at(150, 150), at(200, 160), at(250, 150), at(300, 170))

			w.typedRune('v')
			w.session.Select(tear)
			onSurface(w, at(250, 150), at(250, 110))
			near(t, "point moved", last().Points, at(150, 150), at(200, 160), at(250, 110), at(300, 170))
			onSurface(w, at(275, 140), at(285, 155)) // the plus between two points
			if n := len(last().Points); n != 5 {
				t.Errorf("%d points after one was added", n)
			}
			w.surface.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete}) // the point just added is chosen
			near(t, "point deleted", last().Points, at(150, 150), at(200, 160), at(250, 110), at(300, 170))
			w.Run("undo")
			w.Run("undo")
			w.Run("undo")
			near(t, "three steps back", last().Points, at(150, 150), at(200, 160), at(250, 150), at(300, 170))

			w.typedRune('r') // cut a stretch out and trace it again
			pressOn(w, at(200, 160), at(225, 130), at(250, 150))
			near(t, "retraced", last().Points, at(150, 150), at(200, 160), at(225, 130), at(250, 150), at(300, 170))
			w.typedRune('a') // draw across
			pressOn(w, at(262, 180), at(280, 130), at(295, 185))
			enter()
			if n := len(last().Points); n < 6 {
				t.Errorf("reshaped: %v", last().Points)
			}
			w.typedRune('x')
			pressOn(w, at(175, 155))
			if n := len(mustLeaf(t, w).Damages); n != 2 {
				t.Errorf("%d damages after dividing", n)
			}
			w.Run("select-all")
			w.Run("join")
			if n := len(mustLeaf(t, w).Damages); n != 1 {
				t.Errorf("%d damages after joining", n)
			}

			w.typedRune('l')
			pressOn(w, at(300, 300), at(340, 300), at(340, 340), at(300, 340), at(300, 300))
			if d := last(); d.Kind != mendplan.Loss || len(d.Points) != 4 {
				t.Errorf("loss: %+v", d)
			}
			w.typedRune('v')
			onSurface(w, at(312, 300), at(322, 320)) // by its line
			near(t, "loss moved", last().Points, at(310, 320), at(350, 320), at(350, 360), at(310, 360))
			w.typedRune('e')
			onSurface(w, at(434, 512), at(440, 520))
			near(t, "true edge", mustLeaf(t, w).Front.TrueEdge, at(40, 40), at(434, 40), at(440, 520), at(40, 512))
			w.typedRune('v')
			w.session.Select()
			onSurface(w, at(290, 290), at(380, 380)) // a box
			if got := w.session.Selected(); len(got) != 1 || got[0] != last().Number {
				t.Errorf("the box chose %v", got)
			}
			w.surface.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDelete})
			if n := len(mustLeaf(t, w).Damages); n != 1 {
				t.Errorf("%d damages after one was deleted", n)
			}
		})
	}
}
