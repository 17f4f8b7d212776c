package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2/test"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// typeInDialog writes into the fields of the dialog in front, in their order,
// and presses a button.
func typeInDialog(t *testing.T, w *Window, button string, texts ...string) {
	t.Helper()
	n := 0
	for _, o := range test.LaidOutObjects(w.win.Canvas().Overlays().Top()) {
		if e, ok := o.(*dialogEntry); ok && n < len(texts) {
			e.SetText(texts[n])
			n++
		}
	}
	if n < len(texts) {
		t.Fatalf("the dialog has %d fields, want %d", n, len(texts))
	}
	pressIn(t, w, button)
	if w.asking() {
		t.Fatalf("%v is not taken", texts)
	}
}

// TestEveryLengthIsTypedInAnyUnit types ⅜ and 3¾ inches in three ways into
// every field that takes a length, in a job of millimetres and one of inches.
func TestEveryLengthIsTypedInAnyUnit(t *testing.T) {
	for _, units := range []mendplan.Units{mendplan.Millimetres, mendplan.Inches} {
		w := withBoth(t)
		j := w.session.Job()
		j.Units = units
		j.Tissues = []mendplan.Tissue{{ID: "T", Name: "kozo", Grammage: 5}}
		j.Stock = []mendplan.Stock{{ID: "S", Tissue: "T", Kind: mendplan.SheetStock, LengthMM: 900, WidthMM: 600, Count: 1}}
		w.session.Do("set up", j)
		traceTear(t, w, at(200, 300), at(240, 330))
		leaf := func() mendplan.Leaf { return mustLeaf(t, w) }
		damage := func() mendplan.Damage { d, _ := w.session.Damage(); return d }
		stockField := func(mm float64) *textField {
			w.showStage(stageStock)
			for _, o := range test.LaidOutObjects(w.win.Content()) {
				if f, ok := o.(*textField); ok && f.Text == units.Length(mm) {
					return f
				}
			}
			t.Fatalf("no field shows %s", units.Length(mm))
			return nil
		}
		margin := w.side.details.form.rules[0]
		for name, field := range map[string]struct {
			typed func(string)
			got   func() float64
			large bool // ⅜ inch would be nonsense here
		}{
			"the margin of a mend": {func(s string) { margin.typed(s, true) },
				func() float64 { return inForceOf(w.session.Job(), damage()).Number(margin.rule.Key) }, false},
			"the overlap of torn faces": {w.side.details.form.scarf.typed, func() float64 { return damage().Scarf.OverlapMM }, false},
			"the fold of a leaf":        {func(s string) { w.side.leaf.fold.done(s) }, func() float64 { return leaf().FoldMM }, true},
			"the length of a sheet":     {func(s string) { stockField(w.session.Job().Stock[0].LengthMM).done(s) }, func() float64 { return w.session.Job().Stock[0].LengthMM }, true},
			"the size of a leaf": {func(s string) { w.scaleBySize(); typeInDialog(t, w, "Set the scale", s, s) },
				func() float64 { return leaf().Front.Calibration.MMPerPxX * 394 }, true},
			"the distance of two points": {func(s string) {
				w.scaleByPoints(geom.Pt{X: 40, Y: 100}, geom.Pt{X: 434, Y: 100})
				typeInDialog(t, w, "Set the scale", s)
			}, func() float64 { return leaf().Front.Calibration.MMPerPxX * 394 }, true},
			"the line on the screen": {func(s string) { w.measureScreen(); typeInDialog(t, w, "Set", s) },
				func() float64 { return barUnits * 25.4 / w.settings.ScreenPPI() * float64(w.win.Canvas().Scale()) }, true},
			"the bars of a print": {func(s string) {
				mm, err := barOf(s)
				if err != nil {
					t.Error(err)
				}
				p := w.settings.Printer()
				p.BarAcross = mm
				w.settings.SetPrinter(p)
			}, func() float64 { return w.settings.Printer().BarAcross }, true},
		} {
			texts, want := []string{"3/8 in", "9.525 mm", "9,525 mm", "0.375 in"}, 9.525
			if field.large {
				texts, want = []string{"3 3/4 in", "95.25 mm", "95,25 mm", "3.75 in"}, 95.25
			}
			for _, text := range texts {
				field.typed(text)
				if got := field.got(); math.Abs(got-want) > 0.01 {
					t.Errorf("%s, job in %s: “%s” gives %.4f mm, want %.3f", name, units, text, got, want)
				}
			}
		}
	}
}
