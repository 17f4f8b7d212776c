package ui

import "testing"

func TestPartsAreNamedShortly(t *testing.T) {
	for _, c := range []struct{ full, name, version string }{
		{"Leafmend", "Leafmend", ""},
		{"The Go library", "The Go library", ""},
		{"example.org/a/v2 v2.7.2, LICENSE", "example.org/a/v2", "v2.7.2"},
		{"example.org/b v0.0.0-20231021071112-07e5d0ea2e71, COPYING", "example.org/b", "v0.0.0-20231021071112"},
		{"example.org/c v0.2.1, harfbuzz/LICENSE", "example.org/c, harfbuzz", "v0.2.1"},
	} {
		if name, version := partName(c.full); name != c.name || version != c.version {
			t.Errorf("%q is named %q, %q", c.full, name, version)
		}
	}
}
