package mendplan

import (
	"maps"
	"slices"
	"sync"

	"leafmend/mendplan/geom"
)

// Memo remembers the pieces of a job so that after an edit only what changed
// is computed again: the damage in hand, and the checks of its leaf. The
// answers are those of [Pieces] in every byte. The zero value is ready; a
// Memo is safe for use from several goroutines, which then wait for one
// another.
type Memo struct {
	mu     sync.Mutex
	leaves map[string]*leafMemo
}

// leafMemo is what was computed for one leaf, and from what.
type leafMemo struct {
	work    leafWork
	damages []Damage
	marks   []damageResult
	result  *leafResult
}

// Pieces is [Pieces], remembering.
func (m *Memo) Pieces(job Job) ([]Piece, []Problem) { return m.PiecesWith(job, Look{}) }

// Forget drops all that is remembered: call it when the pictures behind a
// [Look] have changed.
func (m *Memo) Forget() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.leaves = nil
}

// PiecesWith is [PiecesWith], remembering. What is remembered does not ask
// look again; see [Memo.Forget].
func (m *Memo) PiecesWith(job Job, look Look) ([]Piece, []Problem) {
	m.mu.Lock()
	defer m.mu.Unlock()
	results := make([]*leafResult, len(job.Leaves))
	memos := make([]*leafMemo, len(job.Leaves))
	everyLeaf(len(job.Leaves), func(i int) {
		old := m.leaves[job.Leaves[i].ID]
		memos[i] = recompute(newLeafWork(job, i, look), old)
		results[i] = memos[i].result
	})
	m.leaves = make(map[string]*leafMemo, len(memos))
	for i, lm := range memos {
		m.leaves[job.Leaves[i].ID] = lm
	}
	return gather(job, results)
}

// recompute computes a leaf, taking over from old what still holds.
func recompute(w leafWork, old *leafMemo) *leafMemo {
	damages := w.leaf.Damages
	if old != nil && !w.same(old.work) {
		old = nil
	}
	out := &leafMemo{work: w, damages: damages, marks: make([]damageResult, len(damages))}
	changed := old == nil || len(damages) != len(old.damages)
	sites := w.sites()
	for i, d := range damages {
		if k := old.find(d, i); k >= 0 {
			out.marks[i] = old.marks[k]
			changed = changed || k != i
			continue
		}
		changed = true
		out.marks[i] = w.damage(d, sites)
	}
	if !changed {
		out.result = old.result
		return out
	}
	out.result = w.settle(out.marks, sites)
	return out
}

// find returns where the same damage was, looking at its old place first.
func (m *leafMemo) find(d Damage, at int) int {
	if m == nil {
		return -1
	}
	if at < len(m.damages) && sameDamage(m.damages[at], d) {
		return at
	}
	return slices.IndexFunc(m.damages, func(o Damage) bool { return o.Number == d.Number && sameDamage(o, d) })
}

// same reports whether everything outside the damages is as it was.
func (w leafWork) same(o leafWork) bool {
	a, b := w.leaf, o.leaf
	return a.ID == b.ID && a.Mark == b.Mark && a.Kind == b.Kind && a.Grammage == b.Grammage &&
		a.Grain == b.Grain && a.FoldMM == b.FoldMM && slices.Equal(a.BackOver, b.BackOver) && sameSide(a.Front, b.Front) && sameSide(a.Back, b.Back) &&
		w.outermost == o.outermost && w.job.LeafPaper == o.job.LeafPaper &&
		maps.Equal(w.job.Rules, o.job.Rules) && slices.Equal(w.job.Tissues, o.job.Tissues)
}

func sameSide(a, b Side) bool {
	return a.Scan == b.Scan && a.Damp == b.Damp && samePoints(a.Outline, b.Outline) && samePoints(a.TrueEdge, b.TrueEdge) &&
		sameCalibration(a.Calibration, b.Calibration)
}

func sameCalibration(a, b Calibration) bool {
	return a.Origin == b.Origin && a.MMPerPxX == b.MMPerPxX && a.MMPerPxY == b.MMPerPxY &&
		a.DoubtPercent == b.DoubtPercent && slices.Equal(a.Homography, b.Homography)
}

func sameDamage(a, b Damage) bool {
	return a.Number == b.Number && a.Kind == b.Kind && a.Side == b.Side && a.Start == b.Start && a.End == b.End &&
		a.NoMend == b.NoMend && a.Scarf == b.Scarf && samePoints(a.Points, b.Points) &&
		slices.EqualFunc(a.Forks, b.Forks, samePoints) && slices.EqualFunc(a.Mends, b.Mends, sameMend)
}

func sameMend(a, b Mend) bool {
	return a.Style == b.Style && a.Tissue == b.Tissue && a.Side == b.Side &&
		maps.Equal(a.Rules, b.Rules) && slices.Equal(a.Joins, b.Joins) && slices.Equal(a.Breaks, b.Breaks)
}

// samePoints compares by storage first: values are never written once shared,
// so equal storage is equal contents.
func samePoints(a, b []geom.Pt) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0] || slices.Equal(a, b))
}
