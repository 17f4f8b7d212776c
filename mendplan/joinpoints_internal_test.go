package mendplan

import (
	"bytes"
	"math/rand/v2"
	"regexp"
	"testing"
)

// TestPointsAreJoinedAsARegularExpressionWould holds the reader of points
// against the expression that says what a point is, on lines in any disorder.
func TestPointsAreJoinedAsARegularExpressionWould(t *testing.T) {
	point := regexp.MustCompile(`\[\n\s+(-?[0-9.eE+-]+),\n\s+(-?[0-9.eE+-]+)\n\s+\]`)
	parts := []string{"[\n", "[\n   ", " 12.5", "-3e-7", ",\n  ", ",", "\n ", "\n", "]", "],", "{", "\"a\"", "[\n  1,\n  2\n ]", "[\n  -1.5,\n  2e+9\n  ],\n "}
	joined := 0
	for seed := range 20000 {
		r := rand.New(rand.NewPCG(uint64(seed), 3))
		var in []byte
		for range 1 + r.IntN(20) {
			in = append(in, parts[r.IntN(len(parts))]...)
		}
		got, want := joinPoints(in), point.ReplaceAll(in, []byte("[$1, $2]"))
		if !bytes.Equal(want, in) {
			joined++
		}
		if !bytes.Equal(got, want) && plainLines(in) {
			t.Fatalf("seed %d: %q becomes %q, want %q", seed, in, got, want)
		}
	}
	if joined < 1000 {
		t.Errorf("only %d cases held a point", joined)
	}
}

// plainLines reports whether every line break is followed by a blank, as
// inside a list of a laid-out file; the expression asks for one there.
func plainLines(in []byte) bool {
	for i, c := range in {
		if c == '\n' && (i+1 == len(in) || in[i+1] != ' ') {
			return false
		}
	}
	return true
}
