package mendplan_test

import (
	"math"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// inch in mm; published sizes convert exactly.
const inch = 25.4

// withRules is the bench job with job-wide rules.
func withRules(rules map[mendplan.RuleKey]float64, ds ...mendplan.Damage) mendplan.Job {
	j := bench(ds...)
	for key, v := range rules {
		j = j.WithRule(key, mendplan.Num(v))
	}
	return j
}

// bare is the size of a piece without its fringe.
func bare(p mendplan.Piece) (length, width float64) {
	return p.BlankLengthMM - 4, p.BlankWidthMM - 4 // 2 mm of fringe at each edge by default
}

func TestStripsAreAsWideAsTheManualsSay(t *testing.T) {
	tear := styled(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100}), mendplan.Strips, nil)
	for _, c := range []struct {
		source        string
		preset, width float64
	}{
		{"Dartmouth College Library, A Simple Book Repair Manual: ½ in", inch / 2, 12.7},
		{"Bailey, Library Bookbinding (1916); Brown (1921): ½ in", inch / 2, 12.7},
		{"National Archives of Australia (2012): 10 mm", 10, 10},
		{"BonaDea, repair tape of ⅝ in: 15.875 mm whole", inch * 5 / 8, 15.875},
	} {
		pieces, _ := mendplan.Pieces(withRules(map[mendplan.RuleKey]float64{mendplan.StripWidth: c.preset}, tear))
		_, width := bare(pieces[0])
		if len(pieces) != 1 || !within(width, c.width, 0.001) {
			t.Errorf("%s: %d pieces, %.3f mm wide, want one of %.3f", c.source, len(pieces), width, c.width)
		}
		if length, _ := bare(pieces[0]); length <= 50 {
			t.Errorf("%s: %.1f mm long is not longer than the tear of 50", c.source, length)
		}
	}
}

func TestTheOverhangIsThatOfTheManual(t *testing.T) {
	// BonaDea: ⅜ in past the edge, 9.525 mm.
	tear := styled(traced(mendplan.Tear, geom.Pt{X: 100, Y: 240}, geom.Pt{X: 100, Y: 280}), mendplan.Strips, nil)
	for _, style := range []mendplan.Style{mendplan.Strips, mendplan.Shaped} {
		tear.Mends[0].Style = style
		pieces, _ := mendplan.Pieces(withRules(map[mendplan.RuleKey]float64{mendplan.EdgeOverhang: inch * 3 / 8}, tear))
		if got := pieces[len(pieces)-1].Outline.Bounds().Max.Y - 280; !within(got, 9.525, 0.01) {
			t.Errorf("%s: hangs over by %.3f mm, want 9.525", style, got)
		}
	}
}

func TestLongTearsGetSeveralPiecesOfThreeInches(t *testing.T) {
	// BonaDea: no single piece longer than 3 in, 76.2 mm.
	tear := traced(mendplan.Tear, geom.Pt{X: 20, Y: 40}, geom.Pt{X: 20, Y: 200})
	for _, style := range []mendplan.Style{mendplan.Strips, mendplan.Shaped} {
		pieces, _ := mendplan.Pieces(withRules(map[mendplan.RuleKey]float64{mendplan.LongestStrip: 3 * inch}, styled(tear, style, nil)))
		if len(pieces) != 3 { // 160 + 2·5 mm, overlapping by 3: at least ⌈(170−3)/(76.2−3)⌉ = 3
			t.Errorf("%s: got %d pieces, want 3", style, len(pieces))
		}
		for _, p := range pieces {
			if length, _ := bare(p); length > 76.2+0.01 {
				t.Errorf("%s: %s is %.2f mm long", style, p.Label, length)
			}
		}
	}
}

func TestFillsOverlapAsTheSourcesSay(t *testing.T) {
	square := traced(mendplan.Loss, geom.Pt{X: 60, Y: 60}, geom.Pt{X: 80, Y: 60}, geom.Pt{X: 80, Y: 80}, geom.Pt{X: 60, Y: 80})
	for _, c := range []struct {
		source  string
		overlap float64
	}{
		{"Cockerell, Bookbinding, and the Care of Books: ⅛ in", inch / 8},
		{"course on washi, Library of Congress treatments: 2 mm", 2},
	} {
		rules := map[mendplan.RuleKey]float64{mendplan.FillOverlap: c.overlap, mendplan.ShapeTolerance: 0.1}
		pieces, _ := mendplan.Pieces(withRules(rules, square))
		// Closed form of a square of 20 grown by d: 20² + 4·20·d + πd²; it may
		// be more by the tolerance of 0.1 mm all round, never less.
		d := c.overlap
		want, most := 400+80*d+math.Pi*d*d, 400+80*(d+.1)+math.Pi*(d+.1)*(d+.1)
		if got := pieces[0].AreaMM2; len(pieces) != 1 || got < want || got > most {
			t.Errorf("%s: %d pieces, %.3f mm², want %.3f to %.3f", c.source, len(pieces), got, want, most)
		}
		if got := pieces[0].Outline.Bounds().Width(); got < 20+2*d || got > 20+2*d+0.2 {
			t.Errorf("%s: %.3f mm wide, want %.3f", c.source, got, 20+2*d)
		}
	}
}

