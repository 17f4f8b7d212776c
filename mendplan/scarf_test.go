package mendplan_test

import (
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// hiddenEdge is where the edge beneath a traced path runs, in mm, as
// stretches: each moved square to itself by mm to the left as one looks at
// the front, worked out here by complex rotation apart from the product.
func hiddenEdge(path []geom.Pt, mm float64, left bool) [][]geom.Pt {
	var out [][]geom.Pt
	for i := 1; i < len(path); i++ {
		d := complex(path[i].X-path[i-1].X, path[i].Y-path[i-1].Y)
		n := d * complex(0, -1) // a quarter turn to the left, y down
		if !left {
			n = -n
		}
		l := path[i].Dist(path[i-1])
		if l == 0 {
			continue
		}
		move := geom.Pt{X: real(n) / l * mm, Y: imag(n) / l * mm}
		out = append(out, []geom.Pt{path[i-1].Add(move), path[i].Add(move)})
	}
	return out
}

func TestMendsOfScarfedTearsKeepTheMarginAboutBothEdges(t *testing.T) {
	n := 0
	for i := range 600 {
		r := seeded(i)
		d := randomTear(r)
		d.Forks = nil
		d.Scarf = mendplan.Scarf{OverlapMM: between(r, 0.3, mendplan.WidestScarf), OnTop: []mendplan.HandSide{"", mendplan.OnLeft, mendplan.OnRight}[r.IntN(3)]}
		style := []mendplan.Style{mendplan.Shaped, mendplan.Strips}[i%2]
		d = styled(d, style, randomRules(r))
		pieces, problems := mendplan.Pieces(bench(d))
		if len(pieces) == 0 {
			t.Fatalf("case %d: no pieces: %v", i, problems)
		}
		margin := min(inForce(d, mendplan.SideMargin), inForce(d, mendplan.EndMargin)) - 0.002
		if style == mendplan.Strips {
			margin = min(margin, inForce(d, mendplan.StripWidth)/2-0.002)
		}
		clip := leafBox(leafW, leafH, 0)
		c := cover(t, pieces)
		for _, run := range onLeafMM(d.Points) {
			for _, edge := range append(hiddenEdge(run, d.Scarf.OverlapMM, d.Scarf.OnTop != mendplan.OnRight), run) {
				n++
				if left := uncovered(t, c, edge, margin, clip); left > slackMM2 {
					t.Errorf("case %d, %s, %.1f mm: %.3f mm² of the margin lies outside the pieces", i, style, d.Scarf.OverlapMM, left)
				}
			}
		}
	}
	t.Logf("%d stretches", n)
}

func TestTheMendOfAScarfedTear(t *testing.T) {
	tear := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 120, Y: 100}) // from left to right: up is left of it
	width := func(d mendplan.Damage) (top, bottom float64, piece mendplan.Piece) {
		pieces, _ := mendplan.Pieces(bench(d))
		if len(pieces) != 1 {
			t.Fatalf("%d pieces", len(pieces))
		}
		b := pieces[0].Outline.Bounds()
		return 100 - b.Min.Y, b.Max.Y - 100, pieces[0]
	}
	for _, c := range []struct {
		name        string
		scarf       mendplan.Scarf
		top, bottom float64
	}{
		{"torn square it reaches the margin on both sides", mendplan.Scarf{}, 5, 5},
		{"with the left part on top it reaches further to the left", mendplan.Scarf{OverlapMM: 3, OnTop: mendplan.OnLeft}, 8, 5},
		{"with the right part on top it reaches further to the right", mendplan.Scarf{OverlapMM: 3, OnTop: mendplan.OnRight}, 5, 8},
		{"a side not said counts as left", mendplan.Scarf{OverlapMM: 2}, 7, 5},
		{"an overlap wider than paper tears is held to the widest", mendplan.Scarf{OverlapMM: 99}, 15, 5},
		{"an overlap below nothing is none", mendplan.Scarf{OverlapMM: -4}, 5, 5},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := tear
			d.Scarf = c.scarf
			top, bottom, piece := width(styled(d, mendplan.Shaped, nil))
			if top < c.top-0.01 || top > c.top+0.6 || bottom < c.bottom-0.01 || bottom > c.bottom+0.6 {
				t.Errorf("%.2f mm to the left and %.2f mm to the right, want %.0f and %.0f", top, bottom, c.top, c.bottom)
			}
			told := false
			for _, r := range piece.Reasons {
				told = told || strings.Contains(r.String(), "torn faces overlap")
			}
			if told != c.scarf.Known() {
				t.Errorf("that the faces overlap is told: %v, want %v", told, c.scarf.Known())
			}
		})
	}
}

func TestATearTracedOnTheBackHasItsLeftThere(t *testing.T) {
	d := traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 120, Y: 100})
	d.Scarf = mendplan.Scarf{OverlapMM: 4, OnTop: mendplan.OnLeft}
	d.Side = mendplan.Back
	pieces, problems := mendplan.Pieces(bench(styled(d, mendplan.Shaped, nil)))
	if len(pieces) != 1 {
		t.Fatalf("%d pieces: %v", len(pieces), problems)
	}
	// Seen from the back the way still leads to the right and left is still
	// up; in the leaf frame only x is mirrored.
	b := pieces[0].Outline.Bounds()
	if top, bottom := 100-b.Min.Y, b.Max.Y-100; top < 8.99 || bottom > 5.6 {
		t.Errorf("%.2f mm up and %.2f mm down, want 9 and 5", top, bottom)
	}
}
