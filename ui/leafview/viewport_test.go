package leafview

import (
	"math"
	"math/rand/v2"
	"testing"

	"leafmend/mendplan/geom"
)

func TestScanAndDevicePositionsAreInverse(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		v := View{Scale: math.Exp(8*rng.Float64() - 4), Offset: geom.Pt{X: 1e4 * rng.NormFloat64(), Y: 1e4 * rng.NormFloat64()}}
		p := geom.Pt{X: 1e4 * rng.Float64(), Y: 1e4 * rng.Float64()}
		if q := v.ToScan(v.ToDevice(p)); q.Dist(p) > 1e-6 {
			t.Fatalf("view %v: %v comes back as %v", v, p, q)
		}
	}
}

func TestZoomKeepsThePointUnderThePointer(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	v := FitView(Rect{Max: geom.Pt{X: 7000, Y: 10000}}, 1600, 1000, 20)
	for range 500 {
		at := geom.Pt{X: 1600 * rng.Float64(), Y: 1000 * rng.Float64()}
		under := v.ToScan(at)
		v = v.ZoomedAt(at, math.Exp(rng.Float64()-0.5))
		if got := v.ToDevice(under); got.Dist(at) > 1e-6 {
			t.Fatalf("the point under %v went to %v", at, got)
		}
	}
}

func TestZoomInAndOutReturnsToTheSamePlace(t *testing.T) {
	v := FitView(Rect{Max: geom.Pt{X: 7000, Y: 10000}}, 1600, 1000, 20)
	at, w := geom.Pt{X: 411, Y: 77}, v
	for range 12 {
		w = w.ZoomedAt(at, wheelFactor(notch))
	}
	for range 12 {
		w = w.ZoomedAt(at, wheelFactor(-notch))
	}
	if math.Abs(w.Scale/v.Scale-1) > 1e-9 || w.Offset.Dist(v.Offset) > 1e-6 {
		t.Errorf("got %v, want %v", w, v)
	}
}

func TestZoomStopsAtItsLimitsWithoutDrifting(t *testing.T) {
	for _, c := range []struct {
		name   string
		factor float64
		limit  float64
	}{{"closest", 1e9, MaxScale}, {"farthest", 1e-9, MinScale}} {
		v := View{Scale: 1}.ZoomedAt(geom.Pt{X: 50, Y: 50}, c.factor)
		if v.Scale != c.limit {
			t.Errorf("%s: scale %g, want %g", c.name, v.Scale, c.limit)
		}
		if w := v.ZoomedAt(geom.Pt{X: 9, Y: 4}, c.factor); w.Offset.Dist(v.Offset) > 1e-6 {
			t.Errorf("%s: drifted from %v to %v", c.name, v.Offset, w.Offset)
		}
	}
}

func TestFitShowsAllInTheMiddle(t *testing.T) {
	for _, c := range []struct {
		name       string
		pw, ph     float64
		w, h, edge float64
		want       float64
	}{
		{"a wide picture is bound by its width", 2000, 500, 1040, 800, 20, 0.5},
		{"a tall picture is bound by its height", 500, 2000, 1040, 1040, 20, 0.5},
		{"a small picture is magnified", 10, 10, 140, 140, 20, 10},
	} {
		v := FitView(Rect{Max: geom.Pt{X: c.pw, Y: c.ph}}, c.w, c.h, c.edge)
		if math.Abs(v.Scale-c.want) > 1e-12 {
			t.Errorf("%s: scale %g, want %g", c.name, v.Scale, c.want)
		}
		if m := v.ToDevice(geom.Pt{X: c.pw / 2, Y: c.ph / 2}); m.Dist(geom.Pt{X: c.w / 2, Y: c.h / 2}) > 1e-9 {
			t.Errorf("%s: middle at %v", c.name, m)
		}
	}
}

