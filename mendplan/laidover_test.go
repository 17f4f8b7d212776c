package mendplan

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/geom"
)

// twoScans is a leaf of 210 × 297 mm scanned at 300 ppi on both sides, the
// back's true edge a little off.
func twoScans() Leaf {
	side := func(dx float64) Side {
		return Side{Scan: Scan{Path: "a.png", Width: 2700, Height: 3700}, Calibration: FileCalibration(300, 300, 0.2, "test"),
			TrueEdge: []geom.Pt{{X: 100 + dx, Y: 100}, {X: 2580 + dx, Y: 100}, {X: 2580 + dx, Y: 3608}, {X: 100 + dx, Y: 3608}}}
	}
	return Leaf{ID: "L1", Kind: SingleLeaf, Front: side(0), Back: side(20)}
}

func TestABackLaidOverItsFrontHasTheFrontsPlaces(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for range 300 {
		sin, cos := math.Sincos(rng.NormFloat64() * 0.03)
		k := 1 + 0.02*rng.NormFloat64()
		over := geom.Affine{A: -k * cos, B: k * sin, C: 2700 + 30*rng.NormFloat64(), D: k * sin, E: k * cos, F: 20 * rng.NormFloat64()}
		leaf, ok := twoScans().LaidOver(over)
		if !ok {
			t.Fatalf("a mirror is refused: %v", over)
		}
		front, _, f1 := FrameOf(leaf, Front)
		back, sheet, f2 := FrameOf(leaf, Back)
		if f1 != nil || f2 != nil {
			t.Fatal(f1, f2)
		}
		p := geom.Pt{X: 2600 * rng.Float64(), Y: 3600 * rng.Float64()}
		if d := back.ToLeaf(p).Dist(front.ToLeaf(over.Apply(p))); d > 1e-6 {
			t.Fatalf("a place of the back lies %.3g mm from its place on the front", d)
		}
		if d := back.ToScan(back.ToLeaf(p)).Dist(p); d > 1e-6 {
			t.Fatalf("there and back again is %.3g pixels off", d)
		}
		if geom.Ring(sheet.Corners[:]).SignedArea() <= 0 {
			t.Fatal("the corners of the back run the wrong way round")
		}
		ring := geom.Ring{{X: 10, Y: 10}, {X: 20, Y: 10}, {X: 20, Y: 30}, {X: 10, Y: 30}}
		if a := back.AreaToScan(geom.Area{ring})[0].SignedArea(); (a > 0) != (ring.SignedArea() > 0) {
			t.Fatal("an area changes its sense on the scan of the back")
		}
	}
}

func TestWhatIsNoMirrorIsNotTaken(t *testing.T) {
	for name, over := range map[string]geom.Affine{
		"nothing": {}, "no mirror": geom.Identity(), "not a number": {A: math.NaN(), E: 1}, "far away": {A: -1, E: 1, C: 1e9}} {
		if l, ok := twoScans().LaidOver(over); ok || l.BackOver != nil {
			t.Errorf("%s: taken", name)
		}
	}
	odd := twoScans()
	odd.BackOver = []float64{1, 2}
	if _, _, fault := FrameOf(odd, Back); fault != nil {
		t.Errorf("an odd map in a file is %v, want it passed over", fault.Words)
	}
}

func TestTheTrueEdgesLayTheBackOverTheFrontUntilSaidOtherwise(t *testing.T) {
	leaf := twoScans()
	over, ok := leaf.Over()
	if !ok {
		t.Fatal("two sides with true edges do not lie over each other")
	}
	// The head-left corner of the back lies behind the head-right of the front.
	if d := over.Apply(leaf.Back.TrueEdge[0]).Dist(leaf.Front.TrueEdge[1]); d > 1e-6 {
		t.Errorf("the back's head-left corner lies %.3g pixels from the front's head-right", d)
	}
	leaf, _ = leaf.LaidOver(over.Then(geom.Translate(geom.Pt{X: 12})))
	if again, _ := leaf.Over(); again.C != over.C+12 {
		t.Errorf("the map recorded is %v", again)
	}
	other := leaf.Back
	other.Scan.Path = "b.png"
	if leaf.WithSide(Back, other).BackOver != nil {
		t.Error("another scan keeps the map of the old one")
	}
	if leaf.WithSide(Back, leaf.Back).BackOver == nil || leaf.NotLaidOver().BackOver != nil {
		t.Error("the map is kept or dropped at the wrong time")
	}
}

func TestPiecesFollowTheBackLaidOver(t *testing.T) {
	leaf := twoScans()
	leaf.Damages = []Damage{{Number: 1, Kind: Tear, Side: Back, Points: []geom.Pt{{X: 900, Y: 900}, {X: 1200, Y: 1000}}}}
	job := Job{Leaves: []Leaf{leaf}, Tissues: []Tissue{{ID: "T1", Name: "kozo tissue", Grammage: 5}}}
	var memo Memo
	before, _ := memo.Pieces(job)
	over, _ := leaf.Over()
	job.Leaves[0], _ = leaf.LaidOver(over.Then(geom.Translate(geom.Pt{X: 300 / 25.4})))
	after, _ := memo.Pieces(job)
	if len(before) == 0 || len(after) != len(before) {
		t.Fatalf("%d pieces before, %d after", len(before), len(after))
	}
	if d := after[0].BlankCentre.Sub(before[0].BlankCentre); math.Abs(d.X-1) > 0.01 || math.Abs(d.Y) > 0.01 {
		t.Errorf("the piece moved by %v mm, want 1 mm to the right", d)
	}
}
