package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// onSurface presses, drags and lets go on the surface, from and to scan
// positions, as the toolkit tells it.
func onSurface(w *Window, from, to geom.Pt) {
	at := func(p geom.Pt) fyne.PointEvent {
		scale, centre := w.surface.View()
		k := float64(w.win.Canvas().Scale())
		size := w.surface.Size()
		q := p.Sub(centre).Mul(scale / k)
		pos := fyne.NewPos(float32(q.X)+size.Width/2, float32(q.Y)+size.Height/2)
		return fyne.PointEvent{Position: pos, AbsolutePosition: pos}
	}
	w.surface.MouseMoved(&desktop.MouseEvent{PointEvent: at(from)})
	w.surface.MouseDown(&desktop.MouseEvent{PointEvent: at(from), Button: desktop.MouseButtonPrimary})
	for _, f := range []float64{0.3, 0.7, 1} {
		w.surface.Dragged(&fyne.DragEvent{PointEvent: at(from.Lerp(to, f))})
	}
	w.surface.MouseUp(&desktop.MouseEvent{PointEvent: at(to), Button: desktop.MouseButtonPrimary})
	w.surface.DragEnd()
}

// gripOf returns the first grip of a kind.
func gripOf(t *testing.T, w *Window, kind leafview.GripKind) leafview.Grip {
	t.Helper()
	for _, g := range w.surface.Scene().Grips {
		if g.Kind == kind {
			return g
		}
	}
	t.Fatalf("no grip of kind %d among %v", kind, w.surface.Scene().Grips)
	return leafview.Grip{}
}

func TestTheMarginIsDraggedOnTheLeaf(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		w := withBoth(t)
		w.win.Canvas().(interface{ SetScale(float32) }).SetScale(scale)
		w.win.Resize(fyne.NewSize(1200, 780)) // tells the surface
		n := traceTear(t, w, geom.Pt{X: 150, Y: 200}, geom.Pt{X: 250, Y: 200})
		before := w.session.PiecesOf(n)
		g := gripOf(t, w, leafview.MarginGrip)
		if d := g.At.Dist(geom.Pt{X: 200, Y: 200}) * 0.254; math.Abs(d-5) > 0.1 {
			t.Fatalf("the margin's grip lies %.2f mm off the tear, want the rules' 5", d)
		}
		onSurface(w, g.At, geom.Pt{X: 200, Y: 200}.Add(g.Along.Unit().Mul(8/0.254)))
		_, d, _ := w.session.Job().FindDamage(n)
		if len(d.Mends) != 1 || math.Abs(d.Mends[0].Rules[mendplan.SideMargin].Number-8) > 0.15 {
			t.Fatalf("scale %g: dragged to 8 mm the mend is %+v", scale, d.Mends)
		}
		if after := w.session.PiecesOf(n); after[0].BlankWidthMM < before[0].BlankWidthMM+5 {
			t.Errorf("the piece is %.1f wide, was %.1f", after[0].BlankWidthMM, before[0].BlankWidthMM)
		}
		w.Run("margin-reset")
		if _, d, _ := w.session.Job().FindDamage(n); len(d.Mends) != 0 {
			t.Errorf("the rules' margin does not hold again: %+v", d.Mends)
		}
		w.Run("undo")
		w.Run("undo")
		if _, d, _ := w.session.Job().FindDamage(n); len(d.Mends) != 0 {
			t.Error("one step back does not take back the drag")
		}
	}
}

func TestADraggedMarginShowsItsNumberAndItsPieces(t *testing.T) {
	w := withBoth(t)
	traceTear(t, w, geom.Pt{X: 150, Y: 200}, geom.Pt{X: 250, Y: 200})
	shown := w.showGrip(marginGrip, geom.Pt{X: 200, Y: 200 - 7/0.254})
	if !strings.HasSuffix(shown.Words, "7 mm") || len(shown.Rings) == 0 {
		t.Errorf("shown: %q, %d outlines", shown.Words, len(shown.Rings))
	}
	far := w.showGrip(marginGrip, geom.Pt{X: 200, Y: 20})
	if !strings.HasSuffix(far.Words, "10 mm") {
		t.Errorf("beyond the rule's range: %q", far.Words)
	}
}

func TestMarginsByKeyAreOneStep(t *testing.T) {
	w := withBoth(t)
	n := traceTear(t, w, geom.Pt{X: 150, Y: 200}, geom.Pt{X: 250, Y: 200})
	for range 3 {
		w.typedRune(']')
	}
	w.typedRune('[')
	if _, d, _ := w.session.Job().FindDamage(n); d.Mends[0].Rules[mendplan.SideMargin].Number != 6 {
		t.Errorf("three up and one down from 5 mm: %+v", d.Mends[0].Rules)
	}
	w.Run("undo")
	if _, d, _ := w.session.Job().FindDamage(n); len(d.Mends) != 0 {
		t.Error("the keys were more than one step")
	}
}

func TestBreaksOfStripsAreSetDraggedAndDropped(t *testing.T) {
	w := withBoth(t)
	n := traceTear(t, w, geom.Pt{X: 80, Y: 200}, geom.Pt{X: 240, Y: 200}, geom.Pt{X: 400, Y: 200})
	w.session.EditDamages("change style", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Style = mendplan.Strips })
	})
	strips := len(w.session.PiecesOf(n))
	if strips < 2 { // 81 mm, and no strip longer than 75
		t.Fatalf("%d strips", strips)
	}
	gripOf(t, w, leafview.JointGrip) // where the program breaks them
	w.Run("break-here")
	g := gripOf(t, w, leafview.BreakGrip)
	if g.At.Dist(geom.Pt{X: 240, Y: 200}) > 0.5 {
		t.Fatalf("the break lies at %v, want the middle", g.At)
	}
	scale, _ := w.surface.View()
	knob := geom.Pt{Y: 20 / scale}
	onSurface(w, g.At.Add(knob), geom.Pt{X: 160, Y: 215}.Add(knob))
	if g = gripOf(t, w, leafview.BreakGrip); g.At.Dist(geom.Pt{X: 160, Y: 200}) > 1 {
		t.Fatalf("dragged to %v, want {160 200}", g.At)
	}
	_, d, _ := w.session.Job().FindDamage(n)
	if b := d.Mends[0].Breaks; len(b) != 1 || math.Abs(b[0]-0.25) > 0.005 {
		t.Errorf("breaks %v, want a quarter", b)
	}
	if !w.applyEdit(leafview.DropGrip{ID: g.ID}) {
		t.Fatal("the break is not dropped")
	}
	if _, d, _ := w.session.Job().FindDamage(n); len(d.Mends[0].Breaks) != 0 {
		t.Error("the break stays")
	}
	w.Run("undo")
	w.Run("breaks-reset")
	if _, d, _ := w.session.Job().FindDamage(n); len(d.Mends[0].Breaks) != 0 {
		t.Error("the strips are not by the rules again")
	}
}
