package mendplan_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

func TestBridgesAreSpacedAndLieAcrossTheTear(t *testing.T) {
	tear := styled(traced(mendplan.Tear, geom.Pt{X: 40, Y: 100}, geom.Pt{X: 130, Y: 100}), mendplan.Bridges, nil)
	pieces, _ := mendplan.Pieces(bench(tear))
	// 90 mm long, bridges 10 mm wide, no further apart than 27 mm: four.
	if len(pieces) != 4 {
		t.Fatalf("got %d bridges, want 4", len(pieces))
	}
	var at []float64
	for _, p := range pieces {
		b := p.Outline.Bounds()
		if !within(b.Width(), 10, 0.01) || !within(b.Height(), 20, 0.01) || !within(b.Centre().Y, 100, 0.01) {
			t.Errorf("%s is %.2f × %.2f mm about y %.2f, want 10 × 20 about 100", p.Label, b.Width(), b.Height(), b.Centre().Y)
		}
		at = append(at, b.Centre().X)
	}
	slices.Sort(at)
	for k, want := range []float64{45, 45 + 80.0/3, 45 + 160.0/3, 125} {
		if !within(at[k], want, 0.01) {
			t.Errorf("bridge %d at %.2f mm, want %.2f", k+1, at[k], want)
		}
	}
}

func TestPiecesAreNumberedFromTheRootToTheEdge(t *testing.T) {
	for _, style := range []mendplan.Style{mendplan.Shaped, mendplan.Strips, mendplan.Bridges} {
		for name, points := range map[string][]geom.Pt{
			"traced from the root": {{X: 20, Y: 100}, {X: 200, Y: 100}},
			"traced from the edge": {{X: 200, Y: 100}, {X: 20, Y: 100}},
		} {
			pieces, _ := mendplan.Pieces(bench(styled(traced(mendplan.Tear, points...), style, nil)))
			for k, p := range pieces {
				if p.Order != k+1 || k > 0 && p.Outline.Bounds().Centre().X <= pieces[k-1].Outline.Bounds().Centre().X {
					t.Errorf("%s, %s: piece %s is number %d at x %.1f", style, name, p.Label, p.Order, p.Outline.Bounds().Centre().X)
				}
			}
		}
	}
}

func TestAForkedTearIsMendedFromAllItsRoots(t *testing.T) {
	d := styled(traced(mendplan.Tear, geom.Pt{X: 120, Y: 100}, geom.Pt{X: 200, Y: 100}), mendplan.Strips, nil)
	d.Forks = [][]geom.Pt{at300(geom.Pt{X: 160, Y: 103}, geom.Pt{X: 140, Y: 60})} // begins 3 mm off the main path
	pieces, problems := mendplan.Pieces(bench(d))
	c := cover(t, pieces)
	fork := []geom.Pt{{X: 160, Y: 100}, {X: 160, Y: 103}, {X: 140, Y: 60}}
	if left := uncovered(t, c, fork, 5-0.002, leafBox(leafW, leafH, 0)); left > slackMM2 {
		t.Errorf("%.3f mm² of the fork's margin is bare; problems %v", left, problems)
	}
	if last := pieces[len(pieces)-1].Outline.Bounds(); last.Max.X < leafW+10-0.01 {
		t.Errorf("the last piece ends at x %.1f, want it at the edge", last.Max.X)
	}
}

func TestASecondSmallPieceReinforcesTheEdge(t *testing.T) {
	d := traced(mendplan.Tear, geom.Pt{X: 170, Y: 100}, geom.Pt{X: 200, Y: 100})
	j := bench(d).WithRule(mendplan.EdgePieceOn, mendplan.Choice("yes"))
	pieces, _ := mendplan.Pieces(j)
	last := pieces[len(pieces)-1]
	b := last.Outline.Bounds()
	if len(pieces) != 2 || last.Role != mendplan.RoleEdge || !within(b.Min.X, 190, 0.01) || !within(b.Max.X, 210, 0.01) || !within(b.Height(), 10, 0.01) {
		t.Errorf("got %d pieces, the last %s %+v; want 10 × 10 mm on the leaf and 10 mm over", len(pieces), last.Role, b)
	}
}

