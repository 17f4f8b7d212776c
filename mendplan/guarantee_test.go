package mendplan_test

import (
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// styled asks for one style and rules on a damage.
func styled(d mendplan.Damage, s mendplan.Style, r mendplan.Rules) mendplan.Damage {
	d.Mends = []mendplan.Mend{{Style: s, Rules: r}}
	return d
}

// inForce looks a rule of a damage's first mend up.
func inForce(d mendplan.Damage, key mendplan.RuleKey) float64 {
	return mendplan.InForce{Mend: d.Mends[0].Rules}.Number(key)
}

// slackMM2 is what coverage may fall short of, for the oracle's own rounding
// and ours: a hundredth of a square millimetre.
const slackMM2 = 0.01

func TestShapedPiecesKeepTheMarginEverywhere(t *testing.T) {
	n := 0
	for i := range 600 {
		r := seeded(i)
		d := styled(randomTear(r), mendplan.Shaped, randomRules(r))
		pieces, problems := mendplan.Pieces(bench(d))
		if len(pieces) == 0 {
			t.Fatalf("case %d: no pieces: %v", i, problems)
		}
		margin := inForce(d, mendplan.SideMargin) - 0.002
		clip := leafBox(leafW, leafH, inForce(d, mendplan.EdgeOverhang)-0.002)
		c := cover(t, pieces)
		for _, px := range append([][]geom.Pt{d.Points}, d.Forks...) {
			for _, run := range onLeafMM(px) {
				n++
				if left := uncovered(t, c, run, margin, clip); left > slackMM2 {
					t.Errorf("case %d: %.3f mm² of the margin lies outside the pieces", i, left)
				}
			}
		}
	}
	t.Logf("%d paths", n)
}

func TestStripsKeepTheMarginEverywhere(t *testing.T) {
	n := 0
	for i := range 600 {
		r := seeded(i)
		d := styled(randomTear(r), mendplan.Strips, randomRules(r))
		pieces, problems := mendplan.Pieces(bench(d))
		if len(pieces) == 0 {
			t.Fatalf("case %d: no pieces: %v", i, problems)
		}
		// Past a blind end the end margin rules, so ask for no more there.
		margin := min(inForce(d, mendplan.SideMargin), inForce(d, mendplan.StripWidth)/2, inForce(d, mendplan.EndMargin)) - 0.002
		clip := leafBox(leafW, leafH, 0)
		c := cover(t, pieces)
		for _, px := range append([][]geom.Pt{d.Points}, d.Forks...) {
			for _, run := range onLeafMM(px) {
				n++
				if left := uncovered(t, c, run, margin, clip); left > slackMM2 {
					t.Errorf("case %d: %.3f mm² of the margin lies outside the strips", i, left)
				}
			}
		}
	}
	t.Logf("%d paths", n)
}

func TestInfillsAndOverlaysKeepTheirMarginEverywhere(t *testing.T) {
	for i := range 600 {
		r := seeded(i)
		kind, style, key := []mendplan.DamageKind{mendplan.Loss, mendplan.Hole, mendplan.RustHole}[i/2%3], mendplan.Infill, mendplan.FillOverlap
		if i%2 == 1 {
			kind, style, key = []mendplan.DamageKind{mendplan.WeakArea, mendplan.RustHole}[i/2%2], mendplan.Overlay, mendplan.OverlayMargin
		}
		d := styled(randomRing(r, kind), style, randomRules(r))
		pieces, _ := mendplan.Pieces(bench(d))
		if len(pieces) == 0 {
			t.Fatalf("case %d: no pieces", i)
		}
		clip := leafBox(leafW, leafH, inForce(d, mendplan.FillOverhang)-0.002)
		ring := make([]geom.Pt, 0, len(d.Points)+1)
		for _, p := range append(d.Points, d.Points[0]) {
			ring = append(ring, p.Mul(px300))
		}
		if left := uncovered(t, cover(t, pieces), ring, inForce(d, key)-0.002, clip); left > slackMM2 {
			t.Errorf("case %d: %.3f mm² of the margin lies outside the piece", i, left)
		}
	}
}
