package mendplan_test

import (
	"math"
	"testing"

	"leafmend/mendplan"
)

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol }

// Published recipes; the percentages follow from their figures.
func TestPublishedRecipesGiveTheirShareOfStarch(t *testing.T) {
	for _, c := range []struct {
		name string
		got  float64
		want float64 // per cent, rounded to two places
	}{
		{"Library of Congress 2015, 57 g to 400 mL", mendplan.ShareByMass(57, 400), 12.47},
		{"E. Morse, Abbey Newsletter 19(5), 65 g to 500 mL", mendplan.ShareByMass(65, 500), 11.50},
		{"a museum's recipe, 27 g to 200 mL", mendplan.ShareByMass(27, 200), 11.89},
		{"Women's Studio Workshop, 10 g to 100 mL", mendplan.ShareByMass(10, 100), 9.09},
		{"H. Burgess as quoted on the Book Arts list, 6 g to 100 mL", mendplan.ShareByMass(6, 100), 5.66},
		{"1 : 4 by volume", mendplan.ShareByVolume(4, 0.55), 12.09},
		{"1 : 5 by volume", mendplan.ShareByVolume(5, 0.55), 9.91},
		{"1 : 7 by volume", mendplan.ShareByVolume(7, 0.55), 7.28},
		{"12 % thinned with its own mass of water", mendplan.Thinned(0.12, 1), 6.0},
		{"12 % thinned with half its mass", mendplan.Thinned(0.12, 0.5), 8.0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if !near(c.got*100, c.want, 0.0051) {
				t.Errorf("got %.3f %%, want %.2f %%", c.got*100, c.want)
			}
		})
	}
}

// Twenty strips of 12 × 80 mm: worked by hand from 100 g/m² and a spreading
// factor of 2.5.
func TestTwentyStripsTakeFiveGramsOfPaste(t *testing.T) {
	e := mendplan.EstimatePaste(20*12*80, mendplan.InForce{})
	if !near(e.OnTissueG, 1.92, 1e-9) || !near(e.SpreadG, 4.8, 1e-9) {
		t.Errorf("on the tissue %.3f g, spread %.3f g; want 1.92 and 4.8", e.OnTissueG, e.SpreadG)
	}
	if e.BatchG != 100 || e.Times < 20 {
		t.Errorf("batch %.0f g serves %.1f such jobs; want the smallest batch, many times over", e.BatchG, e.Times)
	}
	if !near(e.StarchG+e.WaterG, e.BatchG, 1e-9) || !near(e.StarchG, 12, 1e-9) {
		t.Errorf("starch %.2f g and water %.2f g do not make up the batch", e.StarchG, e.WaterG)
	}
}

func TestWhatIsSpreadComesBackFromTheSlurry(t *testing.T) {
	var rules mendplan.Rules
	rules = rules.With(mendplan.CookingLoss, mendplan.Num(20)).With(mendplan.SievingLoss, mendplan.Num(5)).With(mendplan.Thinning, mendplan.Num(1))
	e := mendplan.EstimatePaste(3e6, mendplan.InForce{Job: rules})
	if got := e.SlurryG*0.8*0.95 + e.ThinG; !near(got, e.SpreadG, 1e-9) {
		t.Errorf("slurry less losses plus thinning water is %.3f g, spread is %.3f g", got, e.SpreadG)
	}
	if e.BatchG != e.SlurryG || !near(e.Times, 1, 1e-12) {
		t.Errorf("a large job cooks just what it needs: batch %.1f, slurry %.1f", e.BatchG, e.SlurryG)
	}
}

func TestNoAreaNeedsNoPaste(t *testing.T) {
	if e := mendplan.EstimatePaste(0, mendplan.InForce{}); e.BatchG != 0 || e.StarchG != 0 {
		t.Errorf("no area, yet a batch of %.1f g", e.BatchG)
	}
}
