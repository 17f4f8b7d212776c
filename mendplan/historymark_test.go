package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
)

// A save takes time, and the user goes on: what was saved is the job of then.
func TestWhatWasSavedIsTheJobOfThen(t *testing.T) {
	job := func(title string) mendplan.Job { return mendplan.Job{Title: title} }
	for _, c := range []struct {
		name  string
		after func(h *mendplan.History) // what is done while the save runs
		dirty bool
	}{
		{"nothing", func(*mendplan.History) {}, false},
		{"an edit", func(h *mendplan.History) { h.Do("b", job("b")) }, true},
		{"an edit taken back", func(h *mendplan.History) { h.Do("b", job("b")); h.Undo() }, false},
		{"the step before", func(h *mendplan.History) { h.Undo() }, true},
		{"the step before and another edit", func(h *mendplan.History) { h.Undo(); h.Do("b", job("b")) }, true},
		{"the same gesture going on", func(h *mendplan.History) { h.Amend("drag", "a", job("b")) }, true},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := mendplan.NewHistory(job("old"))
			h.Amend("drag", "a", job("a"))
			mark := h.Mark()
			c.after(h)
			h.MarkSavedAt(mark)
			if h.Dirty() != c.dirty {
				t.Errorf("dirty %v, want %v", h.Dirty(), c.dirty)
			}
		})
	}
}
