package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan/course"
)

func TestTheEstimateSaysHowFarTheTissueGoes(t *testing.T) {
	w := testWindow(t)
	withSample(t, w)
	w.showStage(stageEstimate)
	p := w.panels[stageEstimate].(*estimatePanel).far
	j, plan := w.session.Job(), w.session.Plan()
	order, leaves := course.OrderList(j, plan), course.CostByLeaf(j, plan)
	if len(order) == 0 || len(p.order.Objects) != 2*len(order) {
		t.Errorf("%d tissues to have, %d lines", len(order), len(p.order.Objects))
	}
	if len(leaves) == 0 || len(p.leaves.rows) != len(leaves) {
		t.Errorf("%d leaves, %d lines", len(leaves), len(p.leaves.rows))
	}
	said := p.order.Objects[1].(*widget.Label).Text
	if !strings.Contains(said, "opened") || !strings.Contains(said, "order") {
		t.Errorf("of the first tissue it says %q", said)
	}
	p.compare()
	if len(w.dialogs) != 1 {
		t.Fatalf("%d dialogs show the ways", len(w.dialogs))
	}
	if !w.closeDialog() || len(w.dialogs) != 0 {
		t.Error("Escape leaves the ways on screen")
	}
}
