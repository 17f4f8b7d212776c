package mendplan

// History keeps a job and all it has been, so that every step can be undone
// and redone. Steps are whole jobs: they share what they have in common, so a
// step costs a few kilobytes and needs no inverse. The zero value holds an
// empty job. History is for one goroutine.
type History struct {
	steps   []step // steps[now] is the job as it is; those after it can be redone
	now     int
	saved   int    // index of the step last saved; −1 when it can't be reached again
	gesture string // of the last Amend, so that one gesture is one step
	count   int    // of jobs that there were
}

type step struct {
	label string // of the act that led here
	job   Job
	mark  int // tells the jobs of a history apart
}

// NewHistory starts from a job that counts as saved.
func NewHistory(j Job) *History {
	return &History{steps: []step{{job: j}}}
}

// Now returns the job as it is.
func (h *History) Now() Job {
	if len(h.steps) == 0 {
		return Job{}
	}
	return h.steps[h.now].job
}

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
	h.steps = append(h.steps[:h.now+1:h.now+1], step{label, j, h.count})
	h.now++
	h.gesture = ""
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
		h.steps[h.now] = step{label, j, h.count}
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
