package leafview

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// owner applies edits to a scene, as the program does to a job.
type owner struct {
	t    *testing.T
	sc   Scene
	last int
}

// apply returns the next scene; a course that is no shape fails the test.
func (o *owner) apply(e Edit) Scene {
	sc := o.sc
	sc.Shapes = slices.Clone(sc.Shapes)
	set := func(g Geometry, kind Kind, closed bool) {
		o.check(e, g, closed)
		sh := Shape{Ref: g.Ref, Kind: kind, Closed: closed, Points: g.Points, Forks: g.Forks, Label: "x"}
		if g.Ref == 0 {
			o.last++
			sh.Ref = o.last
		}
		if i := slices.IndexFunc(sc.Shapes, func(s Shape) bool { return s.Ref == sh.Ref }); i >= 0 {
			sc.Shapes[i] = sh
		} else {
			sc.Shapes = append(sc.Shapes, sh)
		}
	}
	same := func(g Geometry) {
		sh, ok := o.sc.shape(g.Ref)
		if !ok || sh.OtherSide {
			o.t.Fatalf("%#v changes what is not there to change", e)
		}
		set(g, sh.Kind, sh.Closed)
	}
	drop := func(ref int) {
		sc.Shapes = slices.DeleteFunc(sc.Shapes, func(s Shape) bool { return s.Ref == ref })
	}
	switch e := e.(type) {
	case Add:
		set(Geometry{Points: e.Points}, e.Kind, e.Closed)
	case Change:
		for _, g := range e.Shapes {
			same(g)
		}
	case Fork:
		sh, _ := o.sc.shape(e.Ref)
		g := sh.geometry()
		g.Forks = append(g.Forks, e.Path)
		same(g)
	case Divide:
		sh, _ := o.sc.shape(e.Ref)
		same(e.First)
		set(e.Second, sh.Kind, false)
	case Join:
		same(e.Keep)
		drop(e.Gone)
	case Delete:
		for _, ref := range e.Refs {
			drop(ref)
		}
	case TrueEdge:
		sc.TrueEdge = e.Corners
	case Outline:
		sc.Outline = e.Points
	case FoldLine:
		sc.Fold = []geom.Pt{e.A, e.B}
	}
	return sc
}

// check fails unless a course is a shape of finite points.
func (o *owner) check(e Edit, g Geometry, closed bool) {
	o.t.Helper()
	least := 2
	if closed {
		least = 3
	}
	for i, line := range append([][]geom.Pt{g.Points}, g.Forks...) {
		if i > 0 {
			least = 2
		}
		if len(line) < least {
			o.t.Fatalf("%#v leaves a line of %d points", e, len(line))
		}
		for _, p := range line {
			if !p.Finite() {
				o.t.Fatalf("%#v has a point that is no number", e)
			}
		}
	}
}

// TestAStormOfEventsNeverBreaksAShape throws events of every kind at every
// tool, in any order, with an owner that applies each edit at once.
func TestAStormOfEventsNeverBreaksAShape(t *testing.T) {
	keys := []fyne.KeyName{fyne.KeyReturn, fyne.KeyEscape, fyne.KeyBackspace, fyne.KeyDelete, fyne.KeyInsert,
		fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeySpace, HideKey, LoupeKey, desktop.KeyControlLeft}
	runes := []rune("+-01,.hq xyz=")
	met := map[string]int{}
	for seed := range uint64(12) {
		rng := rand.New(rand.NewPCG(seed, 77))
		r := newRig(t, 300, 240, 1+float32(seed%2))
		o := &owner{t: t, last: 100, sc: specimen()}
		r.s.SetScene(o.sc)
		r.s.OnEdit = func(e Edit) {
			met[fmt.Sprintf("%T", e)]++
			o.sc = o.apply(e)
			r.s.SetScene(o.sc)
		}
		if seed%2 == 0 {
			r.s.Follow = func(a, b geom.Pt) []geom.Pt { return []geom.Pt{a, a.Lerp(b, 0.3), b} }
		}
		buttons := []desktop.MouseButton{desktop.MouseButtonPrimary, desktop.MouseButtonPrimary,
			desktop.MouseButtonPrimary, desktop.MouseButtonSecondary, desktop.MouseButtonTertiary}
		x, y := 100.0, 100.0
		for step := range 4000 {
			switch k := rng.IntN(100); {
			case k < 3:
				ids := ToolIDs()
				if rng.IntN(2) == 0 { // the tools that change the most, more often
					ids = []ToolID{SelectTool, TearTool, TearTool, RetraceTool, ReshapeTool, DivideTool}
				}
				r.s.SetTool(ids[rng.IntN(len(ids))])
			case k < 6:
				r.mods = []fyne.KeyModifier{0, 0, shift, ctrl}[rng.IntN(4)]
			case k < 30: // mostly somewhere near a shape's point, to meet things
				if sh := o.sc.Shapes; len(sh) > 0 && rng.IntN(3) > 0 {
					p := sh[rng.IntN(len(sh))].Points
					d := r.s.view.ToDevice(p[rng.IntN(len(p))])
					x, y = d.X/r.s.px+6*rng.NormFloat64(), d.Y/r.s.px+6*rng.NormFloat64()
				} else {
					x, y = 300*rng.Float64(), 240*rng.Float64()
				}
				r.move(x, y)
			case k < 55:
				b := buttons[rng.IntN(len(buttons))]
				r.s.MouseDown(r.at(x, y, b))
				if rng.IntN(12) == 0 { // an answer of work in the background, or undo
					o.sc = specimen()
					o.sc.Shapes = o.sc.Shapes[:len(o.sc.Shapes)-rng.IntN(7)]
					r.s.SetScene(o.sc)
				}
				for range rng.IntN(4) {
					x, y = x+20*rng.NormFloat64(), y+20*rng.NormFloat64()
					r.pull(x, y)
				}
				if rng.IntN(8) > 0 {
					r.s.MouseUp(r.at(x, y, b))
				}
				if rng.IntN(3) > 0 {
					r.s.DragEnd()
				}
			case k < 62:
				r.clock = r.clock.Add(time.Duration(rng.IntN(1000)) * time.Millisecond)
			case k < 66:
				r.s.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(x), float32(y))},
					Scrolled: fyne.Delta{DX: float32(rng.NormFloat64() * 10), DY: float32(rng.NormFloat64() * 40)}})
			case k < 86:
				r.key(keys[rng.IntN(len(keys))])
			case k < 92:
				r.s.TypedRune(runes[rng.IntN(len(runes))])
			case k < 94:
				r.s.JoinSelected()
			case k < 96:
				r.s.Select(rng.IntN(o.last+2), rng.IntN(12))
			case k < 97:
				r.s.Fit()
				o.sc = specimen() // as if everything had been undone
				r.s.SetScene(o.sc)
			case k < 98:
				r.s.FocusLost()
			default:
				r.frame()
			}
			if v := r.s.view; !(v.Scale >= MinScale && v.Scale <= MaxScale) || !v.Offset.Finite() {
				t.Fatalf("seed %d, step %d: view %v", seed, step, v)
			}
		}
	}
	for _, e := range []Edit{Add{}, Change{}, Fork{}, Divide{}, Delete{}, TrueEdge{}, FoldLine{}, TwoPoints{}, FourCorners{}, Sample{}} {
		if met[fmt.Sprintf("%T", e)] == 0 {
			t.Errorf("the storm never led to a %T: %v", e, met)
		}
	}
}