func TestACapsuleHasTheAreaOfItsClosedForm(t *testing.T) {
	// Straight tear of 50 mm inside the leaf, margin 5: 2·5·50 + π·5².
	tear := styled(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 110, Y: 100}), mendplan.Shaped, nil)
	pieces, _ := mendplan.Pieces(withRules(map[mendplan.RuleKey]float64{mendplan.ShapeTolerance: 0.1, mendplan.EndMargin: 5}, tear))
	want := 500 + 25*math.Pi
	most := 2*5.1*50 + math.Pi*5.1*5.1
	if got := pieces[0].AreaMM2; got < want || got > most {
		t.Errorf("got %.3f mm², want %.3f to %.3f", got, want, most)
	}
}

func TestGuardsAreCutAsTheManualsSay(t *testing.T) {
	split := traced(mendplan.Split, geom.Pt{X: 100, Y: 20}, geom.Pt{X: 100, Y: 60})
	for _, c := range []struct {
		source              string
		width, length, half float64
	}{
		{"Brown, Mending and Repair of Books: ½ in, shorter than the leaf (Guild of Book Workers 115)", inch / 2, -2, 6.35},
		{"a binders' forum (2025): ¾ in; a little longer (Cockerell)", inch * 3 / 4, 6, 9.525},
	} {
		rules := map[mendplan.RuleKey]float64{mendplan.GuardWidth: c.width, mendplan.GuardLength: c.length}
		j := withRules(rules, styled(split, mendplan.Guard, nil))
		leaf := j.Leaves[0]
		leaf.Kind = mendplan.Bifolium
		pieces, _ := mendplan.Pieces(j.WithLeaf(leaf))
		length, width := bare(pieces[0])
		if len(pieces) != 1 || !within(width, 2*c.half, 1e-6) || !within(length, leafH+c.length, 1e-6) {
			t.Errorf("%s: %d pieces, %.3f × %.3f mm", c.source, len(pieces), length, width)
		}
		b := pieces[0].Outline.Bounds()
		if !within(100-b.Min.X, c.half, 1e-6) || !within(b.Max.X-100, c.half, 1e-6) {
			t.Errorf("%s: lies %.3f and %.3f mm onto the leaves, want %.3f", c.source, 100-b.Min.X, b.Max.X-100, c.half)
		}
		if off := math.Abs(math.Remainder(pieces[0].GrainDeg-90, 180)); off > 1e-9 || pieces[0].GrainFree {
			t.Errorf("%s: grain %.1f°, want along the fold", c.source, pieces[0].GrainDeg)
		}
	}
}

func TestGuardsGoOnTheSideTheirPlaceAsksFor(t *testing.T) {
	// Cockerell; Roberts and Etherington: outermost inside, the others outside.
	j := nested(3)
	pieces, _ := mendplan.Pieces(j)
	for _, p := range pieces {
		if p.Style != mendplan.Guard {
			continue
		}
		want := mendplan.Front
		if p.Leaf == "A" {
			want = mendplan.Back
		}
		if p.Side != want {
			t.Errorf("guard of sheet %s: on the %s, want %s", p.Leaf, p.Side, want)
		}
	}
	d := j.Leaves[0].Damages[0]
	d.Mends = []mendplan.Mend{{Style: mendplan.Guard, Side: mendplan.Front}}
	pieces, _ = mendplan.Pieces(j.WithDamage("A", d))
	if pieces[0].Side != mendplan.Front {
		t.Error("a side chosen by hand for one bifolium does not hold")
	}
}

func TestTwoSplitsOfOneFoldShareAGuard(t *testing.T) {
	j := nested(1)
	second := traced(mendplan.Split, geom.Pt{X: 150, Y: 150}, geom.Pt{X: 150, Y: 180})
	second.Mends = []mendplan.Mend{{Style: mendplan.Guard}}
	j, _ = j.AddDamage("A", second)
	pieces, problems := mendplan.Pieces(j)
	guards := 0
	for _, p := range pieces {
		if p.Style == mendplan.Guard {
			guards++
		}
	}
	if guards != 1 || len(ofKind(problems, mendplan.OtherDamage)) != 1 {
		t.Errorf("got %d guards and %v, want one guard and a word about it", guards, problems)
	}
}

func TestMassAndSizeOfAPublishedStrip(t *testing.T) {
	// Worked out: 12.7 × 76.2 mm at 9 g/m² is 967.7 mm² and 8.71 mg.
	tear := styled(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 60 + 66.2, Y: 100}), mendplan.Strips, nil)
	rules := map[mendplan.RuleKey]float64{mendplan.StripWidth: inch / 2, mendplan.EndMargin: 5, mendplan.LongestStrip: 3 * inch}
	j := withRules(rules, tear)
	j.Tissues[0].Grammage = 9
	plan := mendplan.Compute(j)
	if got := plan.Pieces[0].AreaMM2; len(plan.Pieces) != 1 || !within(got, 967.74, 0.1) {
		t.Errorf("%d pieces, %.3f mm², want one of 967.74", len(plan.Pieces), got)
	}
	if got := plan.Estimate.Tissues[0].MassG * 1000; !within(got, 8.71, 0.01) {
		t.Errorf("got %.3f mg, want 8.71", got)
	}
}
