package phrase_test

import (
	"testing"

	"leafmend/mendplan/phrase"
)

func TestNumbersTakeTheDecimalSignOfTheTongue(t *testing.T) {
	german := phrase.Tongue{"0.5": "0,5", "%.1f mm of %s": "%.1f mm von %s", "%6.2f|%-7.1f|%g|%d": "%6.2f|%-7.1f|%g|%d"}
	for _, c := range []struct {
		name            string
		is              phrase.Phrase
		english, german string
	}{
		{"a number of the program", phrase.Of("%.1f mm of %s", 9.5, "x"), "9.5 mm of x", "9,5 mm von x"},
		{"a measure", phrase.Of("%.1f mm of %s", 9.5, "76.2 × 12.7 mm"), "9.5 mm of 76.2 × 12.7 mm", "9,5 mm von 76,2 × 12,7 mm"},
		{"a mark with a point", phrase.Of("%.1f mm of %s", 9.5, "3.1"), "9.5 mm of 3.1", "9,5 mm von 3.1"},
		{"a name with a point", phrase.Of("%.1f mm of %s", 9.5, "scan 1.5 mm.tif"), "9.5 mm of scan 1.5 mm.tif", "9,5 mm von scan 1.5 mm.tif"},
		{"width and side", phrase.Of("%6.2f|%-7.1f|%g|%d", 1.5, 2.5, 0.25, 7), "  1.50|2.5    |0.25|7", "  1,50|2,5    |0,25|7"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.is.String(); got != c.english {
				t.Errorf("English %q, want %q", got, c.english)
			}
			if got := c.is.In(german); got != c.german {
				t.Errorf("German %q, want %q", got, c.german)
			}
		})
	}
	if got := german.Figures("%.2f g", 1.25); got != "1,25 g" {
		t.Errorf("figures %q", got)
	}
	if got := phrase.Tongue(nil).Figures("%.2f g", 1.25); got != "1.25 g" {
		t.Errorf("figures %q", got)
	}
	if german.Measure("−0.5 mm") != "−0,5 mm" || german.Measure("1.2.3 mm") != "1.2.3 mm" || phrase.Tongue(nil).Measure("0.5 mm") != "0.5 mm" {
		t.Error("measures are written wrongly")
	}
}
