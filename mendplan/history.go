package mendplan

import (
	"bytes"
	"unsafe"
)

// History keeps a job and all it has been, so that every step can be undone
// and redone. A step is a whole job and needs no inverse; steps share every
// leaf that is the same in both, so a step costs a pointer for each leaf, and
// the leaf that was edited. The zero value holds an empty job. History is for
// one goroutine.
type History struct {
	job     Job    // as it is
	steps   []step // steps[now] is the job as it is; those after it can be redone
	now     int
	saved   int    // index of the step last saved; −1 when it can't be reached again
	gesture string // of the last Amend, so that one gesture is one step
	count   int    // of jobs that there were
}

type step struct {
	label  string  // of the act that led here
	job    Job     // without its leaves
	leaves []*Leaf // shared with the steps beside, never written to
	mark   int     // tells the jobs of a history apart
}

// NewHistory starts from a job that counts as saved.
func NewHistory(j Job) *History {
	return &History{job: j, steps: []step{stepFrom(step{}, "", j, 0)}}
}

// stepFrom packs a job, sharing with the step before what did not change. A
// list of leaves is a block of memory: kept for each step, the lists of a job
// of hundreds of leaves would take most of a megabyte each.
func stepFrom(before step, label string, j Job, mark int) step {
	out := step{label: label, job: j, mark: mark}
	out.job.Leaves = nil
	same := len(before.leaves) == len(j.Leaves)
	if j.Leaves != nil {
		out.leaves = make([]*Leaf, len(j.Leaves))
	}
	for i := range j.Leaves {
		if i < len(before.leaves) && sameMemory(before.leaves[i], &j.Leaves[i]) {
			out.leaves[i] = before.leaves[i]
			continue
		}
		leaf := j.Leaves[i]
		out.leaves[i], same = &leaf, false
	}
	if same {
		out.leaves = before.leaves
	}
	return out
}

// sameMemory reports whether two leaves are the same in every byte, and so
// share all that they point to. A leaf that was copied is; one that merely
// says the same may not be, and is kept a second time. Comparing field by
// field took milliseconds a step, and a field forgotten would be lost work.
func sameMemory(a, b *Leaf) bool {
	raw := func(l *Leaf) []byte { return unsafe.Slice((*byte)(unsafe.Pointer(l)), unsafe.Sizeof(*l)) }
	return bytes.Equal(raw(a), raw(b))
}

// whole unpacks the job of a step.
func (s step) whole() Job {
	j := s.job
	if s.leaves != nil {
		j.Leaves = make([]Leaf, len(s.leaves))
	}
	for i, l := range s.leaves {
		j.Leaves[i] = *l
	}
	return j
}

// Now returns the job as it is.
func (h *History) Now() Job { return h.job }

// Do makes j the job, as one step named label, such as "move point". What
// had been undone can no longer be redone.
func (h *History) Do(label string, j Job) {
	if len(h.steps) == 0 {
		h.steps = []step{{}}
	}
	if h.saved > h.now {
		h.saved = -1
	}
	h.count++
	clear(h.steps[h.now+1:]) // lets their leaves go
	h.steps = append(h.steps[:h.now+1], stepFrom(h.steps[h.now], label, j, h.count))
	h.now++
	h.job, h.gesture = j, ""
}

// Amend is Do, but steps with the same gesture that follow one another count
// as one: a drag, or a nudge repeated. An empty gesture is plain Do.
func (h *History) Amend(gesture, label string, j Job) {
	same := gesture != "" && gesture == h.gesture && h.now > 0 &&
		h.now == len(h.steps)-1 && h.saved != h.now
	if !same {
		h.Do(label, j)
	} else {
		h.count++
		h.steps[h.now] = stepFrom(h.steps[h.now], label, j, h.count)
		h.job = j
	}
	h.gesture = gesture
}

// Undo goes one step back and returns the label of the step undone; "" when
// there is none.
func (h *History) Undo() string {
	if h.now == 0 {
		return ""
	}
	h.gesture = ""
	h.now--
	h.job = h.steps[h.now].whole()
	return h.steps[h.now+1].label
}

// Redo goes one step forward again and returns its label; "" when there is
// none.
func (h *History) Redo() string {
	if h.now >= len(h.steps)-1 {
		return ""
	}
	h.gesture = ""
	h.now++
	h.job = h.steps[h.now].whole()
	return h.steps[h.now].label
}

// UndoLabel names the step that Undo would take back; "" when there is none.
func (h *History) UndoLabel() string {
	if h.now == 0 {
		return ""
	}
	return h.steps[h.now].label
}

// RedoLabel names the step that Redo would do again; "" when there is none.
func (h *History) RedoLabel() string {
	if h.now >= len(h.steps)-1 {
		return ""
	}
	return h.steps[h.now+1].label
}

// Dirty reports whether the job differs from the one last saved.
func (h *History) Dirty() bool { return h.now != h.saved }

// MarkSaved notes that the job as it is has been saved.
func (h *History) MarkSaved() { h.saved, h.gesture = h.now, "" }

// Mark names the job as it is among all that this history has held, for
// [History.MarkSavedAt].
func (h *History) Mark() int {
	if len(h.steps) == 0 {
		return 0
	}
	return h.steps[h.now].mark
}

// MarkSavedAt notes that the job of that mark has been saved, while editing
// may have gone on.
func (h *History) MarkSavedAt(mark int) {
	h.saved = -1
	for i, s := range h.steps {
		if s.mark == mark {
			h.saved = i
		}
	}
	h.gesture = ""
}
