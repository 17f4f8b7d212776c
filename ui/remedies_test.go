package ui

import (
	"reflect"
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

// actRows returns the rows that a list of problems offers under one of them.
func actRows(o fyne.CanvasObject) []*pressRow {
	var out []*pressRow
	for _, c := range o.(*fyne.Container).Objects {
		out = append(out, c.(*pressRow))
	}
	return out
}

func TestEveryActOfferedResolvesItsProblemAsOneStep(t *testing.T) {
	w := withBoth(t)
	a := traceTear(t, w, at(200, 512), at(205, 440))
	traceTear(t, w, at(214, 512), at(216, 440))
	traceTear(t, w, at(230, 512), at(232, 499))
	traceTear(t, w, at(250, 512), at(252, 499))
	traceTear(t, w, at(270, 512), at(272, 499))
	w.session.EditDamages("own tissue", func(d mendplan.Damage) mendplan.Damage {
		return d.WithMend(func(m *mendplan.Mend) { m.Tissue = "gone" })
	})
	offered := map[mendplan.ProblemKind]int{}
	problems := w.session.Problems()
	w.side.showProblems()
	under := func(i int) []*pressRow { // the rows of acts in the list
		var boxes []fyne.CanvasObject
		for _, o := range w.side.problems.box.Objects {
			if c, ok := o.(*fyne.Container); ok {
				boxes = append(boxes, c)
			}
		}
		return actRows(boxes[i])
	}
	for i, pr := range problems {
		for k := range under(i) {
			if len(remediesFor(pr)) > 0 {
				continue
			}
			w.side.showProblems()
			row := under(i)[k]
			before := w.session.rev
			if w.win.Canvas().Focus(row); !row.focused {
				t.Fatal("an act cannot be reached by key")
			}
			row.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
			offered[pr.Kind]++
			if w.session.rev == before || w.session.history.UndoLabel() != "resolve a problem" {
				t.Errorf("%s: act %d does nothing", say(pr.Words), k)
			}
			for _, left := range w.session.Problems() {
				if left.Kind == pr.Kind && left.Damage == pr.Damage && slices.Equal(left.Joins, pr.Joins) {
					t.Errorf("act %d leaves: %s", k, say(left.Words))
				}
			}
			w.Run("undo")
			if !reflect.DeepEqual(w.session.Problems(), problems) {
				t.Fatal("undo does not bring the problems back")
			}
		}
	}
	for _, kind := range []mendplan.ProblemKind{mendplan.OtherDamage, mendplan.EdgeRun, mendplan.NoTissue} {
		if offered[kind] == 0 {
			t.Errorf("nothing is offered for %q among %v of %v", kind, offered, problems)
		}
	}
	w.session.Select(a)
	w.deleteChosen()
	if w.resolve(problems[0], "Join these pieces") {
		t.Error("an act that does not help any more is done")
	}
}

func TestWhatOnlyAPersonCanDoIsACommand(t *testing.T) {
	w := withBoth(t)
	for kind, commands := range map[mendplan.ProblemKind][]string{mendplan.NoScale: {"scale-file", "scale-points"},
		mendplan.ScanMissing: {"find-moved", "scan-for-side"}, mendplan.ScanChanged: {"check-scan", "scan-for-side"}, mendplan.NoStock: {"not-placed"}} {
		all := remediesFor(mendplan.Problem{Kind: kind})
		if len(all) != len(commands) || len(actRows(w.remedyRows(mendplan.Problem{Kind: kind}, 0))) != len(all) {
			t.Fatalf("%s: %v", kind, all)
		}
		for i, r := range all {
			if r.command != commands[i] || w.command(r.command) == nil || r.words == "" {
				t.Errorf("%s: %v, want %s", kind, r, commands[i])
			}
		}
	}
	w.runRemedy(remedy{"", "scale-points"}, mendplan.Problem{Leaf: mustLeaf(t, w).ID, Side: mendplan.Back})
	if w.session.Side() != mendplan.Back || w.surface.Tool() != leafview.CalibrateTool {
		t.Errorf("%s, tool %v", w.session.Side(), w.surface.Tool())
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
