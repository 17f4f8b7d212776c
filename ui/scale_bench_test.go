package ui

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/pdf"
	"leafmend/sampledata/large"
	"leafmend/ui/leafview"
)

// BenchmarkScaleTable measures what a person waits for in jobs from 50 to 500
// leaves with 20 damages each, and what they take of memory. It prints a table
// with a column for each size; "go run ./cmd/dev scale" runs it.
//
// What the window does on the toolkit's goroutine is measured with the plan
// given, since planning runs beside it; the engine's work has rows of its own.
func BenchmarkScaleTable(b *testing.B) {
	sizes := []int{50, 100, 250, 500}
	if s := os.Getenv("LEAFMEND_SCALE"); s != "" {
		sizes = nil
		for _, w := range strings.Fields(s) {
			n, err := strconv.Atoi(w)
			if err != nil || n < 1 {
				b.Fatalf("LEAFMEND_SCALE holds %q, wanted numbers of leaves", w)
			}
			sizes = append(sizes, n)
		}
	}
	for b.Loop() {
		table := &scaleTable{cells: map[string][]string{}}
		for _, n := range sizes {
			debug.FreeOSMemory()
			measureEngine(b, table, n)
		}
		fmt.Println(time.Now().Format("2006-01-02"), runtime.GOOS, runtime.GOARCH, runtime.NumCPU(), "processors", runtime.Version())
		table.print(sizes)
	}
}

// scaleTable has a row for each thing measured and a column for each size.
type scaleTable struct {
	rows  []string
	cells map[string][]string
}

func (s *scaleTable) add(row, cell string) {
	if _, ok := s.cells[row]; !ok {
		s.rows = append(s.rows, row)
	}
	s.cells[row] = append(s.cells[row], cell)
}

// time adds how much processor time f takes, the best of so many runs; by the
// clock, what else the machine does would be measured too. What runs on
// several processors takes less by the clock.
func (s *scaleTable) time(row string, runs int, f func()) {
	best := time.Duration(1 << 62)
	for range runs {
		begin := processorTime()
		f()
		best = min(best, processorTime()-begin)
	}
	s.add(row, fmt.Sprintf("%.1f", best.Seconds()*1000))
}

func (s *scaleTable) print(sizes []int) {
	fmt.Printf("\n| ms of processor time, where nothing else is said |")
	for _, n := range sizes {
		fmt.Printf(" %d leaves |", n)
	}
	fmt.Printf("\n|---|%s\n", strings.Repeat("---:|", len(sizes)))
	for _, row := range s.rows {
		fmt.Printf("| %s | %s |\n", row, strings.Join(s.cells[row], " | "))
	}
}

// measureEngine measures file, plan and print, and with them the window.
func measureEngine(b *testing.B, s *scaleTable, leaves int) {
	job := large.Job(leaves, 20)
	path := filepath.Join(b.TempDir(), "large"+mendplan.FileSuffix)
	must := func(err error) {
		if err != nil {
			b.Fatal(err)
		}
	}
	s.add("damages", fmt.Sprint(leaves*20))
	s.time("save", 2, func() { must(mendplan.SaveFile(path, job)) })
	s.time("read the file", 2, func() {
		var err error
		job, _, err = mendplan.LoadFile(path)
		must(err)
	})
	var memo mendplan.Memo
	var pieces []mendplan.Piece
	var problems []mendplan.Problem
	s.time("all pieces from nothing", 1, func() { pieces, problems = memo.Pieces(job) })
	s.add("pieces", fmt.Sprint(len(pieces)))
	s.add("problems", fmt.Sprint(len(problems)))
	edit := 0
	s.time("pieces after one edit", 5, func() {
		edit++
		memo.Pieces(withMovedPoint(job, job.Leaves[leaves/2], edit))
	})
	memo.Pieces(job)
	var layouts mendplan.LayoutMemo
	var plan mendplan.Plan
	assemble := func() {
		plan = mendplan.Search{Effort: quickEffort, Memo: &layouts}.Assemble(context.Background(), job, pieces, problems)
	}
	s.time("sheets and estimate, default effort", 1, assemble)
	s.time("sheets and estimate, remembered", 2, assemble)
	var out bytes.Buffer
	s.time("print the bench set", 1, func() { must(pdf.Write(&out, job, plan, pdf.Options{})) })
	s.add("size of the print, MB", fmt.Sprintf("%.1f", float64(out.Len())/1e6))
	out = bytes.Buffer{}
	measureWindow(b, s, path, plan)
	runtime.KeepAlive(&memo)
}

