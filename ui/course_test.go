package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/course"
)

// workOf opens the stage of the work with two leaves in the job.
func workOf(t *testing.T) (*Window, *workPanel) {
	t.Helper()
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	withLeaf(t, w)
	w.Run("stage-work")
	return w, w.panels[stageWork].(*workPanel)
}

func TestAStepIsRecordedForEveryLeafChosenAsOneStep(t *testing.T) {
	w, p := workOf(t)
	if !p.form.button.Disabled() {
		t.Error("a step could be recorded for no leaf")
	}
	p.chooseAll(true)
	p.form.by.SetText("A. B.")
	test.Tap(p.form.button)
	j := w.session.Job()
	if len(j.Steps) != 2 || j.Steps[0].Kind != mendplan.Surveyed || j.Steps[0].By != "A. B." || j.Steps[0].Date == "" {
		t.Fatalf("recorded %+v", j.Steps)
	}
	w.Run("undo")
	if n := len(w.session.Job().Steps); n != 0 {
		t.Errorf("after one undo %d steps are left", n)
	}
}

func TestAStepNeedsANameAndADay(t *testing.T) {
	w, p := workOf(t)
	p.chooseAll(true)
	test.Tap(p.form.button)
	if len(w.session.Job().Steps) != 0 {
		t.Error("a step by nobody was recorded")
	}
	p.form.by.SetText("A. B.")
	p.form.day.SetText("yesterday")
	test.Tap(p.form.button)
	if len(w.session.Job().Steps) != 0 {
		t.Error("a step of no day was recorded")
	}
}

func TestAWetStepAsksFirstAndTheAnswerDecides(t *testing.T) {
	w, p := workOf(t)
	p.toggle(0)
	p.form.by.SetText("A. B.")
	p.form.kind.pickForTest(string(mendplan.Washed))
	if !p.form.bathBox.Visible() || p.form.testBox.Visible() || !strings.Contains(p.form.cautions.Text, course.Defer) {
		t.Error("washing shows no bath, a test, or no caution")
	}
	test.Tap(p.form.button)
	if w.win.Canvas().Overlays().Top() == nil || len(w.session.Job().Steps) != 0 {
		t.Fatal("washing without a test was recorded without asking")
	}
	w.win.Canvas().Overlays().Top().Hide()

	p.form.kind.pickForTest(string(mendplan.Tested))
	p.form.test["Medium"].SetText("red ink")
	p.form.test["Seconds"].SetText("thirty")
	test.Tap(p.form.button)
	if len(w.session.Job().Steps) != 0 {
		t.Error("a number in words was taken")
	}
	p.form.test["Seconds"].SetText("30")
	test.Tap(p.form.button)
	if s := w.session.Job().Steps; len(s) != 1 || s[0].Test == nil || s[0].Test.Seconds != 30 || s[0].Test.Result != mendplan.Stable {
		t.Fatalf("recorded %+v", s)
	}
	p.form.kind.pickForTest(string(mendplan.Washed))
	test.Tap(p.form.button)
	if s := w.session.Job().Steps; len(s) != 2 || s[1].Bath == nil {
		t.Errorf("washing after a test that held was not recorded: %+v", s)
	}
}

// pickForTest chooses as a user does.
func (c *choiceField) pickForTest(id string) {
	for i, have := range c.ids {
		if have == id {
			c.SetSelectedIndex(i)
		}
	}
}

func TestPasteIsWeighedCookedAndThrownAway(t *testing.T) {
	w, p := workOf(t)
	p.show(workPaste)
	b := p.paste
	b.recipe.pickForTest("loc")
	b.grams.SetText("457")
	if !strings.Contains(b.weigh.Text, "57.0 g starch") || !strings.Contains(b.weigh.Text, "Library of Congress") {
		t.Errorf("weigh: %q", b.weigh.Text)
	}
	b.cooked()
	j := w.session.Job()
	if len(j.Batches) != 1 || j.Batches[0].UseBy <= j.Batches[0].Made || j.Batches[0].Grams != 457 {
		t.Fatalf("batches %+v", j.Batches)
	}
	b.discard(0)
	if w.session.Job().Batches[0].Discarded == "" {
		t.Error("the batch is not thrown away")
	}
	b.area.SetText("1000")
	b.dry.SetText("0.005")
	b.wet.SetText("0.125")
	b.sample()
	b.useLearnt()
	if got := (mendplan.InForce{Job: w.session.Job().Rules}).Number(mendplan.WetCoat); got < 119 || got > 121 {
		t.Errorf("learnt %.1f g/m², want 120", got)
	}
}

func TestTheDaysFollowTheFirstDayAndTheBlotters(t *testing.T) {
	w, p := workOf(t)
	p.show(workDays)
	p.days.setStart("2026-03-05")
	p.days.setRoom(4, "4")
	if len(p.days.plan.Slots) != 1 || p.days.plan.PerDay != 2 || !strings.Contains(p.days.sums.Text, "blotters") {
		t.Errorf("plan %+v: %s", p.days.plan, p.days.sums.Text)
	}
	p.days.setStart("soon")
	p.days.setRoom(4, "many")
	if j := w.session.Job(); j.StartDate != "2026-03-05" || j.Press.Blotters != 4 {
		t.Errorf("words were taken for a day or a number: %q, %d", j.StartDate, j.Press.Blotters)
	}
}

func TestGatheringsAreProposedPutRightAndChecked(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	withLeaf(t, w)
	w.Run("stage-order")
	p := w.panels[stageOrder].(*orderPanel)
	p.propose()
	gs := w.session.Job().Gatherings
	if len(gs) != 1 || len(gs[0].Sheets) != 2 || gs[0].Sheets[0].Half != mendplan.SecondHalf {
		t.Fatalf("proposed %+v", gs)
	}
	p.choose(0)
	first := gs[0].Sheets[0].Leaf
	p.editor.move(1)
	if got := w.session.Job().Gatherings[0].Sheets[1].Leaf; got != first {
		t.Errorf("moved inwards, sheet 2 holds %s, want %s", got, first)
	}
	p.editor.setFirst("17")
	formula := p.formula.Text
	w.Run("order-check")
	if !strings.Contains(formula, "2 leaves, 4 pages") || p.check.laid[1].Right != "17" {
		t.Errorf("%s, page right %q", formula, p.check.laid[1].Right)
	}
	p.editor.setFirst("x")
	p.editor.add()
	p.editor.remove()
	p.editor.at = sheetAt{0, 9}
	p.editor.move(1)
	p.editor.sheet("nothing", func(*mendplan.SheetPlace) { t.Error("a sheet that is not there was changed") })
	if n := len(w.session.Job().Gatherings[0].Sheets); n != 2 {
		t.Errorf("%d sheets, want 2", n)
	}
	c := p.check
	c.record(false)
	if len(w.session.Job().Orders) != 0 {
		t.Error("a check by nobody was recorded")
	}
	c.by.SetText("A. B.")
	c.record(false)
	c.record(true)
	if o := w.session.Job().Orders; len(o) != 2 || o[0].Wrong || !o[1].Wrong || !strings.Contains(c.done.Text, "A. B.") {
		t.Errorf("checks %+v: %s", o, c.done.Text)
	}
	c.goTo(0)
	if got, want := c.card.title.Text, "facing up"; !strings.Contains(got, want) {
		t.Errorf("the card says %q, want what faces up", got)
	}
}
