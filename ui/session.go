package ui

import (
	"path/filepath"
	"slices"

	"leafmend/mendplan"
)

// Session is the only owner of the job in hand: its history, where it is
// saved, the plan that follows from it, and what the user is looking at. All
// methods are called on the toolkit's goroutine. What is looked at (leaf,
// side, selection) is not part of the job and not undone.
type Session struct {
	// Signals. A change of the job always emits jobChanged; the others are
	// emitted when their part changes too.
	jobChanged    signal // the job is another value
	planChanged   signal // a new plan is there, or planning began or ended
	searchChanged signal // a longer search for a layout has come further
	placeChanged  signal // another leaf or side is shown
	selected      signal // other damages are chosen
	fileChanged   signal // path, name or unsaved state

	history *mendplan.History
	path    string // of the job file; "" until it is saved
	base    string // folder that the scans' paths start from; "" when they are absolute
	leafID  string
	side    mendplan.SideName
	refs    []int              // chosen damages, the one in hand first
	found   []mendplan.Problem // by reading the file and its scans
	planned *mendplan.Job      // what the last plan follows from; see planInput
	// proposed is a name for a job without a file, and damaged the file that
	// it was salvaged from; both are "" else.
	proposed, damaged string
	planning
}

// newSession returns a session on an empty job.
func newSession(w worker, p planner) *Session {
	s := &Session{side: mendplan.Front}
	s.work, s.planner, s.piecesOf, s.planOf = w, p, -1, -1
	s.history = mendplan.NewHistory(mendplan.Job{})
	return s
}

// Job returns the job as it is.
func (s *Session) Job() mendplan.Job { return s.history.Now() }

// Path returns where the job is saved; "" until it was.
func (s *Session) Path() string { return s.path }

// Unsaved reports whether there is work that is not in the file.
func (s *Session) Unsaved() bool { return s.history.Dirty() }

// Take puts another job in hand, as read from path or new when path is "".
func (s *Session) Take(j mendplan.Job, path string, found []mendplan.Problem) {
	s.history = mendplan.NewHistory(j)
	s.path, s.base, s.found, s.refs = path, "", found, nil
	s.proposed, s.damaged = "", ""
	if path != "" {
		s.base = filepath.Dir(path)
	}
	s.leafID, s.side = "", mendplan.Front
	if len(j.Leaves) > 0 {
		s.leafID = j.Leaves[0].ID
		s.side = sideToShow(j.Leaves[0])
	}
	s.plan, s.planOf, s.piecesOf, s.planned = mendplan.Plan{}, -1, -1, nil
	s.changed()
	s.placeChanged.emit()
	s.selected.emit()
}

// sideToShow is the side of a leaf that has a scan, the front if both have.
func sideToShow(l mendplan.Leaf) mendplan.SideName {
	if !l.Front.Scan.Present() && l.Back.Scan.Present() {
		return mendplan.Back
	}
	return mendplan.Front
}

// Do makes j the job, as one step named label in the imperative.
func (s *Session) Do(label string, j mendplan.Job) {
	s.history.Do(label, j)
	s.changed()
}

// Amend is Do; steps of the same gesture that follow one another are one.
func (s *Session) Amend(gesture, label string, j mendplan.Job) {
	s.history.Amend(gesture, label, j)
	s.changed()
}

// Undo takes the last step back and returns its label; "" if there is none.
func (s *Session) Undo() string {
	label := s.history.Undo()
	if label != "" {
		s.changed()
	}
	return label
}

// Redo does the step again that was undone last and returns its label.
func (s *Session) Redo() string {
	label := s.history.Redo()
	if label != "" {
		s.changed()
	}
	return label
}

// ToSave returns the job as it must be written to path: scans are told from
// the folder of that file. The job in hand goes on telling them from where it
// was opened, so that undo stays right after saving in another folder.
func (s *Session) ToSave(path string) mendplan.Job {
	j := s.Job()
	move := func(sc mendplan.Scan) mendplan.Scan {
		if sc.Present() {
			sc.Path = mendplan.RelativeScan(filepath.Dir(path), s.scanPath(sc))
		}
		return sc
	}
	j.Leaves = slices.Clone(j.Leaves)
	for i := range j.Leaves {
		leaf := &j.Leaves[i]
		leaf.Front.Scan, leaf.Back.Scan = move(leaf.Front.Scan), move(leaf.Back.Scan)
		leaf.Front.After, leaf.Back.After = move(leaf.Front.After), move(leaf.Back.After)
	}
	return j
}

