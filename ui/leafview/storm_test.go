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

// storm throws events at a rig whose owner applies each edit at once.
type storm struct {
	*rig
	o    *owner
	rng  *rand.Rand
	x, y float64 // where the pointer is, units
}

// newStorm opens a rig on the specimen; met counts the kinds of edits.
func newStorm(t *testing.T, seed uint64, met map[string]int) *storm {
	r := newRig(t, 300, 240, 1+float32(seed%2))
	st := &storm{rig: r, o: &owner{t: t, last: 100}, rng: rand.New(rand.NewPCG(seed, 77)), x: 100, y: 100}
	st.show(specimen())
	r.s.OnEdit = func(e Edit) {
		met[fmt.Sprintf("%T", e)]++
		st.show(st.o.apply(e))
	}
	if seed%2 == 0 {
		r.s.Follow = func(a, b geom.Pt) []geom.Pt { return []geom.Pt{a, a.Lerp(b, 0.3), b} }
	}
	return st
}

func (st *storm) show(sc Scene) {
	st.o.sc = sc
	st.s.SetScene(sc)
}

// tool takes another tool; those that change the most, more often.
func (st *storm) tool() {
	ids := ToolIDs()
	if st.rng.IntN(2) == 0 {
		ids = []ToolID{SelectTool, TearTool, TearTool, RetraceTool, ReshapeTool, DivideTool}
	}
	st.s.SetTool(ids[st.rng.IntN(len(ids))])
}

// wander moves the pointer, mostly near a shape's point, to meet things.
func (st *storm) wander() {
	st.x, st.y = 300*st.rng.Float64(), 240*st.rng.Float64()
	if sh := st.o.sc.Shapes; len(sh) > 0 && st.rng.IntN(3) > 0 {
		p := sh[st.rng.IntN(len(sh))].Points
		d := st.s.view.ToDevice(p[st.rng.IntN(len(p))])
		st.x, st.y = d.X/st.s.px+6*st.rng.NormFloat64(), d.Y/st.s.px+6*st.rng.NormFloat64()
	}
	st.move(st.x, st.y)
}

// pressAndDrag presses some button; releases and ends of drags may get lost,
// and the scene may change in the middle, as by work in the background.
func (st *storm) pressAndDrag() {
	left := desktop.MouseButtonPrimary
	b := []desktop.MouseButton{left, left, left, desktop.MouseButtonSecondary, desktop.MouseButtonTertiary}[st.rng.IntN(5)]
	st.s.MouseDown(st.at(st.x, st.y, b))
	if st.rng.IntN(12) == 0 {
		sc := specimen()
		sc.Shapes = sc.Shapes[:len(sc.Shapes)-st.rng.IntN(7)]
		st.show(sc)
	}
	for range st.rng.IntN(4) {
		st.x, st.y = st.x+20*st.rng.NormFloat64(), st.y+20*st.rng.NormFloat64()
		st.pull(st.x, st.y)
	}
	if st.rng.IntN(8) > 0 {
		st.s.MouseUp(st.at(st.x, st.y, b))
	}
	if st.rng.IntN(3) > 0 {
		st.s.DragEnd()
	}
}

func (st *storm) scroll() {
	st.s.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(st.x), float32(st.y))},
		Scrolled: fyne.Delta{DX: float32(st.rng.NormFloat64() * 10), DY: float32(st.rng.NormFloat64() * 40)}})
}

var stormKeys = []fyne.KeyName{fyne.KeyReturn, fyne.KeyEscape, fyne.KeyBackspace, fyne.KeyDelete, fyne.KeyInsert,
	fyne.KeyLeft, fyne.KeyRight, fyne.KeyUp, fyne.KeyDown, fyne.KeySpace, HideKey, LoupeKey, desktop.KeyControlLeft}

// step throws one event.
func (st *storm) step() {
	rng := st.rng
	switch k := rng.IntN(100); {
	case k < 3:
		st.tool()
	case k < 6:
		st.mods = []fyne.KeyModifier{0, 0, shift, ctrl}[rng.IntN(4)]
	case k < 30:
		st.wander()
	case k < 55:
		st.pressAndDrag()
	case k < 62:
		st.clock = st.clock.Add(time.Duration(rng.IntN(1000)) * time.Millisecond)
	case k < 66:
		st.scroll()
	case k < 86:
		st.key(stormKeys[rng.IntN(len(stormKeys))])
	case k < 92:
		runes := []rune("+-01,.hq xyz=")
		st.s.TypedRune(runes[rng.IntN(len(runes))])
	case k < 94:
		st.s.JoinSelected()
	case k < 96:
		st.s.Select(rng.IntN(st.o.last+2), rng.IntN(12))
	case k < 97:
		st.s.Fit()
		st.show(specimen()) // as if everything had been undone
	case k < 98:
		st.s.FocusLost()
	default:
		st.frame()
	}
}

// TestAStormOfEventsNeverBreaksAShape throws events of every kind at every
// tool, in any order: nothing may panic, no edit may leave half a shape, and
// the view must stay one.
func TestAStormOfEventsNeverBreaksAShape(t *testing.T) {
	met := map[string]int{}
	for seed := range uint64(6) {
		st := newStorm(t, seed, met)
		for step := range 4000 {
			st.step()
			if v := st.s.view; !(v.Scale >= MinScale && v.Scale <= MaxScale) || !v.Offset.Finite() {
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
