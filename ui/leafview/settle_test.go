package leafview

import (
	"image"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"leafmend/mendplan/geom"
)

// careful remembers whether it was last asked for the finest.
type careful struct {
	Blank
	best *bool
}

func (c careful) Paint(dst *image.RGBA, v View, best bool) {
	*c.best = best
	c.Blank.Paint(dst, v, best)
}

func TestAFinePaintingFollowsOnceTheViewStandsStill(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	var settle func()
	stopped := 0
	r.s.after = func(_ time.Duration, f func()) func() {
		settle = f
		return func() { stopped++ }
	}
	best := false
	r.s.SetPicture(careful{Blank{W: 1000, H: 800}, &best})
	r.s.SetScene(crowded(400, 1000, 800))
	r.frame()
	r.s.ZoomBy(1.5)
	r.s.pan(geom.Pt{X: 5})
	r.frame()
	if best || stopped == 0 {
		t.Errorf("painted at the finest %v while moving, %d timers stopped", best, stopped)
	}
	moving := append([]uint8(nil), r.frame().Pix...)
	bands := 0
	for next := settle; next != nil && bands < 100; bands++ {
		settle = nil
		next()
		r.frame()
		next = settle
	}
	still := slices.Clone(r.frame().Pix)
	if !best || bands != sharpBands {
		t.Errorf("painted at the finest %v, in %d bands", best, bands)
	}
	r.s.layers.dropAll()
	for i, v := range r.frame().Pix {
		if d := int(v) - int(still[i]); d > 2 || d < -2 {
			t.Fatalf("sharpened band by band, pixel %d is %d off", i/4, d)
		}
	}
	best = true
	same := true
	for i := range still {
		same = same && still[i] == moving[i]
	}
	if same {
		t.Error("a crowded scene that was stretched is not drawn sharply once the view stands still")
	}
	r.s.layers.best = true
	best = false
	r.frame()
	if best {
		t.Error("painted again although nothing changed")
	}
}

// TestAPartDrawnAnewIsThePartOfTheWhole throws random changes at a surface and
// compares each frame, pixel by pixel, with one that is drawn wholly anew.
func TestAPartDrawnAnewIsThePartOfTheWhole(t *testing.T) {
	frames := 0
	for seed := range uint64(2) {
		r := newRig(t, 420, 300, 1+float32(seed%2))
		r.s.after = func(time.Duration, func()) func() { return nil }
		rng := rand.New(rand.NewPCG(seed, 5))
		all := crowded(120, 1000, 800)
		sc := all
		r.s.SetPicture(newPrinted(1000, 800))
		r.s.SetScene(sc)
		r.s.OnEdit = func(e Edit) {
			if c, ok := e.(Change); ok {
				sc.Shapes = slices.Clone(sc.Shapes)
				for _, g := range c.Shapes {
					i := slices.IndexFunc(sc.Shapes, func(s Shape) bool { return s.Ref == g.Ref })
					sc.Shapes[i] = g.shape(sc.Shapes[i])
				}
				r.s.SetScene(sc)
			}
		}
		for step := range 40 {
			switch rng.IntN(7) {
			case 0:
				r.s.Select(rng.IntN(120), rng.IntN(120))
			case 1:
				r.s.pan(geom.Pt{X: float64(rng.IntN(120) - 60), Y: float64(rng.IntN(90) - 45)})
			case 2:
				r.s.Select(sc.Shapes[rng.IntN(len(sc.Shapes))].Ref)
				r.s.nudge(geom.Pt{X: 1}, true)
			case 3:
				sc.Shapes = slices.Delete(slices.Clone(sc.Shapes), 3, 4)
				r.s.SetScene(sc)
			case 4:
				sc.Pieces = slices.Clone(sc.Pieces)
				k := rng.IntN(len(sc.Pieces))
				sc.Pieces[k].Strong = !sc.Pieces[k].Strong
				r.s.SetScene(sc)
			case 5:
				r.drag(float64(rng.IntN(420)), float64(rng.IntN(300)), float64(rng.IntN(420)), float64(rng.IntN(300)))
			case 6:
				sc.Shapes = all.Shapes
				r.s.SetScene(sc)
			}
			part := slices.Clone(r.frame().Pix)
			r.s.layers.dropAll()
			for i, v := range r.frame().Pix {
				if d := int(v) - int(part[i]); d > 2 || d < -2 {
					t.Fatalf("seed %d, step %d: pixel %d differs by %d", seed, step, i/4, d)
				}
			}
			frames++
		}
	}
	t.Logf("%d frames compared", frames)
}

// TestAHandThatMovesOnIsNotKeptWaiting moves the view between two bands.
func TestAHandThatMovesOnIsNotKeptWaiting(t *testing.T) {
	r := newRig(t, 600, 400, 1)
	var next func()
	stopped := 0
	r.s.after = func(_ time.Duration, f func()) func() {
		next = f
		return func() { stopped++ }
	}
	r.s.SetPicture(newPrinted(1000, 800))
	r.s.SetScene(crowded(400, 1000, 800))
	r.frame()
	r.s.ZoomBy(1.5)
	r.frame()
	next() // the first band
	r.frame()
	before := stopped
	r.s.pan(geom.Pt{X: 7, Y: 3})
	if stopped == before {
		t.Error("the next band is not called off")
	}
	r.frame()
	for i := 0; i < 20 && !r.s.layers.best; i++ {
		next()
		r.frame()
	}
	part := slices.Clone(r.frame().Pix)
	r.s.layers.dropAll()
	for i, v := range r.frame().Pix {
		if d := int(v) - int(part[i]); d > 2 || d < -2 {
			t.Fatalf("pixel %d is %d off once it stands still again", i/4, d)
		}
	}
}
