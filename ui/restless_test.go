package ui

import (
	"fmt"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// TestALayoutOfTheSameSizeMakesNothingNew holds every widget of every stage
// against a rule of the toolkit: each frame it lays out anew whatever holds an
// object it has not seen before. A widget that makes its lines anew whenever
// it is laid out is then laid out and painted for ever, and the machine never
// comes to rest.
func TestALayoutOfTheSameSizeMakesNothingNew(t *testing.T) {
	w := testWindow(t)
	withSample(t, w)
	seen := map[string]bool{}
	check := func(where string, o fyne.CanvasObject) {
		walk(o, "", func(path string, o fyne.CanvasObject) {
			wid, ok := o.(fyne.Widget)
			if !ok || !o.Visible() {
				return
			}
			seen[fmt.Sprintf("%T", wid)] = true
			r := test.WidgetRenderer(wid)
			r.Layout(wid.Size())
			before := slices.Clone(r.Objects())
			r.Layout(wid.Size())
			if !slices.Equal(before, r.Objects()) {
				t.Errorf("%s: %s makes new objects when it is laid out at the size it has", where, path)
			}
		})
	}
	w.selectAll() // so that the cut list shows where its pieces go
	for s := stageTrace; s <= stageWork; s++ {
		w.showStage(s)
		check(fmt.Sprintf("stage %d", s), w.win.Content())
	}
	for page := range 6 {
		w.panels[stageWork].(*workPanel).show(workPage(page))
		check(fmt.Sprintf("work, page %d", page), w.win.Content())
	}
	for page := range 2 {
		w.showStage(stageOrder)
		w.panels[stageOrder].(*orderPanel).show(orderPage(page))
		check(fmt.Sprintf("order, page %d", page), w.win.Content())
	}
	for _, id := range []string{"swell", "side-by-side", "help", "settings", "print", "licences", "library"} {
		if w.command(id) == nil {
			t.Fatalf("there is no command %q", id)
		}
		w.Run(id)
		if top := w.win.Canvas().Overlays().Top(); top != nil {
			check(id, top)
			w.closeDialog()
		} else {
			check(id, w.win.Content())
		}
	}
	for _, want := range []string{"*ui.leafGlance", "*ui.sheetDrawing", "*ui.gatheringDrawing", "*leafview.Surface"} {
		if !seen[want] {
			t.Errorf("no %s was among what was looked at", want)
		}
	}
}
