package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Equal strips are told so that a person can follow with ruler and blade.
func TestTheCutListIsToldForTheBench(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		return path
	}
	pieces := write("p.csv", "label,tissue,length_mm,width_mm,count,grain\nA,T,100,26,12,along\n")
	stock := write("s.csv", "tissue,kind,length_mm,width_mm,count,grain_along,margin_mm,price\nT,sheet,340,170,1,length,5,5\n")
	r := mendplanRun("cutlist", "-effort", "5", "-gap", "4", "-pieces", pieces, "-stock", stock)
	if r.code != exitDone {
		t.Fatalf("cutlist gave %+v", r)
	}
	for _, want := range []string{
		"sheet 1: sheet S1 of T, 340 × 170 mm, grain along the length, 12 pieces",
		"26 mm from the left edge, cut along the length",
		"same measure, 100 mm from the top edge",
		"after 4 mm of waste",
		"the two laid on one another",
	} {
		if !strings.Contains(r.out, want) {
			t.Errorf("the cut list does not say %q:\n%s", want, r.out)
		}
	}
	r = mendplanRun("cutlist", "-json", "-effort", "5", "-gap", "4", "-pieces", pieces, "-stock", stock)
	if !strings.Contains(r.out, `"with_step"`) || !strings.Contains(r.out, `"same_measure": true`) {
		t.Errorf("the JSON does not say what is cut in one go:\n%s", r.out)
	}
}