func TestAHandlingTabIsLengthButNotPaste(t *testing.T) {
	d := styled(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100}), mendplan.Strips, nil)
	plain, _ := mendplan.Pieces(bench(d))
	tabbed, _ := mendplan.Pieces(bench(d).WithRule(mendplan.TabLength, mendplan.Num(5)))
	if got := tabbed[0].BlankLengthMM - plain[0].BlankLengthMM; !within(got, 5, 1e-6) {
		t.Errorf("longer by %.3f mm, want 5", got)
	}
	if !within(tabbed[0].PasteMM2, plain[0].PasteMM2, 1e-6) || !within(tabbed[0].AreaMM2-tabbed[0].PasteMM2, 50, 1e-6) {
		t.Errorf("pasted %.2f of %.2f mm², want all but 50", tabbed[0].PasteMM2, tabbed[0].AreaMM2)
	}
}

func TestARunOfNicksGetsOneStrip(t *testing.T) {
	d := traced(mendplan.Nicks, geom.Pt{X: 199, Y: 60}, geom.Pt{X: 197, Y: 100}, geom.Pt{X: 199, Y: 140})
	pieces, problems := mendplan.Pieces(bench(d))
	b := pieces[0].Outline.Bounds()
	// 5 mm deep and 5 mm of margin inside, 10 over; 5 mm past first and last.
	want := geom.Box{Min: geom.Pt{X: 190, Y: 55}, Max: geom.Pt{X: 210, Y: 145}}
	if len(pieces) != 1 || b.Min.Dist(want.Min) > 0.01 || b.Max.Dist(want.Max) > 0.01 || len(problems) != 0 {
		t.Errorf("got %d pieces, %v, %v; want one, %v", len(pieces), b, problems, want)
	}
}

func TestACornerLossIsFilledToBothTrueEdgesAndOver(t *testing.T) {
	d := traced(mendplan.Loss, geom.Pt{X: 170, Y: 279}, geom.Pt{X: 185, Y: 255}, geom.Pt{X: 199, Y: 250}, geom.Pt{X: 199, Y: 279})
	pieces, _ := mendplan.Pieces(bench(d))
	for _, p := range []geom.Pt{{X: 209.9, Y: 289.9}, {X: 209.9, Y: 250}, {X: 172, Y: 289.9}, {X: 190, Y: 260}} {
		if !pieces[0].Outline.Contains(p) {
			t.Errorf("the fill does not reach %v", p)
		}
	}
	if b := pieces[0].Outline.Bounds(); b.Max.X > 210.001 || b.Max.Y > 290.001 {
		t.Errorf("the fill hangs over to %v, want no more than 10 mm", b.Max)
	}
}

func TestTheSideWithLessPrintIsAdvised(t *testing.T) {
	d := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100})
	for _, c := range []struct {
		front, back float64
		want        mendplan.SideName
	}{
		{0.1, 0.6, mendplan.Front}, {0.6, 0.1, mendplan.Back}, {0.3, 0.3, mendplan.Back},
	} {
		look := mendplan.Look{Print: func(_ string, side mendplan.SideName, _ geom.Area) (float64, bool) {
			if side == mendplan.Front {
				return c.front, true
			}
			return c.back, true
		}}
		pieces, _ := mendplan.PiecesWith(bench(d), look)
		if pieces[0].Side != c.want || !strings.Contains(pieces[0].Reasons[0].String(), "front") {
			t.Errorf("print %.0f %% and %.0f %%: on the %s (%q), want %s", c.front*100, c.back*100, pieces[0].Side, pieces[0].Reasons[0], c.want)
		}
	}
}

