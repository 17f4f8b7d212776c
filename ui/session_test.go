package ui

import (
	"path/filepath"
	"testing"
	"time"

	"leafmend/mendplan"
)

func TestUndoTakesBackOneGestureAndKeepsThePlaceInOrder(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	if got := len(w.session.PiecesOf(n)); got == 0 {
		t.Fatal("a tear on a calibrated leaf gets no piece")
	}
	w.Run("undo")
	if _, _, ok := w.session.Job().FindDamage(n); ok {
		t.Error("undo left the tear")
	}
	if len(w.session.Selected()) != 0 || len(w.session.PiecesOf(n)) != 0 {
		t.Error("the tear that is gone is still chosen or still has pieces")
	}
	w.Run("redo")
	if _, _, ok := w.session.Job().FindDamage(n); !ok {
		t.Error("redo did not bring the tear back")
	}
}

func TestTypingAMeasureIsOneStep(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	rule, _ := mendplan.RuleFor(mendplan.SideMargin)
	r := mendRules{w}
	for _, v := range []float64{6, 6.5, 7} {
		r.set(rule, mendplan.Num(v))
	}
	if v, _, departs := r.now(rule); v.Number != 7 || !departs {
		t.Fatalf("the margin is %v, departs %v", v, departs)
	}
	w.Run("undo")
	if v, _, departs := r.now(rule); v.Number != rule.Default.Number || departs {
		t.Errorf("after one undo the margin is %v, departs %v", v, departs)
	}
}

func TestAWiderMarginMakesALargerPiece(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	before := w.session.PiecesOf(n)[0].AreaMM2
	rule, _ := mendplan.RuleFor(mendplan.SideMargin)
	mendRules{w}.set(rule, mendplan.Num(8))
	if after := w.session.PiecesOf(n)[0].AreaMM2; after <= before {
		t.Errorf("with 8 mm margin the piece has %.1f mm², with 5 mm %.1f mm²", after, before)
	}
}

func TestSavingInAnotherFolderKeepsTheScans(t *testing.T) {
	w := testWindow(t)
	a, b := t.TempDir(), t.TempDir()
	scan := writeScan(t, a, "1-front.png")
	w.addScans([]string{scan})
	for _, dir := range []string{a, b} {
		path := filepath.Join(dir, "job.leafmend")
		w.writeJob(path, nil)
		if w.session.Unsaved() {
			t.Fatal("the job counts as unsaved after saving")
		}
		j, _, err := mendplan.LoadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if got := mendplan.ScanPath(dir, j.Leaves[0].Front.Scan); got != scan {
			t.Errorf("saved in %s the scan is %s, want %s", dir, got, scan)
		}
	}
	w.Run("undo")
	w.Run("redo")
	if got := w.session.scanPath(w.session.Job().Leaves[0].Front.Scan); got != scan {
		t.Errorf("after undo and redo the scan is %s", got)
	}
}

func TestAJobThatCannotBeReadLeavesTheOneInHand(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	w.openPath(filepath.Join(t.TempDir(), "missing.leafmend"))
	if len(w.session.Job().Leaves) != 1 {
		t.Error("the job in hand is gone")
	}
	if !w.asking() {
		t.Error("nothing was said")
	}
}

func TestUnsavedWorkIsAskedForBeforeItIsLeft(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	left := false
	w.leaving(func() { left = true })
	if left || !w.asking() {
		t.Error("unsaved work was left without asking")
	}
}

func TestACrashLeavesACopyThatIsOffered(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	dir := w.recover.dir
	if left, _ := leftCopies(dir, w.recover.file, time.Now()); len(left) > 0 {
		t.Fatal("the live copy of this program is offered to itself")
	}
	w.recover.file = "" // as a new run would not know it
	left, _ := leftCopies(dir, "", time.Now())
	if len(left) != 1 {
		t.Fatalf("%d copies were left", len(left))
	}
	w.newJob()
	w.recover.takeUp(left[0], func() { t.Error("the copy could not be taken up") })
	if _, _, ok := w.session.Job().FindDamage(n); !ok {
		t.Error("the copy lacks the tear")
	}
	if !w.session.Unsaved() {
		t.Error("recovered work counts as saved")
	}
}

func TestARecordOfTheWorkAsksForNoNewPlanAndATraceDoes(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	rev, before := w.session.rev, len(w.session.Plan().Pieces)
	j := w.session.Job()
	leaf := j.Leaves[0]
	leaf.PiecesOn, leaf.Mended = []string{"x"}, true
	w.session.Do("tick piece off", j.WithLeaf(leaf).AddSteps(mendplan.Step{Leaf: leaf.ID, Kind: mendplan.Surveyed}))
	if w.session.rev != rev || !w.session.PlanIsFresh() {
		t.Error("ticking a piece off had the job planned again")
	}
	trace(t, w)
	if w.session.rev == rev || len(w.session.Plan().Pieces) <= before {
		t.Error("a second tear was not planned")
	}
	w.Run("undo")
	if n := len(w.session.Plan().Pieces); n != before || !w.session.PlanIsFresh() {
		t.Errorf("after undo there are %d pieces, want %d, fresh %v", n, before, w.session.PlanIsFresh())
	}
}
