package ui

import (
	"slices"
	"strconv"
	"testing"

	"leafmend/mendplan"
)

func TestTheTableOfMendsIsSortedByAnyColumn(t *testing.T) {
	w := testWindow(t)
	withSample(t, w)
	w.showStage(stageMends)
	p := w.panels[stageMends].(*mendsPanel)
	asJob := slices.Clone(p.numbers)
	for col := range 9 {
		p.order.pick(strconv.Itoa(col))
		if len(p.numbers) != len(asJob) {
			t.Fatalf("sorted by column %d the table has %d rows of %d", col, len(p.numbers), len(asJob))
		}
		j := w.session.Job()
		var cells []string
		for _, n := range p.numbers {
			leaf, d, ok := j.FindDamage(n)
			if !ok {
				t.Fatalf("there is no damage %d", n)
			}
			cells = append(cells, mendRow(j, leaf, d, w.session.PiecesOf(n), "")[col])
		}
		if col < 8 && !slices.IsSortedFunc(cells, cellOrder) {
			t.Errorf("sorted by column %d the cells are %q", col, cells)
		}
	}
	p.order.pick("-1")
	if !slices.Equal(p.numbers, asJob) {
		t.Errorf("in order of the job the rows are %v, were %v", p.numbers, asJob)
	}
}

func TestAllMendsShownAreChangedInOneStep(t *testing.T) {
	w := testWindow(t)
	withSample(t, w)
	w.showStage(stageMends)
	p := w.panels[stageMends].(*mendsPanel)
	p.kind.pick(string(mendplan.Tear))
	tears := slices.Clone(p.numbers)
	if len(tears) < 2 {
		t.Fatalf("the sample has %d tears", len(tears))
	}
	p.changeShown()
	if len(w.dialogs) != 1 {
		t.Fatal("nothing is asked")
	}
	w.closeDialog()

	j := w.session.Job()
	var all []mendplan.Damage
	for _, n := range tears {
		_, d, _ := j.FindDamage(n)
		all = append(all, d)
	}
	w.session.Do("change mends", changedMends(j, all, "stay", string(mendplan.Strips), "stay", "front"))
	one := j
	for _, n := range tears {
		leaf, d, _ := one.FindDamage(n)
		one = one.WithDamage(leaf.ID, d.WithMend(func(m *mendplan.Mend) { m.Style, m.Side = mendplan.Strips, mendplan.Front }))
	}
	for _, n := range tears {
		_, got, _ := w.session.Job().FindDamage(n)
		_, want, _ := one.FindDamage(n)
		if len(got.Mends) == 0 || got.Mends[0].Style != want.Mends[0].Style || got.Mends[0].Side != want.Mends[0].Side || got.Mends[0].Tissue != want.Mends[0].Tissue {
			t.Errorf("tear %d: changed together %+v, one by one %+v", n, got.Mends, want.Mends)
		}
	}
	w.Run("undo")
	for _, n := range tears {
		_, before, _ := j.FindDamage(n)
		if _, after, _ := w.session.Job().FindDamage(n); len(after.Mends) != len(before.Mends) {
			t.Errorf("tear %d is not as it was: one undo should take all back", n)
		}
	}
}
