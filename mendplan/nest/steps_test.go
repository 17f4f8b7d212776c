package nest_test

import (
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/nest"
)

// The steps are such as a person at the bench makes: one part before him at a
// time, all its parallel cuts before any strip is cut further, the ruler
// always measured from the part's left or top edge.
func TestStepsAreOneSettingAtATimeStripsFirst(t *testing.T) {
	again, parallel := 0, 0
	for seed := range uint64(20) {
		blanks, stock := strips(rand.New(rand.NewPCG(seed, 71)))
		l := checked(t, blanks, stock, nest.Options{Gap: 2, KeepW: 60, KeepH: 60, Effort: 4, Seed: seed})
		for _, s := range l.Sheets {
			settings := 0
			for i, c := range s.Cuts {
				if !c.Again {
					settings++
				} else {
					again++
					if p := s.Cuts[i-1]; p.Upright != c.Upright || p.At != c.At {
						t.Errorf("seed %d, step %d is said to be at the measure before: %g after %g", seed, c.Step, c.At, p.At)
					}
				}
				// what lies beyond a cut and is cut the same way is next
				if i+1 < len(s.Cuts) && c.Far.Number > 0 {
					for j, d := range s.Cuts[i+1:] {
						if d.Part == c.Far.Number && d.Upright == c.Upright {
							parallel++
							if j != 0 {
								t.Errorf("seed %d: step %d goes on with the strips of step %d, with others between", seed, d.Step, c.Step)
							}
						}
					}
				}
			}
			if settings != s.Settings {
				t.Errorf("seed %d: %d settings, said to be %d", seed, settings, s.Settings)
			}
		}
	}
	if again < 20 || parallel < 50 {
		t.Errorf("only %d steps at the measure before, %d parallel ones", again, parallel)
	}
}
