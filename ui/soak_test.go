package ui

import (
	"context"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
	"leafmend/mendplan/scan"
	"leafmend/sampledata"
	"leafmend/sampledata/large"
	"leafmend/ui/leafview"
)

var soakFor = flag.Duration("soak", 0, "how long TestSoak goes on; 0 for the ordinary few rounds")

// ordinaryRounds is how many rounds TestSoak does in an ordinary run; a round
// is a job opened, edited, printed, saved and left.
const (
	ordinaryRounds = 9
	stepsARound    = 15
)

// TestSoak works in one window as a restless user would: rounds of random
// editing, undoing, looking about, saving and printing on one job after the
// other. What it holds at the end of a round must not grow with the rounds.
// "go run ./cmd/dev soak" does it for an hour.
func TestSoak(t *testing.T) {
	s := newSoak(t)
	begin := time.Now()
	for round := 0; *soakFor == 0 && round < ordinaryRounds || time.Since(begin) < *soakFor; round++ {
		s.round(round)
		s.levels = append(s.levels, s.level())
		if *soakFor > 0 && round%20 == 0 {
			fmt.Println("round", round, "steps", s.steps, "after", time.Since(begin).Round(time.Second), s.levels[round])
		}
	}
	t.Logf("%d rounds, %d steps, %d of them did something; first %v, last %v", len(s.levels), s.steps, s.edits, s.levels[0], s.levels[len(s.levels)-1])
	if s.edits < s.steps/4 {
		t.Errorf("only %d of %d steps changed the job: the soak tries nothing", s.edits, s.steps)
	}
	s.judge()
}

// soak is a window in the hands of a restless user.
type soak struct {
	t      *testing.T
	w      *Window
	small  fyne.Window // painted now and then, since painting has the toolkit drop what it no longer shows
	r      *rand.Rand
	jobs   []string // files, each written anew before it is opened
	clean  [][]byte
	dir    string
	steps  int
	edits  int
	done   []string // what the round did, for the report of a fault
	levels []level
}

// level is what the program holds.
type level struct {
	heapKB, goroutines, descriptors int
	files, listeners, overlays      int
}

// light plans as the window does, with the least search for layouts: the soak
// is about what is kept, not about how good it is.
type light struct{ *looks }

func (l light) finish(ctx context.Context, s mendplan.Search, j mendplan.Job, pieces []mendplan.Piece, problems []mendplan.Problem) mendplan.Plan {
	s.Effort = 1
	return l.looks.finish(ctx, s, j, pieces, problems)
}

func newSoak(t *testing.T) *soak {
	t.Helper()
	dir := t.TempDir()
	if err := unpack(sampledata.Files(), filepath.Join(dir, "sample")); err != nil {
		t.Fatal(err)
	}
	sample, err := filepath.Glob(filepath.Join(dir, "sample", "*"+mendplan.FileSuffix))
	if err != nil || len(sample) != 1 {
		t.Fatalf("the sample is %v, %v", sample, err)
	}
	s := &soak{t: t, r: rand.New(rand.NewPCG(20251125, 8)), dir: dir, jobs: []string{sample[0]}}
	for i, n := range []int{3, 12} {
		path := filepath.Join(dir, fmt.Sprint("invented-", i, mendplan.FileSuffix))
		if err := mendplan.SaveFile(path, large.Job(n, 4)); err != nil {
			t.Fatal(err)
		}
		s.jobs = append(s.jobs, path)
	}
	for _, path := range s.jobs {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		s.clean = append(s.clean, data)
	}
	app := test.NewTempApp(t)
	win := test.NewTempWindow(t, nil)
	s.w = build(app, win, Options{Recovery: filepath.Join(dir, "recovery")}, worker{inPlace: true})
	s.w.session.planner = light{&s.w.looks}
	s.w.pictures.shelf = scan.NewShelf(1) // one scan at a time, so that the shelf is full from the first on
	s.small = test.NewTempWindow(t, widget.NewLabel("soak"))
	win.Resize(fyne.NewSize(1280, 800))
	s.w.newJob()
	t.Cleanup(func() { s.w.keepLock(nil) })
	return s
}

