package ui

import (
	"testing"

	"fyne.io/fyne/v2"
)

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

func TestLicencesAreReadByKeysAndClosedByEscape(t *testing.T) {
	w := testWindow(t)
	w.Run("licences")
	list, ok := w.win.Canvas().Focused().(*keyList)
	if !ok {
		t.Fatalf("the list has not the keyboard, but %T", w.win.Canvas().Focused())
	}
	for _, c := range []struct {
		key fyne.KeyName
		at  int
	}{{fyne.KeyDown, 1}, {fyne.KeyDown, 2}, {fyne.KeyUp, 1}, {fyne.KeyEnd, list.Length() - 1}, {fyne.KeyDown, list.Length() - 1}, {fyne.KeyHome, 0}, {fyne.KeyUp, 0}} {
		if list.TypedKey(&fyne.KeyEvent{Name: c.key}); list.at() != c.at {
			t.Errorf("after %s row %d is read, want %d", c.key, list.at(), c.at)
		}
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.win.Canvas().Focused() == list || w.win.Canvas().Overlays().Top() != nil {
		t.Error("Escape did not close the licences")
	}
}