func TestTissuesAreAdvisedByWeightUseAndColour(t *testing.T) {
	j := bench()
	j.Tissues = []mendplan.Tissue{
		{ID: "heavy", Grammage: 60}, {ID: "fill", Grammage: 75, Use: mendplan.ForInfills},
		{ID: "white", Grammage: 5, Colour: "#ffffff"}, {ID: "toned", Grammage: 5, Colour: "#e8d8b0"},
	}
	paper, err := mendplan.LabOfHex("#e6d7b2")
	if err != nil {
		t.Fatal(err)
	}
	order := func(use mendplan.TissueUse, coated bool) string {
		j.LeafPaper.Coated = coated
		var ids []string
		for _, a := range mendplan.AdviseTissues(j, j.Leaves[0], use, &paper) {
			ids = append(ids, a.Tissue.ID)
		}
		return strings.Join(ids, " ")
	}
	if got, want := order(mendplan.ForTears, false), "toned white heavy fill"; got != want {
		t.Errorf("for tears: got %s, want %s", got, want)
	}
	if got, want := order(mendplan.ForInfills, false), "fill heavy toned white"; got != want {
		t.Errorf("for infills: got %s, want %s", got, want)
	}
	j.Tissues[0].Grammage = 20
	if got, want := order(mendplan.ForTears, true), "heavy toned white fill"; got != want {
		t.Errorf("for tears in a coated leaf: got %s, want %s", got, want)
	}
}

func TestGrainConflictsAreShown(t *testing.T) {
	d := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100}) // across an upright grain
	j := bench(d)
	j.Tissues[0].Grammage = 12
	for _, rule := range []string{"along the strip", "as the leaf"} {
		pieces, problems := mendplan.Pieces(j.WithRule(mendplan.GrainRule, mendplan.Choice(rule)))
		if len(ofKind(problems, mendplan.GrainConflict)) != 1 {
			t.Errorf("%s: conflict not told: %v", rule, problems)
		}
		want := map[string]float64{"along the strip": 0, "as the leaf": 90}[rule]
		if math.Abs(math.Remainder(pieces[0].GrainDeg-want, 180)) > 0.5 {
			t.Errorf("%s: grain %.1f°, want %.0f°", rule, pieces[0].GrainDeg, want)
		}
	}
	if _, problems := mendplan.Pieces(j.WithRule(mendplan.GrainRule, mendplan.Choice("free"))); len(ofKind(problems, mendplan.GrainConflict)) != 0 {
		t.Errorf("free grain conflicts with nothing: %v", problems)
	}
}

func TestStripsBreakWhereTheHandSaysSo(t *testing.T) {
	d := styled(traced(mendplan.Tear, geom.Pt{X: 40, Y: 100}, geom.Pt{X: 100, Y: 100}), mendplan.Strips, nil)
	d.Mends[0].Breaks = []float64{0.3}
	pieces, _ := mendplan.Pieces(bench(d))
	if len(pieces) != 2 {
		t.Fatalf("got %d strips, want two broken at 58 mm", len(pieces))
	}
	// Each goes past the break by half of the overlap of 3 mm.
	a, b := pieces[0].Outline.Bounds(), pieces[1].Outline.Bounds()
	if !within(min(a.Max.X, b.Max.X), 58+1.5, 0.01) || !within(max(a.Min.X, b.Min.X), 58-1.5, 0.01) {
		t.Errorf("strips from %.2f to %.2f and from %.2f to %.2f mm", a.Min.X, a.Max.X, b.Min.X, b.Max.X)
	}
}

func TestOverlaysOnBothSidesOfAFillDoNotEndOnOneLine(t *testing.T) {
	d := traced(mendplan.Loss, geom.Pt{X: 60, Y: 60}, geom.Pt{X: 80, Y: 60}, geom.Pt{X: 80, Y: 80}, geom.Pt{X: 60, Y: 80})
	pieces, problems := mendplan.Pieces(bench(d).WithRule(mendplan.FillOverlay, mendplan.Choice("both sides")))
	if len(pieces) != 3 || pieces[1].Side == pieces[2].Side || pieces[1].Tissue != "T1" || pieces[0].Tissue != "T2" {
		t.Fatalf("got %d pieces, want a fill and an overlay of lighter tissue on each side", len(pieces))
	}
	if got := ofKind(problems, mendplan.SameLine); len(got) != 0 {
		t.Errorf("they end on one line: %v", got)
	}
	if a, b := pieces[1].Outline.Bounds().Width(), pieces[2].Outline.Bounds().Width(); !within(b-a, 4, 0.5) {
		t.Errorf("widths %.2f and %.2f mm, want the second wider by 4", a, b)
	}
}