// round opens a job as it first was, works on it, and leaves it for a new one.
func (s *soak) round(n int) {
	w, k := s.w, n%len(s.jobs)
	s.done = s.done[:0]
	if err := os.WriteFile(s.jobs[k], s.clean[k], 0o644); err != nil {
		s.t.Fatal(err)
	}
	w.openPath(s.jobs[k])
	if w.session.Path() != s.jobs[k] {
		s.t.Fatalf("round %d: the job at %s was not opened", n, filepath.Base(s.jobs[k]))
	}
	for range stepsARound {
		before := w.session.history.Mark()
		s.step()
		s.steps++
		if w.session.history.Mark() != before {
			s.edits++
		}
		s.closeDialogs()
	}
	s.verify(n)
	w.save(nil)
	s.closeDialogs()
	if _, _, err := mendplan.LoadFile(s.jobs[k]); err != nil {
		s.t.Fatalf("round %d: the saved job cannot be read: %v", n, err)
	}
	w.writePDF(filepath.Join(s.dir, "print.pdf"), w.session.Job(), []pdf.Part{pdf.CutList}, false)
	s.closeDialogs()
	w.recover.clear()
	w.newJob()
	w.showStage(stageTrace)
}

// closeDialogs puts away whatever asks.
func (s *soak) closeDialogs() {
	o := s.w.win.Canvas().Overlays()
	for range 20 {
		if len(s.w.dialogs) > 0 {
			s.w.dialogs[len(s.w.dialogs)-1].Hide()
			continue
		}
		top := o.Top()
		if top == nil {
			return
		}
		o.Remove(top)
	}
	s.t.Fatalf("a dialog would not close after %v", tail(s.done))
}

func tail(words []string) []string { return words[max(0, len(words)-8):] }

// step does one thing of those a user does, the job's edits most often.
func (s *soak) step() {
	acts := []struct {
		weight int
		name   string
		do     func()
	}{
		{10, "add", s.add}, {10, "move a point", s.movePoint}, {3, "delete", s.remove},
		{5, "rule", s.rule}, {4, "mend", s.mend}, {6, "undo", func() { s.w.Run("undo") }}, {4, "redo", func() { s.w.Run("redo") }},
		{5, "stage", func() { s.w.showStage(stage(s.r.IntN(int(stageWork) + 1))) }},
		{5, "leaf", func() { s.run("next-leaf", "prev-leaf", "flip") }},
		{4, "choose", func() { s.run("select-all", "deselect", "next-damage", "prev-damage") }},
		{3, "panel", func() { s.run("tab-damage", "tab-leaf", "tab-problems", "next-problem") }},
		{3, "dialog", func() { s.run("settings", "print", "export", "library", "help", "search", "about", "save-as") }},
		{3, "view", func() { s.run("fit", "zoom-in", "zoom-out", "dark", "side-by-side", "swell", "show-print", "raking") }},
		{2, "mended", func() { s.run("mended", "leaf-up", "leaf-down", "no-mend") }},
		{1, "save", func() { s.w.save(nil) }},
	}
	total := 0
	for _, a := range acts {
		total += a.weight
	}
	at := s.r.IntN(total)
	for _, a := range acts {
		if at -= a.weight; at < 0 {
			s.done = append(s.done, a.name)
			a.do()
			return
		}
	}
}

func (s *soak) run(ids ...string) {
	id := ids[s.r.IntN(len(ids))]
	if s.w.command(id) == nil {
		s.t.Fatalf("there is no command %q", id)
	}
	s.done[len(s.done)-1] += " " + id
	s.w.Run(id)
}

// anyDamage picks a damage of the leaf shown and chooses it.
func (s *soak) anyDamage() (mendplan.Damage, bool) {
	leaf, ok := s.w.session.Leaf()
	if !ok || len(leaf.Damages) == 0 {
		return mendplan.Damage{}, false
	}
	d := leaf.Damages[s.r.IntN(len(leaf.Damages))]
	s.w.session.Select(d.Number)
	return d, true
}

func (s *soak) add() {
	d := large.Damage(s.r.IntN(100000))
	s.w.applyEdit(leafview.Add{Kind: leafview.Kind(d.Kind), Closed: d.Kind.Closed(), Points: d.Points})
}

func (s *soak) movePoint() {
	if d, ok := s.anyDamage(); ok && len(d.Points) > 0 {
		g := leafview.Geometry{Ref: d.Number, Points: slices.Clone(d.Points), Forks: d.Forks}
		p := &g.Points[s.r.IntN(len(g.Points))]
		*p = p.Add(geom.Pt{X: 20 * s.r.NormFloat64(), Y: 20 * s.r.NormFloat64()})
		s.w.applyEdit(leafview.Change{Why: leafview.MovePoint, Shapes: []leafview.Geometry{g}})
	}
}

func (s *soak) remove() {
	if d, ok := s.anyDamage(); ok {
		s.w.applyEdit(leafview.Delete{Refs: []int{d.Number}})
	}
}

