package ui

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
)

func TestEachProblemIsResolvedByOneAct(t *testing.T) {
	w := withBoth(t)
	a := traceTear(t, w, at(200, 512), at(205, 500))
	b := traceTear(t, w, at(230, 512), at(232, 499))
	leaf := mustLeaf(t, w)
	one := func(pr mendplan.Problem) {
		t.Helper()
		pr.Leaf, pr.Side = leaf.ID, mendplan.Front
		all := remediesFor(pr)
		if len(all) == 0 || w.remedyButtons(pr) == nil {
			t.Fatalf("%s: nothing is offered", pr.Kind)
		}
		before := w.session.rev
		all[0].run(w, pr)
		if w.session.rev == before {
			t.Errorf("%s: %q does nothing", pr.Kind, all[0].words)
		}
		if w.asking() {
			w.closeDialog()
		}
	}
	one(mendplan.Problem{Kind: mendplan.EdgeRun, Joins: []int{a, b}})
	if l := mustLeaf(t, w); len(l.Damages) != 3 || l.Damages[2].Kind != mendplan.Nicks || !l.Damages[0].NoMend {
		t.Errorf("nicks: %+v", l.Damages)
	}
	w.Run("undo")
	one(mendplan.Problem{Kind: mendplan.Crowded, Damage: a, Joins: []int{a, b}})
	w.Run("undo")
	one(mendplan.Problem{Kind: mendplan.PrintCovered, Damage: a})
	one(mendplan.Problem{Kind: mendplan.SameLine, Damage: a})
	one(mendplan.Problem{Kind: mendplan.OtherDamage, Damage: a})
	one(mendplan.Problem{Kind: mendplan.GrainConflict, Damage: a})
	_, d, _ := w.session.Job().FindDamage(a)
	if d.Mends[0].Rules[mendplan.GrainRule].Word != "as the leaf" || d.Mends[0].Side == "" {
		t.Errorf("the mend is %+v", d.Mends[0])
	}
	if remediesFor(mendplan.Problem{Kind: mendplan.NoScale}) == nil || remediesFor(mendplan.Problem{Kind: mendplan.ScanMissing}) == nil {
		t.Error("scale and scan have no remedy")
	}
}

func TestWhatIsTracedIsNotProposedOnceMore(t *testing.T) {
	w := withBoth(t)
	ring := []geom.Pt{at(100, 100), at(140, 100), at(140, 140), at(100, 140)}
	j, _ := w.session.Job().AddDamage(mustLeaf(t, w).ID, mendplan.Damage{Kind: mendplan.Loss, Side: mendplan.Front, Points: ring})
	w.session.Do("trace loss", j)
	moved := []geom.Pt{at(105, 102), at(105, 141), at(143, 141), at(143, 102)} // the other way round
	far := []geom.Pt{at(200, 200), at(240, 200), at(240, 240)}
	w.showProposals([]scan.Proposal{{Kind: scan.KindHole, Polygon: moved, Confidence: 0.9}, {Kind: scan.KindHole, Polygon: far, Confidence: 0.9}})
	traceTear(t, w, at(300, 512), at(310, 450))
	torn := scan.Proposal{Kind: scan.KindEdgeTear, Path: []geom.Pt{at(302, 511), at(311, 460)}, Confidence: 0.7}
	other := scan.Proposal{Kind: scan.KindEdgeTear, Path: []geom.Pt{at(200, 511), at(210, 460)}, Confidence: 0.7}
	w.showProposals([]scan.Proposal{torn, other})
	if len(w.proposals) != 1 || w.proposals[0].ID != 2 || !w.proposals[0].Open {
		t.Errorf("tears proposed: %+v", w.proposals)
	}
	w.acceptAll()
	if all := mustLeaf(t, w).Damages; all[len(all)-1].Kind != mendplan.Tear || len(all[len(all)-1].Points) != 2 {
		t.Errorf("accepted: %+v", all)
	}
	w.showProposals([]scan.Proposal{{Kind: scan.KindHole, Polygon: moved, Confidence: 0.9}, {Kind: scan.KindHole, Polygon: far, Confidence: 0.9}})
	if len(w.proposals) != 1 || w.proposals[0].ID != 2 {
		t.Errorf("proposed: %+v", w.proposals)
	}
}
