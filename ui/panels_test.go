package ui

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan"
	"leafmend/mendplan/pdf"
)

func TestDetailsTellSideAndTissueThatWereAdvised(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	piece := w.session.PiecesOf(n)[0]
	if got := w.side.details.form.side.Selected; !strings.Contains(got, sideShort(piece.Side)) {
		t.Errorf("the details say %q, the piece is on the %s", got, piece.Side)
	}
	tissue, _ := w.session.Job().Tissue(piece.Tissue)
	if got := w.side.details.form.tissue.Selected; !strings.Contains(got, tissue.Name) {
		t.Errorf("the details say %q, the piece is of %s", got, tissue.Name)
	}
}

func TestChangingTheSideMovesThePiece(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	before := w.session.PiecesOf(n)[0].Side
	w.Run("mend-side")
	if after := w.session.PiecesOf(n)[0].Side; after != before.Other() {
		t.Errorf("the piece went from %s to %s", before, after)
	}
}

func TestEachStyleShowsItsMeasures(t *testing.T) {
	for _, kind := range mendplan.MendedKinds() {
		for _, style := range mendplan.StylesFor(kind) {
			if len(rulesOf(style)) == 0 {
				t.Errorf("%s for %s shows no measure", style, kind)
			}
			for _, key := range rulesOf(style) {
				if _, ok := mendplan.RuleFor(key); !ok {
					t.Errorf("%s names the unknown rule %s", style, key)
				}
			}
		}
	}
}

func TestNumbersAreTypedWithUnits(t *testing.T) {
	rule, _ := mendplan.RuleFor(mendplan.SideMargin)
	for _, c := range []struct {
		typed string
		units mendplan.Units
		want  float64
	}{{"9.5 mm", mendplan.Millimetres, 9.5}, {"3/8 in", mendplan.Millimetres, 9.525}, {"3/8", mendplan.Inches, 9.525}, {"7", mendplan.Millimetres, 7}} {
		if got, err := parseRule(c.typed, rule, c.units); err != nil || math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%q gives %v, %v; want %v", c.typed, got, err, c.want)
		}
	}
	percent, _ := mendplan.RuleFor(mendplan.PasteStrength)
	if got, err := parseRule("12,5 %", percent, mendplan.Millimetres); err != nil || got != 12.5 {
		t.Errorf("12,5 %% gives %v, %v", got, err)
	}
	if _, err := parseRule("wide", percent, mendplan.Millimetres); err == nil {
		t.Error("a word was taken for a number")
	}
}

func TestAWrongNumberIsToldAndChangesNothing(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	row := w.side.details.form.rules[0]
	row.typed("400 mm", true)
	if _, _, departs := row.rowSet.now(row.rule); departs {
		t.Error("a margin of 400 mm was taken")
	}
	if !strings.Contains(row.basis.Text, "Allowed") {
		t.Errorf("the row says %q", row.basis.Text)
	}
}

func TestAScanWithoutResolutionIsSaidLoudly(t *testing.T) {
	w := testWindow(t)
	w.addScans([]string{writeScan(t, t.TempDir(), "leaf.png")})
	if got := w.trace.scale.text; got != "NO SCALE" {
		t.Errorf("the chip says %q", got)
	}
	if !w.trace.ribbon.box.Visible() {
		t.Error("no ribbon warns")
	}
	edge := w.session.Job().Leaves[0].Front.TrueEdge
	if len(edge) != 4 {
		t.Fatalf("the edge has %d corners", len(edge))
	}
	// drawn from (40,40) to (434,512)
	if d := edge[0].X - 40; d > 4 || d < -4 {
		t.Errorf("the left edge was found at %.1f px, drawn at 40", edge[0].X)
	}
}

func TestScansOfAFolderArePairedByName(t *testing.T) {
	w := testWindow(t)
	dir := t.TempDir()
	for _, n := range []string{"1-front.png", "1-back.png", "2-front.png", "2-back.png"} {
		writeScan(t, dir, n)
	}
	w.addScans([]string{dir})
	if !w.asking() {
		t.Fatal("several scans were added without a preview")
	}
}

