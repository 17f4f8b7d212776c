package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
)

func TestTheFocusOfAnAnswerIsSeen(t *testing.T) {
	w := testWindow(t)
	w.confirm("Title", "Yes", "No", widget.NewLabel("Question"), fyne.NewSize(300, 200), func(bool) {})
	ok, _ := w.win.Canvas().Focused().(*answerButton)
	if ok == nil {
		t.Fatal("no answer has the focus")
	}
	ring := func() *ringed { return test.WidgetRenderer(ok).(*ringed) }
	if r := ring().ring; r.Hidden || r.Size() != ok.Size() || r.StrokeWidth < 2 {
		t.Errorf("hidden %v, %v wide of %v", r.Hidden, r.Size(), ok.Size())
	}
	w.win.Canvas().FocusNext()
	if !ring().ring.Hidden {
		t.Error("the ring stays when the focus has gone on")
	}
}

func TestStockThatIsAddedIsFilledInAtOnce(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	w.showStage(stageStock)
	p := w.panels[stageStock].(*stockPanel)
	p.addTissue()
	j := w.session.Job()
	p.addStock(j.Tissues[0].ID)
	stock := w.session.Job().Stock
	added := stock[len(stock)-1]
	if f, _ := w.win.Canvas().Focused().(*textField); f == nil || f != p.firsts[added.ID] {
		t.Errorf("the keyboard is with %T, not with the length of %s", w.win.Canvas().Focused(), added.ID)
	}
}

func TestArrowsChooseTheSheetThatIsDrawn(t *testing.T) {
	at := 0
	l := newList(func() int { return 3 }, func() fyne.CanvasObject { return widget.NewLabel("") }, func(int, fyne.CanvasObject) {})
	l.at = func() int { return at }
	l.OnSelected = func(i int) { at = i }
	for _, step := range []struct {
		key  fyne.KeyName
		want int
	}{{fyne.KeyDown, 1}, {fyne.KeyDown, 2}, {fyne.KeyDown, 2}, {fyne.KeyHome, 0}, {fyne.KeyUp, 0}, {fyne.KeyEnd, 2}, {fyne.KeyUp, 1}} {
		if l.TypedKey(&fyne.KeyEvent{Name: step.key}); at != step.want {
			t.Errorf("%s chooses %d, want %d", step.key, at, step.want)
		}
	}
}

func TestTheFirstFieldIsTheFirstOneReads(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	w.showStage(stageMends)
	if p := w.panels[stageMends].(*mendsPanel); firstField(p.content()) != fyne.Focusable(p.find) {
		t.Errorf("Mends: %T", firstField(p.content()))
	}
	w.showStage(stageStock)
	p := w.panels[stageStock].(*stockPanel)
	p.addTissue()
	if f, ok := firstField(p.content()).(*textField); !ok || f.Text != firstTissue(w) {
		t.Errorf("Tissues: %T", firstField(p.content()))
	}
	if f := firstField(newButton("only", nil)); f == nil {
		t.Error("where there is only a button, nothing is found")
	}
}

// firstTissue is the name of the job's first tissue.
func firstTissue(w *Window) string { return w.session.Job().Tissues[0].Name }

func TestTheKeyOfAStageGivesItsDrawingTheKeyboardAgain(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	w.showStage(stageCuts)
	p := w.panels[stageCuts].(*cutsPanel)
	for _, other := range []fyne.Focusable{p.steps, p.list} {
		w.win.Canvas().Focus(other)
		w.Run("stage-cuts")
		if f := w.win.Canvas().Focused(); f != fyne.Focusable(p.draw) {
			t.Errorf("from %T the keyboard goes to %T", other, f)
		}
	}
}
