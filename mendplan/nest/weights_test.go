package nest_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/nest"
)

// strips are such as tears need: few widths, many lengths, some alike.
func strips(r *rand.Rand) (blanks []nest.Blank, stock []nest.Stock) {
	for i := range 24 {
		blanks = append(blanks, nest.Blank{ID: fmt.Sprint(i), W: []float64{16, 20, 28}[r.IntN(3)], H: float64(40 + 15*r.IntN(12)), Count: 1 + r.IntN(3)})
	}
	return blanks, []nest.Stock{{ID: "sheet", W: 320, H: 480, Copies: -1, Margin: nest.All(8)}, {ID: "small", W: 240, H: 200, Copies: 4}}
}

// weighed totals what layouts of invented jobs take, by weights.
func weighed(t *testing.T, w nest.Weights) (use, kept float64, cuts, settings int) {
	for seed := range uint64(5) {
		blanks, stock := strips(rand.New(rand.NewPCG(seed, 61)))
		opt := nest.Options{Gap: 2, KeepW: 60, KeepH: 60, KeepArea: 6000, Effort: 20, Seed: seed, Weights: w}
		l := checked(t, blanks, stock, opt)
		use, kept, cuts, settings = use+l.Use(), kept+l.Kept, cuts+l.Cuts, settings+l.Settings
	}
	return use, kept, cuts, settings
}

func TestTheUsersWeightsAct(t *testing.T) {
	use, kept, cuts, settings := weighed(t, nest.Weights{})
	use1, _, cuts1, _ := weighed(t, nest.Weights{FewerCuts: 400})
	use2, _, _, settings2 := weighed(t, nest.Weights{FewerSettings: 400})
	_, kept3, _, _ := weighed(t, nest.Weights{LargestRemnant: 1})
	_, kept4, _, _ := weighed(t, nest.Weights{LargestRemnant: -1})
	t.Logf("use %.0f, kept %.0f, %d cuts, %d settings; cuts weighed: %.0f, %d; settings weighed: %.0f, %d; kept %.0f when it counts whole, %.0f when not at all",
		use, kept, cuts, settings, use1, cuts1, use2, settings2, kept3, kept4)
	if cuts1 >= cuts || use1+400*float64(cuts1) >= use+400*float64(cuts) {
		t.Errorf("a weight on cuts leads from %d to %d", cuts, cuts1)
	}
	if settings2 >= settings || use2+400*float64(settings2) >= use+400*float64(settings) {
		t.Errorf("a weight on settings leads from %d to %d", settings, settings2)
	}
	if kept3 < kept || kept <= kept4 {
		t.Errorf("kept are %.0f, %.0f and %.0f mm² with the largest remnant counted not, half and whole", kept4, kept, kept3)
	}
}
