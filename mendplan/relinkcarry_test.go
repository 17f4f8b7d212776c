package mendplan_test

import (
	"math"
	"math/rand"
	"testing"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// Whatever was done to a picture, places on the leaf stay what they were in
// millimetres, on both sides.
func TestTracesOnAnotherPictureKeepTheirMillimetres(t *testing.T) {
	for seed := range int64(120) {
		r := rand.New(rand.NewSource(seed))
		cal := mendplan.FileCalibration(300, 300, 1, "file")
		side := mendplan.Side{Scan: mendplan.Scan{Path: "a.png", Width: 1000, Height: 800, SHA256: "old"}, Calibration: cal}
		if r.Intn(2) == 0 {
			side.TrueEdge = []geom.Pt{{X: 50, Y: 40}, {X: 950, Y: 42}, {X: 948, Y: 760}, {X: 52, Y: 758}}
			side.Outline = side.TrueEdge
		}
		leaf := mendplan.Leaf{ID: "L1", Front: side, Back: side}
		if r.Intn(2) == 0 {
			leaf, _ = leaf.LaidOver(geom.MirrorX(1000))
		}
		j := mendplan.Job{}.WithLeaf(leaf)
		name := []mendplan.SideName{mendplan.Front, mendplan.Back}[r.Intn(2)]
		var pts []geom.Pt
		for range 6 {
			pts = append(pts, geom.Pt{X: 60 + 800*r.Float64(), Y: 60 + 600*r.Float64()})
		}
		j, n := j.AddDamage("L1", mendplan.Damage{Kind: mendplan.Tear, Side: name, Points: pts, Forks: [][]geom.Pt{pts[:3]}})
		k := 0.3 + 3*r.Float64()
		by := geom.Rotate(float64(90 * r.Intn(4))).Then(geom.Scale(k, k)).Then(geom.Translate(geom.Pt{X: 500 * r.Float64(), Y: 900 * r.Float64()}))
		if r.Intn(4) == 0 {
			by = geom.Identity()
		}
		now := mendplan.Scan{Path: "b.png", Width: 4000, Height: 4000, SHA256: "new"}
		got, ok := j.OnPicture("L1", name, now, by)
		if !ok {
			t.Fatalf("seed %d: refused", seed)
		}
		was, _ := j.Leaf("L1")
		is, _ := got.Leaf("L1")
		if is.SideOf(name).Scan != now || is.SideOf(name.Other()).Scan != side.Scan || was.SideOf(name).Scan.SHA256 != "old" {
			t.Fatalf("seed %d: the scans are %+v", seed, is)
		}
		a, _, f1 := mendplan.FrameOf(was, name)
		b, _, f2 := mendplan.FrameOf(is, name)
		if f1 != nil || f2 != nil {
			t.Fatalf("seed %d: %v %v", seed, f1, f2)
		}
		d, _ := was.Damage(n)
		e, _ := is.Damage(n)
		for i := range d.Points {
			if off := a.ToLeaf(d.Points[i]).Dist(b.ToLeaf(e.Points[i])); off > 1e-6 {
				t.Errorf("seed %d, %s, edge %d, laid %v, by %v: point %d came %g mm away", seed, name, len(side.TrueEdge), leaf.BackOver != nil, by, i, off)
			}
		}
		if a.ToLeaf(d.Forks[0][1]).Dist(b.ToLeaf(e.Forks[0][1])) > 1e-6 {
			t.Errorf("seed %d: a fork came away", seed)
		}
	}
	for _, by := range []geom.Affine{{}, geom.MirrorX(5), {A: math.NaN(), E: 1}, {A: 1e-9, E: 1e-9}, {A: math.Inf(1), E: 1}} {
		if _, ok := (mendplan.Job{}).WithLeaf(mendplan.Leaf{ID: "L1"}).OnPicture("L1", mendplan.Front, mendplan.Scan{}, by); ok {
			t.Errorf("the map %v was taken", by)
		}
	}
	if _, ok := (mendplan.Job{}).OnPicture("L1", mendplan.Front, mendplan.Scan{}, geom.Identity()); ok {
		t.Error("a leaf that is not there was carried over")
	}
}