func (s *soak) rule() {
	rules := mendplan.RuleTable()
	rule := rules[s.r.IntN(len(rules))]
	j := s.w.session.Job()
	if len(rule.Choices) == 0 {
		j = j.WithRule(rule.Key, mendplan.Num(rule.Min+(rule.Max-rule.Min)*s.r.Float64()))
	} else {
		j = j.WithoutRule(rule.Key)
	}
	s.w.session.Do("change a rule", j)
}

func (s *soak) mend() {
	if _, ok := s.anyDamage(); ok {
		s.run("margin-wider", "margin-narrower", "margin-reset", "mend-side", "style", "tissue")
	}
}

// verify holds what the window remembers against what follows from nothing.
func (s *soak) verify(round int) {
	w := s.w
	job := w.session.Job()
	if data, err := mendplan.Encode(job); err != nil {
		s.t.Fatalf("round %d: the job cannot be written: %v", round, err)
	} else if again, _, err := mendplan.Decode(data); err != nil || len(again.Leaves) != len(job.Leaves) {
		s.t.Fatalf("round %d: the job written does not come back: %v", round, err)
	}
	want, _ := mendplan.PiecesWith(job, mendplan.Look{Print: w.looks.printUnder(job)})
	if got := w.session.Plan().Pieces; len(got)+len(want) > 0 && !reflect.DeepEqual(got, want) {
		s.t.Fatalf("round %d: the window shows %d pieces, from nothing there are %d; the last acts: %v", round, len(got), len(want), tail(s.done))
	}
	for _, l := range w.session.Plan().Layouts {
		for i, sheet := range l.Layout.Sheets {
			for k, p := range sheet.Places {
				if p.X < -1e-6 || p.Y < -1e-6 || p.X+p.W > sheet.W+1e-6 || p.Y+p.H > sheet.H+1e-6 {
					s.t.Fatalf("round %d: a blank lies beyond sheet %d of %s", round, i, l.Tissue)
				}
				for _, q := range sheet.Places[:k] {
					if p.X < q.X+q.W-1e-6 && q.X < p.X+p.W-1e-6 && p.Y < q.Y+q.H-1e-6 && q.Y < p.Y+p.H-1e-6 {
						s.t.Fatalf("round %d: two blanks overlap on sheet %d of %s", round, i, l.Tissue)
					}
				}
			}
		}
	}
}

// level measures what is held once the job was left.
func (s *soak) level() level {
	s.small.Canvas().Capture()
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	out := level{heapKB: int(m.HeapAlloc >> 10), goroutines: runtime.NumGoroutine(), overlays: len(s.w.win.Canvas().Overlays().List())}
	if fds, err := os.ReadDir("/proc/self/fd"); err == nil { // other systems do not tell
		out.descriptors = len(fds)
	}
	for _, sig := range []signal{s.w.session.jobChanged, s.w.session.planChanged, s.w.session.searchChanged, s.w.session.placeChanged, s.w.session.selected, s.w.session.fileChanged} {
		out.listeners += len(sig.listeners)
	}
	_ = filepath.WalkDir(s.dir, func(_ string, d os.DirEntry, err error) error { // the folder is the test's own
		if err == nil && !d.IsDir() {
			out.files++
		}
		return nil
	})
	return out
}

// judge compares the rounds of the second quarter with those of the last: by
// the second everything that is kept on purpose has been shown and filled.
func (s *soak) judge() {
	heapSpare := 24 << 10 // the toolkit keeps drawings of what is gone for a minute
	if *soakFor > 0 {
		heapSpare = 12 << 10
	}
	n := len(s.levels)
	early, late := s.levels[n/4:n/2], s.levels[n-n/4:]
	typical := func(ls []level, of func(level) int) int {
		var v []int
		for _, l := range ls {
			v = append(v, of(l))
		}
		slices.Sort(v)
		return v[len(v)/2]
	}
	for _, c := range []struct {
		what  string
		of    func(level) int
		spare int
	}{
		{"kilobytes of heap", func(l level) int { return l.heapKB }, heapSpare},
		{"goroutines", func(l level) int { return l.goroutines }, 1},
		{"file descriptors", func(l level) int { return l.descriptors }, 2},
		{"files in the folders", func(l level) int { return l.files }, 1},
		{"listeners", func(l level) int { return l.listeners }, 4},
		{"dialogs", func(l level) int { return l.overlays }, 0},
	} {
		a, b := typical(early, c.of), typical(late, c.of)
		s.t.Logf("%s: %d early, %d late", c.what, a, b)
		if b > a+c.spare {
			s.t.Errorf("%s grow with the rounds: %d early, %d late", c.what, a, b)
		}
	}
}