// withMovedPoint moves one point of the first damage of a leaf.
func withMovedPoint(j mendplan.Job, leaf mendplan.Leaf, by int) mendplan.Job {
	d := leaf.Damages[0]
	d.Points = append([]geom.Pt(nil), d.Points...)
	d.Points[len(d.Points)/2].X += float64(by)
	return j.WithDamage(leaf.ID, d)
}

// given is a planner whose plan is known.
type given struct{ plan *mendplan.Plan }

func (g given) pieces(mendplan.Job) ([]mendplan.Piece, []mendplan.Problem) {
	return g.plan.Pieces, g.plan.Problems
}

func (g given) finish(context.Context, mendplan.Search, mendplan.Job, []mendplan.Piece, []mendplan.Problem) mendplan.Plan {
	return *g.plan
}

// measureWindow measures what the window does while nothing else goes on.
func measureWindow(b *testing.B, s *scaleTable, path string, plan mendplan.Plan) {
	app := test.NewTempApp(b)
	win := test.NewTempWindow(b, nil)
	w := build(app, win, Options{}, worker{inPlace: true})
	win.Resize(fyne.NewSize(1280, 800))
	now := mendplan.Plan{}
	w.session.planner = given{&now}
	s.time("window: open to usable", 1, func() { w.openPath(path) })
	now = plan
	s.time("window: the plan arrives", 1, func() { w.session.replan() })
	leaf := w.session.Job().Leaves[3]
	s.time("window: choose a damage", 3, func() { w.session.Select(); w.session.Select(leaf.Damages[2].Number) })
	g := leafview.Geometry{Ref: leaf.Damages[2].Number, Points: append([]geom.Pt(nil), leaf.Damages[2].Points...)}
	s.time("window: move a point", 3, func() {
		g.Points = append([]geom.Pt(nil), g.Points...)
		g.Points[1].X++
		w.applyEdit(leafview.Change{Why: leafview.MovePoint, Shapes: []leafview.Geometry{g}})
	})
	s.time("window: undo", 3, func() { w.Run("undo") })
	s.time("window: next leaf", 3, func() { w.Run("next-leaf") })
	s.time("window: next problem", 3, func() { w.Run("next-problem") })
	s.time("window: open the table of mends", 1, func() { w.showStage(stageMends) })
	mends := w.panels[stageMends].(*mendsPanel)
	letter := 0
	s.time("window: filter it, a letter", 3, func() { mends.find.SetText("loss"[:letter%4+1]); letter++ })
	mends.find.SetText("")
	s.time("window: open the cut list", 1, func() { w.showStage(stageCuts) })
	s.time("window: open the estimate", 1, func() { w.showStage(stageEstimate) })
	s.time("window: open the order", 1, func() { w.showStage(stageOrder) })
	s.time("window: open the work", 1, func() { w.showStage(stageWork) })
	w.showStage(stageTrace)
	s.time("window: list of problems", 1, func() { w.Run("tab-problems") })
	s.time("window: save", 1, func() { w.Run("save") })
	var m runtime.MemStats
	runtime.GC()
	runtime.ReadMemStats(&m)
	s.add("heap in use with all of it open, MB", fmt.Sprint(m.HeapAlloc>>20))
	s.add("memory of the process, MB", residentMB())
	w.keepLock(nil)
}

// residentMB is the memory that the system has given the process; "" where it
// does not tell.
func residentMB() string {
	data, err := os.ReadFile("/proc/self/status")
	if err != nil {
		return ""
	}
	for line := range strings.Lines(string(data)) {
		if f := strings.Fields(line); len(f) > 1 && f[0] == "VmRSS:" {
			kb, _ := strconv.Atoi(f[1]) // the kernel writes numbers
			return fmt.Sprint(kb >> 10)
		}
	}
	return ""
}
