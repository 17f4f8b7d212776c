package ui

import (
	"image/color"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

func TestTheSwellOfAGatheringIsShown(t *testing.T) {
	w := withBoth(t)
	leaf := mustLeaf(t, w)
	leaf.Kind = mendplan.Bifolium
	w.session.Do("change kind of leaf", w.session.Job().WithLeaf(leaf))
	traceTear(t, w, geom.Pt{X: 300, Y: 200}, geom.Pt{X: 360, Y: 220})
	if !w.Run("swell") || !w.asking() {
		t.Fatalf("nothing is shown: %q", w.status.outcome)
	}
	w.closeDialog()
	s := mendplan.Swells(w.session.Job(), w.session.Plan().Pieces)[0]
	img := swellMap(s)
	worst, empty := 0, 0
	for y := range img.Bounds().Dy() {
		for x := range img.Bounds().Dx() {
			switch img.At(x, y) {
			case color.Color(swellShades[len(swellShades)-1]):
				worst++
			case color.Color(color.RGBA{252, 250, 244, 255}):
				empty++
			}
		}
	}
	if worst == 0 || empty < worst {
		t.Errorf("%d pixels at the most, %d bare: one tear's tissue lies on little of the leaf", worst, empty)
	}
}
