package ui

import (
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/ui/leafview"
)

// withBoth opens a job with a leaf whose two sides have a scan each.
func withBoth(t *testing.T) *Window {
	t.Helper()
	w := testWindow(t)
	dir := t.TempDir()
	front, back := writeScan(t, dir, "a_front.png"), writeScan(t, dir, "a_back.png")
	scale := mendplan.Calibration{Origin: mendplan.FromTwoPoints, MMPerPxX: 0.254, MMPerPxY: 0.254, DoubtPercent: 0.1, Words: "two points"}
	side := func(path string) mendplan.Side {
		return mendplan.Side{Scan: mendplan.Scan{Path: path, Width: 474, Height: 552}, Calibration: scale,
			TrueEdge: []geom.Pt{{X: 40, Y: 40}, {X: 434, Y: 40}, {X: 434, Y: 512}, {X: 40, Y: 512}}}
	}
	j := w.session.Job()
	leaf := mendplan.Leaf{ID: j.FreshLeafID(), Mark: "1", Kind: mendplan.SingleLeaf, Front: side(front), Back: side(back)}
	w.session.Do("add leaf", j.WithLeaf(leaf))
	w.session.Show(leaf.ID, mendplan.Front)
	return w
}

func traceTear(t *testing.T, w *Window, pts ...geom.Pt) int {
	t.Helper()
	if !w.applyEdit(leafview.Add{Kind: leafview.Tear, Points: pts}) {
		t.Fatal("nothing was traced")
	}
	return w.session.Selected()[0]
}

// ghost returns the course of a damage as a scene draws it.
func ghost(t *testing.T, sc leafview.Scene, ref int) leafview.Shape {
	t.Helper()
	i := slices.IndexFunc(sc.Shapes, func(s leafview.Shape) bool { return s.Ref == ref })
	if i < 0 {
		t.Fatalf("damage %d is not drawn", ref)
	}
	return sc.Shapes[i]
}

func TestBothSidesLieSideBySideAndMoveTogether(t *testing.T) {
	w := withBoth(t)
	n := traceTear(t, w, geom.Pt{X: 300, Y: 200}, geom.Pt{X: 360, Y: 220})
	w.typedRune('i')
	if !w.beside.on || w.trace.left.Leading.Visible() {
		t.Fatal("I does not show both sides in the room of the list of leaves")
	}
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 1024, Height: 700}} {
		w.win.Resize(size)
		a, b := w.surface.Size(), w.beside.surface.Size()
		if a.Width < 180 || math.Abs(float64(a.Width-b.Width)) > 2 || a.Height < 350 {
			t.Errorf("at %v the sides are %v and %v", size, a, b)
		}
		if a, b := w.app.Driver().AbsolutePositionForObject(w.surface), w.app.Driver().AbsolutePositionForObject(w.beside.surface); a.X >= b.X {
			t.Errorf("the front is not on the left: %v, %v", a, b)
		}
	}
	if g := ghost(t, w.beside.surface.Scene(), n); !g.OtherSide || g.Points[0].Dist(geom.Pt{X: 174, Y: 200}) > 0.5 {
		t.Errorf("the tear shows on the back at %v", g.Points)
	}
	// What one shows, the other shows, mirrored: on either being moved.
	w.surface.SetView(2, geom.Pt{X: 300, Y: 200})
	w.showView()
	if scale, c := w.beside.surface.View(); math.Abs(scale-2) > 0.01 || c.Dist(geom.Pt{X: 174, Y: 200}) > 1 {
		t.Errorf("the back shows %v at %g", c, scale)
	}
	w.beside.surface.PanBy(-50, 20)
	if _, c := w.surface.View(); c.Dist(geom.Pt{X: 275, Y: 190}) > 1 {
		t.Errorf("the front shows %v after the back was dragged", c)
	}
	// A press on the other side takes it in hand, where it is.
	w.beside.surface.OnTap(geom.Pt{})
	if w.session.Side() != mendplan.Back {
		t.Fatal("a press on the back does not take it in hand")
	}
	if a, b := w.app.Driver().AbsolutePositionForObject(w.surface), w.app.Driver().AbsolutePositionForObject(w.beside.surface); a.X <= b.X {
		t.Errorf("the back is not on the right: %v, %v", a, b)
	}
	if _, c := w.surface.View(); c.Dist(geom.Pt{X: 199, Y: 190}) > 1 {
		t.Errorf("the back shows %v once it is in hand", c)
	}
	m := traceTear(t, w, geom.Pt{X: 100, Y: 300}, geom.Pt{X: 150, Y: 300})
	if g := ghost(t, w.beside.surface.Scene(), m); !g.OtherSide {
		t.Error("what is traced on the back does not show on the front")
	}
	w.typedRune('i')
	if w.beside.on || !w.trace.left.Leading.Visible() {
		t.Error("I does not bring one side back")
	}
}

func TestTheButtonForBothSidesStaysUnderThePointer(t *testing.T) {
	w := withBoth(t)
	w.win.Resize(fyne.NewSize(1280, 800))
	where := func() (float32, float32) {
		return w.app.Driver().AbsolutePositionForObject(w.trace.both).X, w.side.content().Size().Width
	}
	w.refreshAll()
	w.trace.left.Refresh()
	at, width := where()
	_, share := w.trace.shares()
	for _, both := range []bool{true, false, true} {
		w.Run("side-by-side")
		x, details := where()
		if w.beside.on != both || math.Abs(float64(x-at)) > 2 || math.Abs(float64(details-width)) > 2 {
			t.Errorf("both sides %v: the button goes from %.0f to %.0f, the particulars from %.0f to %.0f wide", both, at, x, width, details)
		}
		if _, now := w.trace.shares(); math.Abs(now-share) > 0.01 {
			t.Errorf("both sides %v: kept is a share of %.3f, not %.3f", both, now, share)
		}
	}
}

