package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
)

func TestWhatTakesTheKeyboardIsScrolledIntoSight(t *testing.T) {
	w := testWindow(t)
	rows := container.NewVBox()
	var fields []fyne.CanvasObject
	for i := range 40 {
		var f fyne.CanvasObject = newTextField(nil)
		switch i % 3 {
		case 1:
			f = newButton("press", nil)
		case 2:
			f = newCheck("check", nil)
		}
		fields = append(fields, f)
		rows.Add(container.NewBorder(nil, nil, nil, nil, f))
	}
	scroll := container.NewVScroll(rows)
	win := test.NewTempWindow(t, container.NewHSplit(container.NewBorder(small("above"), nil, nil, nil, scroll), small("beside")))
	win.Resize(fyne.NewSize(400, 300))
	abs := w.app.Driver().AbsolutePositionForObject
	for _, i := range []int{20, 39, 1, 0, 30} {
		win.Canvas().Focus(fields[i].(fyne.Focusable))
		top := abs(fields[i]).Y - abs(scroll).Y
		if bottom := top + fields[i].Size().Height; top < 0 || bottom > scroll.Size().Height {
			t.Errorf("field %d lies from %g to %g of %g", i, top, bottom, scroll.Size().Height)
		}
	}
}

func TestTheButtonOfBothSidesShowsWhatIs(t *testing.T) {
	w := withBoth(t)
	for _, want := range []bool{true, false} {
		w.Run("side-by-side")
		if w.beside.on != want || w.trace.both.chosen != want {
			t.Errorf("both sides %v, the button shows %v, want %v", w.beside.on, w.trace.both.chosen, want)
		}
	}
}

func TestWhatIsHiddenLetsGoOfTheKeyboard(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	c := w.win.Canvas()
	p := w.showWork(workBefore)
	first := firstField(p.content())
	c.Focus(first)
	w.showWork(workPaste)
	if c.Focused() == first {
		t.Error("a page that is hidden keeps the keyboard")
	}
	c.Focus(firstField(p.content()))
	if f := c.Focused(); f == nil || f == first {
		t.Fatalf("the page shown gives %T", f)
	}
	w.showStage(stageEstimate)
	if f := c.Focused(); f != nil {
		t.Errorf("%T keeps the keyboard", f)
	}
}
