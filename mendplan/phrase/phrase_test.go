package phrase_test

import (
	"testing"

	"leafmend/mendplan/phrase"
)

func TestPhrases(t *testing.T) {
	german := phrase.Tongue{
		"Piece %s meets %s.": "%[2]s trifft auf Stück %[1]s.",
		"tear %d":            "Riss %d",
		"fold":               "Falz",
		"100 %":              "100 Prozent",
	}
	for _, c := range []struct {
		name            string
		is              phrase.Phrase
		english, german string
	}{
		{"the zero phrase says nothing", phrase.Phrase{}, "", ""},
		{"parts are said in the same tongue", phrase.Of("Piece %s meets %s.", "1a", phrase.Of("tear %d", 3)), "Piece 1a meets tear 3.", "Riss 3 trifft auf Stück 1a."},
		{"several parts are set with commas", phrase.Of("Piece %s meets %s.", "1a", []phrase.Phrase{phrase.Of("tear %d", 3), phrase.Of("fold")}),
			"Piece 1a meets tear 3, fold.", "Riss 3, Falz trifft auf Stück 1a."},
		{"words without values keep their percent sign", phrase.Of("100 %"), "100 %", "100 Prozent"},
		{"words the tongue lacks stay English", phrase.Of("stain %d", 2), "stain 2", "stain 2"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.is.String(); got != c.english {
				t.Errorf("English %q, want %q", got, c.english)
			}
			if got := c.is.In(german); got != c.german {
				t.Errorf("German %q, want %q", got, c.german)
			}
			if c.is.IsZero() != (c.english == "") {
				t.Errorf("IsZero %v of %q", c.is.IsZero(), c.english)
			}
		})
	}
}