func TestPanningCanCentreEveryEdgeButNeverLosesThePicture(t *testing.T) {
	const w, h, keep = 800.0, 600.0, 40.0
	for _, scale := range []float64{0.1, 1, 5} {
		for _, d := range []geom.Pt{{X: 1e6}, {X: -1e6}, {Y: 1e6}, {Y: -1e6}, {X: -1e6, Y: 1e6}} {
			v := View{Scale: scale}.Panned(d).Kept(1000, 700, w, h, keep)
			r := Rect{v.ToDevice(geom.Pt{}), v.ToDevice(geom.Pt{X: 1000, Y: 700})}
			in := math.Min(math.Min(r.Max.X, w)-math.Max(r.Min.X, 0), math.Min(r.Max.Y, h)-math.Max(r.Min.Y, 0))
			if in < keep-1e-6 {
				t.Errorf("scale %g, pan %v: only %.1f pixels stay", scale, d, in)
			}
			if edge := math.Min(math.Abs(r.Max.X-w/2), math.Abs(r.Min.X-w/2)); d.X != 0 && edge > w/2 {
				t.Errorf("scale %g, pan %v: the edge cannot reach the middle", scale, d)
			}
		}
	}
}

func TestAWheelNotchBackUndoesOneForth(t *testing.T) {
	for _, dy := range []float64{1, 10, 25, 60, 100, 500} {
		if got := wheelFactor(dy) * wheelFactor(-dy); math.Abs(got-1) > 1e-12 {
			t.Errorf("%g forth and back magnifies %g times", dy, got)
		}
		if f := wheelFactor(dy); f <= 1 || f > 2.5 {
			t.Errorf("%g magnifies %g times", dy, f)
		}
	}
}

func TestTheViewKeepsItsPlaceOnAScreenOfAnotherScale(t *testing.T) {
	r := newRig(t, 400, 300, 1)
	r.s.SetView(2, geom.Pt{X: 300, Y: 200})
	r.s.setDevice(int(800*screen), int(600*screen)) // the window went to a screen twice as fine
	scale, centre := r.s.View()
	if math.Abs(scale-4) > 1e-9 || centre.Dist(geom.Pt{X: 300, Y: 200}) > 1e-9 {
		t.Errorf("scale %g about %v, want 4 about {300 200}", scale, centre)
	}
}

func TestAFittedViewFollowsTheWindow(t *testing.T) {
	r := newRig(t, 400, 300, 1)
	r.s.Fit()
	r.s.setDevice(800, 600)
	if want := FitView(Rect{Max: geom.Pt{X: 1000, Y: 800}}, 800, 600, fitMargin*r.s.px); r.s.view != want {
		t.Errorf("view %v, want %v", r.s.view, want)
	}
}

func TestMillimetresComeBackThroughAnyFrame(t *testing.T) {
	f := Frame{Origin: geom.Pt{X: 40, Y: -7}, X: geom.Pt{X: 11, Y: 2}, Y: geom.Pt{X: -2.2, Y: 12}}
	for _, p := range path(0, 0, 210, 297, -5, 3) {
		if q := f.ToMM(f.ToScan(p)); q.Dist(p) > 1e-9 {
			t.Errorf("%v comes back as %v", p, q)
		}
	}
	if (Frame{}).Known() || UniformFrame(0, 1).Known() || UniformFrame(math.NaN(), 1).Known() {
		t.Error("a frame without a scale claims to know millimetres")
	}
	if got := UniformFrame(0.1, 0.2).ToMM(geom.Pt{X: 10, Y: 10}); got.Dist(geom.Pt{X: 1, Y: 2}) > 1e-12 {
		t.Errorf("got %v, want {1 2}", got)
	}
}

func TestGridStepsAreRoundAndWideEnough(t *testing.T) {
	for _, c := range []struct {
		name       string
		per, least float64
		inches     bool
		want       float64
	}{
		{"exactly met", 10, 50, false, 5},
		{"just missed", 10, 51, false, 10},
		{"far out", 0.01, 50, false, 5000},
		{"close up", 1000, 50, false, 0.05},
		{"eighths of an inch", 10, 30, true, 25.4 / 8},
		{"whole inches", 2, 50, true, 25.4},
		{"not calibrated", 0, 50, false, 0},
	} {
		if got := gridStep(c.per, c.least, c.inches); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g mm, want %g", c.name, got, c.want)
		}
	}
}
