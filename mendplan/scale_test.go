package mendplan_test

import (
	"sync"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/sampledata/large"
)

// lookedAt counts for which leaves the pictures were asked about an outline.
type lookedAt struct {
	mu     sync.Mutex
	leaves map[string]int
}

func (a *lookedAt) look() mendplan.Look {
	return mendplan.Look{Print: func(leaf string, _ mendplan.SideName, _ geom.Area) (float64, bool) {
		a.mu.Lock()
		defer a.mu.Unlock()
		a.leaves[leaf]++
		return 0.2, true
	}}
}

// TestAnEditComputesNoOtherLeafAgain edits leaves of a job: however large it
// is, only the leaf in hand is looked at, and of that little.
func TestAnEditComputesNoOtherLeafAgain(t *testing.T) {
	for _, n := range []int{4, 16} {
		job := large.Job(n, 6)
		a := &lookedAt{leaves: map[string]int{}}
		var memo mendplan.Memo
		memo.PiecesWith(job, a.look())
		if len(a.leaves) != n {
			t.Fatalf("at first %d leaves of %d were looked at", len(a.leaves), n)
		}
		first := a.leaves
		for k := range n {
			leaf := job.Leaves[k]
			whole := first[leaf.ID]
			d := leaf.Damages[0]
			d.Points = append([]geom.Pt(nil), d.Points...)
			d.Points[len(d.Points)/2].X += 3
			a.leaves = map[string]int{leaf.ID: 0}
			job = job.WithDamage(leaf.ID, d)
			memo.PiecesWith(job, a.look())
			if len(a.leaves) != 1 || a.leaves[leaf.ID] > whole {
				t.Errorf("of %d leaves, an edit on %s looked at %v; all of it took %d looks", n, leaf.ID, a.leaves, whole)
			}
		}
	}
}

// TestWorkGrowsAsTheJobDoes doubles the leaves of a job: what computing,
// writing and reading it allocates may grow by 2.4 at most.
func TestWorkGrowsAsTheJobDoes(t *testing.T) {
	encoded := func(n int) []byte {
		data, err := mendplan.Encode(large.Job(n, 5))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	for _, c := range []struct {
		name string
		do   func(n int) func()
	}{
		{"the pieces", func(n int) func() { j := large.Job(n, 5); return func() { mendplan.Pieces(j) } }},
		{"writing the file", func(n int) func() { j := large.Job(n, 5); return func() { _, _ = mendplan.Encode(j) } }},
		{"reading the file", func(n int) func() { data := encoded(n); return func() { _, _, _ = mendplan.Decode(data) } }},
	} {
		t.Run(c.name, func(t *testing.T) {
			small, large := testing.AllocsPerRun(1, c.do(10)), testing.AllocsPerRun(1, c.do(20))
			t.Logf("%.0f and %.0f allocations: %.2f times as many", small, large, large/small)
			if large > 2.4*small {
				t.Errorf("twice the leaves take %.2f times the allocations, want at most 2.4", large/small)
			}
		})
	}
}
