package ui

import (
	"math"
	"strings"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
	"leafmend/mendplan/scan"
)

func TestSourcesOfTheScaleAreShownSideBySideWithTheirConflicts(t *testing.T) {
	w := withBoth(t)
	leaf := mustLeaf(t, w)
	told := []scan.Resolution{{DPIX: 100, DPIY: 100, Source: "JFIF", Trusted: true, DoubtPercent: 0.5},
		{DPIX: 72, DPIY: 72, Source: "Exif", Why: phrase.Of("72 is what cameras write"), DoubtPercent: 5}}
	all := scaleSources(leaf, mendplan.Front, told)
	if len(all) != 4 || !all[0].inUse || all[1].from != "JFIF" || !strings.Contains(all[2].why, "72 is what cameras write") {
		t.Fatalf("sources %+v", all)
	}
	side := leaf.Front
	if off, doubt, ok := disagreement(side, all[1].scale, all[0].scale); !ok || off > doubt {
		t.Errorf("the same scale differs by %g %%, %g allowed", off, doubt)
	}
	// 100 against 72 pixels an inch: the leaf would be 38.9 % larger.
	if off, doubt, ok := disagreement(side, all[2].scale, all[0].scale); !ok || math.Abs(off-38.89) > 0.1 || doubt > 6 {
		t.Errorf("differs by %g %%, %g allowed", off, doubt)
	}
	if width, height, ok := measured(side, all[1].scale); !ok || math.Abs(width-394*0.254) > 0.1 || math.Abs(height-472*0.254) > 0.1 {
		t.Errorf("the leaf would measure %g × %g", width, height)
	}
	if !w.Run("scale-file") || !w.asking() {
		t.Error("the sources are not shown")
	}
	w.closeDialog()
}

func TestFourCornersTellWhatTheyAreWorth(t *testing.T) {
	// A rectangle of 200 × 100 mm seen straight at 10 pixels a millimetre.
	straight := []geom.Pt{{X: 100, Y: 100}, {X: 2100, Y: 100}, {X: 2100, Y: 1100}, {X: 100, Y: 1100}}
	c, err := calibrateByCorners(straight, 200, 100)
	if err != nil {
		t.Fatal(err)
	}
	checks, err := checkCorners(c)
	if err != nil {
		t.Fatal(err)
	}
	for i, k := range checks {
		if k.straightMM > 1e-6 || k.perPixelMM < 0.005 || k.perPixelMM > 0.2 {
			t.Errorf("corner %d: %+v", i, k)
		}
	}
	// The head narrower by 100 pixels on either side: a camera that leans.
	leaning := []geom.Pt{{X: 200, Y: 100}, {X: 2000, Y: 100}, {X: 2100, Y: 1100}, {X: 100, Y: 1100}}
	c, _ = calibrateByCorners(leaning, 200, 100)
	if checks, err = checkCorners(c); err != nil || checks[0].straightMM < 3 {
		t.Errorf("leaning: %+v, %v", checks, err)
	}
	w := withBoth(t)
	w.showCorners(c)
	if !w.asking() {
		t.Error("nothing is shown of the corners")
	}
	w.closeDialog()
	if _, err := checkCorners(mendplan.Calibration{}); err == nil {
		t.Error("corners that are not there are told")
	}
}
