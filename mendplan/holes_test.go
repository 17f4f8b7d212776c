package mendplan_test

import (
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

func TestHolesAreMendedByTheirOwnRules(t *testing.T) {
	ring := []geom.Pt{{X: 60, Y: 100}, {X: 63, Y: 100}, {X: 63, Y: 103}, {X: 60, Y: 103}}
	for _, c := range []struct {
		name  string
		kind  mendplan.DamageKind
		rules mendplan.Rules
		style mendplan.Style
		rust  bool
	}{
		{"a hole is filled", mendplan.Hole, nil, mendplan.Infill, false},
		{"a hole is covered where the rules say so", mendplan.Hole, mendplan.Rules{}.With(mendplan.HoleStyle, mendplan.Choice("overlay")), mendplan.Overlay, false},
		{"a rusted hole is covered, and told what rust asks for", mendplan.RustHole, nil, mendplan.Overlay, true},
		{"the rule for holes leaves losses alone", mendplan.Loss, mendplan.Rules{}.With(mendplan.HoleStyle, mendplan.Choice("overlay")), mendplan.Infill, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := bench(traced(c.kind, ring...))
			j.Rules = c.rules
			pieces, problems := mendplan.Pieces(j)
			if len(pieces) != 1 || pieces[0].Style != c.style {
				t.Fatalf("%d pieces, problems %v", len(pieces), problems)
			}
			rust := false
			for _, r := range pieces[0].Reasons {
				rust = rust || strings.Contains(r.String(), "rust")
			}
			if rust != c.rust {
				t.Errorf("rust is told of: %v, want %v", rust, c.rust)
			}
		})
	}
}

func TestAScanOfADampLeafIsToldUntilItsScaleTakesTheGrowthOut(t *testing.T) {
	j := bench(traced(mendplan.Tear, geom.Pt{X: 60, Y: 100}, geom.Pt{X: 120, Y: 100}))
	damp := func(j mendplan.Job) (n int) {
		_, problems := mendplan.Pieces(j)
		for _, p := range problems {
			if strings.Contains(p.Words.String(), "damp") {
				n++
			}
		}
		return n
	}
	if n := damp(j); n != 0 {
		t.Errorf("a dry scan is told of %d times", n)
	}
	leaf := j.Leaves[0]
	leaf.Front.Damp = true
	j = j.WithLeaf(leaf)
	if n := damp(j); n != 1 {
		t.Errorf("a damp scan is told of %d times", n)
	}
	leaf.Front.Calibration.Origin = mendplan.FromLeafSize
	if n := damp(j.WithLeaf(leaf)); n != 0 {
		t.Errorf("with the scale of the dry leaf it is told of %d times", n)
	}
}
