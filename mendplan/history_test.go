package mendplan_test

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"

	"leafmend/mendplan"
	"leafmend/sampledata/large"
)

func titled(s string) mendplan.Job { return mendplan.Job{Title: s} }

func TestUndoAndRedoWalkTheSteps(t *testing.T) {
	h := mendplan.NewHistory(titled("a"))
	h.Do("name b", titled("b"))
	h.Do("name c", titled("c"))
	if got := h.UndoLabel(); got != "name c" {
		t.Errorf("undo would take back %q, want %q", got, "name c")
	}
	if got := h.Undo(); got != "name c" || h.Now().Title != "b" {
		t.Errorf("undo gave %q and job %q", got, h.Now().Title)
	}
	if got := h.Redo(); got != "name c" || h.Now().Title != "c" {
		t.Errorf("redo gave %q and job %q", got, h.Now().Title)
	}
	h.Undo()
	h.Do("name d", titled("d"))
	if h.Redo() != "" || h.Now().Title != "d" {
		t.Errorf("after a new step the undone one could be redone")
	}
}

func TestAGestureIsOneStep(t *testing.T) {
	h := mendplan.NewHistory(titled("a"))
	for i := range 20 {
		h.Amend("drag 1", "move point", titled(fmt.Sprint(i)))
	}
	h.Amend("drag 2", "move point", titled("end"))
	h.Undo()
	if got := h.Now().Title; got != "19" {
		t.Errorf("after one undo: %q, want the end of the first drag", got)
	}
	h.Undo()
	if got := h.Now().Title; got != "a" {
		t.Errorf("after two undos: %q, want the start", got)
	}
}

func TestSavingIsNotSwallowedByAGesture(t *testing.T) {
	h := mendplan.NewHistory(titled("a"))
	h.Amend("nudge", "nudge", titled("b"))
	h.MarkSaved()
	h.Amend("nudge", "nudge", titled("c"))
	if !h.Dirty() {
		t.Error("a change after saving counts as saved")
	}
	h.Undo()
	if h.Dirty() || h.Now().Title != "b" {
		t.Errorf("undo should lead back to the saved job, is at %q, dirty %v", h.Now().Title, h.Dirty())
	}
}

func TestTheZeroHistoryHoldsAnEmptyJob(t *testing.T) {
	var h mendplan.History
	if h.Now().Title != "" || h.Undo() != "" || h.Redo() != "" || h.Dirty() {
		t.Error("the zero history is not empty")
	}
	h.Do("begin", titled("a"))
	if h.Now().Title != "a" || !h.Dirty() {
		t.Error("the first step was lost")
	}
	if h.Undo(); h.Now().Title != "" || h.Dirty() {
		t.Error("the first step cannot be undone")
	}
}

// The history is compared with a plain list of all jobs and a pointer.
func TestHistoryAgreesWithAPlainList(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for round := range 200 {
		h := mendplan.NewHistory(titled("0"))
		list, now, saved := []string{"0"}, 0, 0
		for k := range 60 {
			switch rng.IntN(5) {
			case 0, 1:
				s := fmt.Sprint(round, k)
				h.Do("x", titled(s))
				if saved > now {
					saved = -1
				}
				list, now = append(list[:now+1:now+1], s), now+1
			case 2:
				h.Undo()
				now = max(now-1, 0)
			case 3:
				h.Redo()
				now = min(now+1, len(list)-1)
			case 4:
				h.MarkSaved()
				saved = now
			}
			if h.Now().Title != list[now] || h.Dirty() != (now != saved) {
				t.Fatalf("round %d step %d: job %q dirty %v, want %q %v", round, k, h.Now().Title, h.Dirty(), list[now], now != saved)
			}
		}
	}
}

// TestAStepOfAHugeJobCostsLittleMemory edits a job of 500 leaves a thousand
// times: what the history holds is far below a list of leaves for each step.
func TestAStepOfAHugeJobCostsLittleMemory(t *testing.T) {
	held := func() uint64 {
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	j := large.Job(500, 2)
	h := mendplan.NewHistory(j)
	before, steps := held(), 1000
	for k := range steps {
		leaf := j.Leaves[k%len(j.Leaves)]
		leaf.Note = fmt.Sprint("seen ", k)
		j = j.WithLeaf(leaf)
		h.Do("note", j)
	}
	perStep := float64(held()-before) / float64(steps)
	t.Logf("%.0f bytes a step", perStep)
	if perStep > 16<<10 {
		t.Errorf("a step costs %.0f bytes, want at most 16 KB", perStep)
	}
	for k := steps - 1; k >= 0; k-- {
		now := h.Now()
		if got := now.Leaves[k%len(now.Leaves)].Note; got != fmt.Sprint("seen ", k) {
			t.Fatalf("step %d: the note is %q", k, got)
		}
		h.Undo()
	}
	if diff := cmp.Diff(large.Job(500, 2), h.Now()); diff != "" {
		t.Errorf("after undoing all: %s", diff)
	}
}
