package ui

import (
	"fmt"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"leafmend/assets"
)

// walk calls do with every object that can be seen.
func walk(o fyne.CanvasObject, path string, do func(path string, o fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	path += fmt.Sprintf("/%T", o)
	do(path, o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			walk(c, path, do)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			walk(c, path, do)
		}
	}
}

// TestNothingHasANegativeSize looks, in every language, at small and large
// text and on every stage, for what is squeezed to less than nothing: a
// painter falls over it, and a person sees it cut off.
func TestNothingHasANegativeSize(t *testing.T) {
	for _, l := range assets.Languages() {
		for _, text := range []TextSize{NormalText, HugeText} {
			w := withBoth(t)
			w.settings.SetLanguage(l.Code)
			w.settings.SetTextSize(text)
			win := test.NewTempWindow(t, nil)
			w = build(w.app, win, Options{}, worker{inPlace: true})
			t.Cleanup(func() { useLanguage("en") })
			w.newJob()
			withLeaf(t, w)
			traceTear(t, w, at(300, 200), at(360, 220))
			for _, size := range []fyne.Size{{Width: 1024, Height: 700}, {Width: 1280, Height: 800}} {
				win.Resize(size)
				for s := stageTrace; s <= stageWork; s++ {
					w.showStage(s)
					walk(win.Content(), "", func(path string, o fyne.CanvasObject) {
						if z := o.Size(); z.Width < 0 || z.Height < 0 {
							t.Errorf("%s, text %q, stage %d at %v: %s is %v", l.Code, text, s, size, path, z)
						}
					})
				}
			}
		}
	}
}
