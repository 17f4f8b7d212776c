package scan_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"leafmend/mendplan/scan"
)

func TestAtLeastTakesTheCoarsestLevelFineEnough(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.jpg")
	if err := os.WriteFile(path, jpegBytes(t, drawn(1600, 900), 90), 0o600); err != nil {
		t.Fatal(err)
	}
	p, err := scan.Open(context.Background(), path, scan.OpenOptions{})
	if err != nil {
		t.Fatal(err)
	}
	defer p.Close()
	for _, c := range []struct {
		side, width int
		per         float64
	}{{5000, 1600, 1}, {1601, 1600, 1}, {1600, 1600, 1}, {801, 1600, 1}, {800, 800, 2}, {401, 800, 2}, {400, 400, 4}} {
		img, per := p.AtLeast(c.side)
		if img.Rect.Dx() != c.width || per != c.per {
			t.Errorf("at least %d: %d wide, %g scan pixels each; want %d and %g", c.side, img.Rect.Dx(), per, c.width, c.per)
		}
	}
}