// scanPath returns where a side's scan lies on the disk.
func (s *Session) scanPath(sc mendplan.Scan) string { return mendplan.ScanPath(s.base, sc) }

// namedScan is the path under which the job in hand names a scan.
func (s *Session) namedScan(path string) string {
	if s.base == "" {
		return filepath.ToSlash(path)
	}
	return mendplan.RelativeScan(s.base, path)
}

// SavedAt notes that the job of a mark of its history lies at path; the user
// may have gone on working since.
func (s *Session) SavedAt(path string, mark int) {
	s.path = path
	s.history.MarkSavedAt(mark)
	s.fileChanged.emit()
}

// changed tells everyone about another job and has it planned.
func (s *Session) changed() {
	s.keepPlace()
	s.jobChanged.emit()
	s.fileChanged.emit()
	s.replanIfNeeded()
}

// keepPlace drops from what is looked at whatever the job no longer has.
func (s *Session) keepPlace() {
	j := s.Job()
	if _, ok := j.Leaf(s.leafID); !ok {
		s.leafID = ""
		if len(j.Leaves) > 0 {
			s.leafID = j.Leaves[0].ID
		}
		s.placeChanged.emit()
	}
	kept := slices.DeleteFunc(slices.Clone(s.refs), func(n int) bool {
		leaf, _, ok := j.FindDamage(n)
		return !ok || leaf.ID != s.leafID
	})
	if len(kept) != len(s.refs) {
		s.refs = kept
		s.selected.emit()
	}
}

// Leaf returns the leaf that is shown; false when the job has none.
func (s *Session) Leaf() (mendplan.Leaf, bool) { return s.Job().Leaf(s.leafID) }

// Side returns the side that is shown.
func (s *Session) Side() mendplan.SideName { return s.side }

// Show looks at a side of a leaf; "" keeps the side.
func (s *Session) Show(leafID string, side mendplan.SideName) {
	if side == "" {
		side = s.side
	}
	if leafID == s.leafID && side == s.side {
		return
	}
	if _, ok := s.Job().Leaf(leafID); !ok {
		return
	}
	other := leafID != s.leafID
	s.leafID, s.side = leafID, side
	s.placeChanged.emit()
	if other && len(s.refs) > 0 {
		s.refs = nil
		s.selected.emit()
	}
}

// Select chooses damages by number, the one in hand first. It shows the leaf
// of the first.
func (s *Session) Select(refs ...int) {
	if slices.Equal(refs, s.refs) {
		return
	}
	if len(refs) > 0 {
		if leaf, _, ok := s.Job().FindDamage(refs[0]); ok && leaf.ID != s.leafID {
			s.refs = nil
			s.Show(leaf.ID, "")
		}
	}
	s.refs = slices.Clone(refs)
	s.keepPlace()
	s.selected.emit()
}

// Selected returns the numbers of the chosen damages, the one in hand first.
func (s *Session) Selected() []int { return slices.Clone(s.refs) }

// Damage returns the damage in hand.
func (s *Session) Damage() (mendplan.Damage, bool) {
	if len(s.refs) == 0 {
		return mendplan.Damage{}, false
	}
	_, d, ok := s.Job().FindDamage(s.refs[0])
	return d, ok
}

// EditDamages changes every chosen damage by change, as one step.
func (s *Session) EditDamages(label string, change func(mendplan.Damage) mendplan.Damage) {
	s.amendDamages("", label, change)
}

func (s *Session) amendDamages(gesture, label string, change func(mendplan.Damage) mendplan.Damage) {
	j := s.Job()
	for _, n := range s.refs {
		if leaf, d, ok := j.FindDamage(n); ok {
			j = j.WithDamage(leaf.ID, change(d))
		}
	}
	s.Amend(gesture, label, j)
}

// EditLeaf changes the leaf that is shown, as one step.
func (s *Session) EditLeaf(label string, change func(mendplan.Leaf) mendplan.Leaf) {
	if leaf, ok := s.Leaf(); ok {
		s.Do(label, s.Job().WithLeaf(change(leaf)))
	}
}

// EditSide changes the side that is shown, as one step.
func (s *Session) EditSide(label string, change func(mendplan.Side) mendplan.Side) {
	s.EditLeaf(label, func(l mendplan.Leaf) mendplan.Leaf {
		return l.WithSide(s.side, change(l.SideOf(s.side)))
	})
}
