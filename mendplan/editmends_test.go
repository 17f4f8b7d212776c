package mendplan_test

import (
	"reflect"
	"slices"
	"testing"

	"leafmend/mendplan"
)

// change is one thing a person does to many mends, and how it is taken back.
type change struct {
	name      string
	set, drop func(*mendplan.Mend)
}

var changes = []change{
	{"style", func(m *mendplan.Mend) { m.Style = mendplan.Strips }, func(m *mendplan.Mend) { m.Style = "" }},
	{"tissue", func(m *mendplan.Mend) { m.Tissue = "T2" }, func(m *mendplan.Mend) { m.Tissue = "" }},
	{"side", func(m *mendplan.Mend) { m.Side = mendplan.Front }, func(m *mendplan.Mend) { m.Side = "" }},
	{"side_margin_mm", func(m *mendplan.Mend) { m.Rules = m.Rules.With(mendplan.SideMargin, mendplan.Num(7)) },
		func(m *mendplan.Mend) { m.Rules = m.Rules.Without(mendplan.SideMargin) }},
	{"breaks", func(m *mendplan.Mend) { m.Breaks = append(m.Breaks, 0.5) }, func(m *mendplan.Mend) { m.Breaks = nil }},
}

// manyLeaves spreads random damages, some with mends of their own, over three
// leaves.
func manyLeaves(i int) (mendplan.Job, []int) {
	r := seeded(i)
	j := bench()
	for _, id := range []string{"L2", "L3"} {
		leaf, _ := j.Leaf("L1")
		leaf.ID = id
		j = j.WithLeaf(leaf)
	}
	var some []int
	for k := range 12 {
		d := randomDamage(12*i + k)
		if r.IntN(2) == 0 {
			d.Mends = nil
		}
		var n int
		j, n = j.AddDamage([]string{"L1", "L2", "L3"}[r.IntN(3)], d)
		if r.IntN(3) > 0 {
			some = append(some, n)
		}
	}
	return j, some
}

func TestManyMendsChangeAtOnceAsOneByOne(t *testing.T) {
	for i := range 200 {
		j, some := manyLeaves(i)
		for _, c := range changes {
			all, single := j.WithMends(some, c.set), j
			for k := range some {
				single = single.WithMends(some[len(some)-1-k:len(some)-k], c.set) // from the last to the first
			}
			if !reflect.DeepEqual(all, single) {
				t.Fatalf("case %d, %s: at once and one by one differ", i, c.name)
			}
			for _, leaf := range j.Leaves {
				for _, d := range leaf.Damages {
					_, now, _ := all.FindDamage(d.Number)
					chosen := slices.Contains(some, d.Number)
					if !chosen && !reflect.DeepEqual(d, now) {
						t.Errorf("case %d, %s: damage %d was changed unasked", i, c.name, d.Number)
					}
					if chosen && !slices.Contains(now.Mends[0].Own(), c.name) {
						t.Errorf("case %d: the override of %s is not seen in %v", i, c.name, now.Mends[0].Own())
					}
				}
			}
		}
	}
}

func TestAnOverrideTakenBackLeavesTheJobAsItWas(t *testing.T) {
	for i := range 200 {
		j, some := manyLeaves(i)
		j = j.WithMends(some, func(m *mendplan.Mend) { *m = mendplan.Mend{} })
		before, _ := mendplan.Pieces(j)
		for _, c := range changes {
			over := j.WithMends(some, c.set)
			back := over.WithMends(some, c.drop)
			if !reflect.DeepEqual(j, back) {
				t.Fatalf("case %d, %s: dropped again, the job differs", i, c.name)
			}
		}
		if after, _ := mendplan.Pieces(j); !reflect.DeepEqual(before, after) {
			t.Fatalf("case %d: changing a copy changed the job", i)
		}
	}
}

func TestChangesOfManyMendsLeaveAloneWhatIsNotThere(t *testing.T) {
	j := bench(mendplan.Damage{Kind: mendplan.Crease, Points: randomTear(seeded(1)).Points})
	if got := j.WithMends([]int{1, 77}, changes[0].set); !reflect.DeepEqual(j, got) {
		t.Error("a crease, noted only, or a number nobody has got a mend")
	}
}