func TestSheetsAreNumberedAsOnThePrint(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	w.Run("stage-cuts")
	panel := w.panels[stageCuts].(*cutsPanel)
	if len(panel.sheets) != 1 || panel.sheets[0].number != 1 {
		t.Fatalf("there are %d sheets", len(panel.sheets))
	}
	var labels []string
	for _, p := range panel.sheets[0].sheet.Places {
		labels = append(labels, p.Blank)
	}
	if want := w.session.PiecesOf(n)[0].Label; !slices.Contains(labels, want) {
		t.Errorf("%s is not among %v", want, labels)
	}
}

func TestAStageReadsTheJobWhenItIsShown(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	for s := stageTrace; s <= stageWork; s++ {
		w.showStage(s)
		if w.stage != s {
			t.Errorf("stage %d does not show", s)
		}
	}
	mends := w.makePanel(stageMends).(*mendsPanel)
	mends.refresh()
	if len(mends.table.rows) != 1 {
		t.Errorf("the table has %d rows, want 1", len(mends.table.rows))
	}
	mends.find.SetText("no such thing")
	if len(mends.table.rows) != 0 {
		t.Error("the filter lets everything through")
	}
}

func TestThePrintedSetIsWritten(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	path := filepath.Join(t.TempDir(), "set.pdf")
	w.writePDF(path, w.session.Job(), pdf.BenchSet(), false)
	data, err := os.ReadFile(path)
	if err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("no PDF was written: %v", err)
	}
}

func TestNothingIsWiderThanASmallScreen(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	for s := stageTrace; s <= stageWork; s++ {
		w.showStage(s)
		if m := w.win.Content().MinSize(); m.Width > 1024 || m.Height > 700 {
			t.Errorf("stage %d needs %.0f × %.0f, a small screen has 1024 × 700", s, m.Width, m.Height)
		}
	}
}

func TestASecondMendLiesOnTheOtherSide(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	n := trace(t, w)
	w.session.EditDamages("mend both sides", func(d mendplan.Damage) mendplan.Damage { return withSecond(d, true) })
	sides := map[mendplan.SideName]bool{}
	for _, p := range w.session.PiecesOf(n) {
		sides[p.Side] = true
	}
	if !sides[mendplan.Front] || !sides[mendplan.Back] {
		t.Errorf("the pieces lie on %v", sides)
	}
	w.session.EditDamages("mend both sides", func(d mendplan.Damage) mendplan.Damage { return withSecond(d, false) })
	if d, _ := w.session.Damage(); len(d.Mends) != 0 {
		t.Errorf("taking the second mend away left %v", d.Mends)
	}
}

func TestEveryExportIsWritten(t *testing.T) {
	w := testWindow(t)
	withLeaf(t, w)
	trace(t, w)
	leaf, _ := w.session.Leaf()
	for _, form := range exportForms() {
		var b bytes.Buffer
		if err := form.write(&b, w.session.Job(), w.session.Plan(), leaf, mendplan.Front); err != nil || b.Len() < 20 {
			t.Errorf("%s: %d bytes, %v", form.words, b.Len(), err)
		}
	}
}

func TestColumnsTakeTheRoomTheirWordsAsk(t *testing.T) {
	testWindow(t)
	table := newWordTable([]column{{"kind", 100}, {"note", 100}}, nil)
	table.show([][]string{{"a rather long kind", ""}, {"x", ""}})
	table.Resize(fyne.NewSize(300, 200))
	words := fyne.MeasureText("a rather long kind", theme.TextSize(), fyne.TextStyle{}).Width
	if table.want[0] < words || table.want[1] >= table.want[0] || table.want[1] < 45 {
		t.Errorf("the columns ask for %v, the words need %.0f", table.want, words)
	}
	many := newWordTable([]column{{"no.", 50}, {"kind", 150}, {"note", 150}}, nil)
	many.show([][]string{{"2000", "a rather long kind", "a rather long note"}})
	many.Resize(fyne.NewSize(250, 200))
	if number := fyne.MeasureText("2000", theme.TextSize(), fyne.TextStyle{}).Width; many.wide[0] < number+theme.InnerPadding()*2 || many.wide[0]+many.wide[1]+many.wide[2] > 250 {
		t.Errorf("in 250 the columns have %v", many.wide)
	}
}