func TestTheSidesAreLaidOverOneAnotherByTheirOutlines(t *testing.T) {
	w := withBoth(t)
	n := traceTear(t, w, geom.Pt{X: 300, Y: 200}, geom.Pt{X: 360, Y: 220})
	if !w.Run("lay-over") {
		t.Fatal("the command does not run")
	}
	leaf, _ := w.session.Leaf()
	over, ok := leaf.Over()
	if !ok || len(leaf.BackOver) != 6 {
		t.Fatalf("nothing is recorded: %q", w.status.outcome)
	}
	// Both pictures are the same, so the mirror runs about x = 237.
	if d := over.Apply(geom.Pt{X: 100, Y: 100}).Dist(geom.Pt{X: 374, Y: 100}); d*0.254 > 0.5 {
		t.Errorf("the sides lie %.2f mm apart, want less than 0.5", d*0.254)
	}
	w.Run("flip")
	at := ghost(t, w.surface.Scene(), n).Points[0]
	if at.Dist(geom.Pt{X: 174, Y: 200})*0.254 > 0.5 {
		t.Errorf("the tear of the front shows at %v on the back", at)
	}
	// Put right by hand on the back: a drag, then nudges that are one step.
	w.surface.SetTool(leafview.OtherTool)
	w.applyEdit(leafview.MoveOther{By: geom.Translate(geom.Pt{X: 5, Y: -3})})
	if got := ghost(t, w.surface.Scene(), n).Points[0]; got.Dist(at.Add(geom.Pt{X: 5, Y: -3})) > 0.01 {
		t.Errorf("dragged by 5, −3 it shows at %v, was at %v", got, at)
	}
	for range 3 {
		w.surface.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	want := at.Add(geom.Pt{X: 5 + 0.3/0.254, Y: -3})
	if got := ghost(t, w.surface.Scene(), n).Points[0]; got.Dist(want) > 0.02 {
		t.Errorf("nudged it shows at %v, want %v", got, want)
	}
	w.Run("flip")
	if got := ghost(t, w.surface.Scene(), n); got.OtherSide || got.Points[0] != (geom.Pt{X: 300, Y: 200}) {
		t.Error("the trace itself was moved")
	}
	w.Run("undo")
	w.Run("undo")
	if leaf, _ := w.session.Leaf(); leaf.BackOver[2] != over.C {
		t.Error("two steps back do not take back nudges and drag")
	}
	w.Run("lay-by-edges")
	if leaf, _ := w.session.Leaf(); leaf.BackOver != nil {
		t.Error("the true edges do not tell again")
	}
}

func TestDamagesAreCopiedToTheOtherSideAndMovedToAnotherLeaf(t *testing.T) {
	w := withBoth(t)
	n := traceTear(t, w, geom.Pt{X: 300, Y: 200}, geom.Pt{X: 360, Y: 220})
	w.typedRune('D')
	leaf, _ := w.session.Leaf()
	if len(leaf.Damages) != 2 || leaf.Damages[1].Side != mendplan.Back || leaf.Damages[1].Points[0].Dist(geom.Pt{X: 174, Y: 200}) > 0.5 {
		t.Fatalf("copied: %+v", leaf.Damages)
	}
	w.Run("undo")
	j := w.session.Job()
	other := leaf
	other.ID, other.Mark, other.Damages = j.FreshLeafID(), "2", nil
	other.Front.TrueEdge = []geom.Pt{{X: 50, Y: 40}, {X: 444, Y: 40}, {X: 444, Y: 512}, {X: 50, Y: 512}}
	w.session.Do("add leaf", j.WithLeaf(other))
	w.session.Select(n)
	from, _ := w.session.Leaf()
	w.moveDamages(from, other.ID)
	now, d, ok := w.session.Job().FindDamage(n)
	if !ok || now.ID != other.ID || d.Points[0].Dist(geom.Pt{X: 310, Y: 200}) > 0.01 {
		t.Fatalf("moved to %s: %v", now.ID, d.Points)
	}
	if here, _ := w.session.Leaf(); here.ID != other.ID || !slices.Equal(w.session.Selected(), []int{n}) {
		t.Error("the damage is not in hand where it went")
	}
	w.Run("undo")
	if back, _, _ := w.session.Job().FindDamage(n); back.ID != leaf.ID {
		t.Error("one step back does not bring it back")
	}
}

func TestTrueSizeFollowsALineMeasuredOnTheScreen(t *testing.T) {
	w := withBoth(t)
	w.Run("true-size")
	if !w.asking() {
		t.Fatal("the screen is not asked for")
	}
	w.settings.SetScreenPPI(100)
	w.closeDialog()
	w.Run("true-size")
	// 0.254 mm a pixel is 100 pixels an inch: one for one.
	if scale, _ := w.surface.View(); math.Abs(scale-1) > 1e-6 {
		t.Errorf("true size shows a scan pixel as %g of the screen", scale)
	}
}

func at(x, y float64) geom.Pt { return geom.Pt{X: x, Y: y} }
