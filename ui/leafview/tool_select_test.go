package leafview

import (
	"slices"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan/geom"
)

// drawer is a surface with a tear 1, a loss 2, a forked tear 3, and a tear 4
// of the other side.
func drawer(t *testing.T, scale float32) *rig {
	r := newRig(t, 600, 400, scale)
	r.s.SetScene(Scene{Shapes: []Shape{
		{Ref: 1, Kind: Tear, Points: path(50, 50, 150, 50, 250, 50)},
		{Ref: 2, Kind: Loss, Closed: true, Points: path(100, 100, 300, 100, 300, 200, 100, 200)},
		{Ref: 3, Kind: Tear, Points: path(50, 300, 150, 300, 250, 300), Forks: [][]geom.Pt{path(150, 300, 160, 350)}},
		{Ref: 4, Kind: Tear, OtherSide: true, Points: path(400, 50, 500, 50)},
	}})
	return r
}

func chosen(r *rig, want ...int) {
	r.t.Helper()
	if got := r.s.Selected(); !slices.Equal(got, want) {
		r.t.Fatalf("chosen %v, want %v", got, want)
	}
}

func TestChoosing(t *testing.T) {
	r := drawer(t, 2)
	var told [][]int
	r.s.OnSelect = func(refs []int) { told = append(told, refs) }
	r.press(100, 54) // beside the line, within reach
	chosen(r, 1)
	r.press(200, 150) // inside the loss
	chosen(r, 2)
	r.with(shift, func() { r.press(60, 300) })
	chosen(r, 2, 3)
	r.with(shift, func() { r.press(200, 150) })
	chosen(r, 3)
	r.press(450, 50) // the other side's cannot be chosen
	chosen(r)
	if len(told) != 5 {
		t.Errorf("told %d times, want 5: %v", len(told), told)
	}
	r.none()
}

func TestAMethodDoesNotCallBack(t *testing.T) {
	r := drawer(t, 1)
	r.s.OnSelect = func([]int) { t.Error("Select called OnSelect") }
	r.s.OnView = func() { t.Error("SetView called OnView") }
	r.s.Select(1, 99, 1)
	chosen(r, 1)
	r.s.SetView(3, path(1, 1)[0])
}

func TestABoxChoosesWhatLiesWholeInIt(t *testing.T) {
	r := drawer(t, 1)
	r.drag(20, 30, 100, 100, 320, 220)
	chosen(r, 1, 2)
	r.with(shift, func() { r.drag(20, 280, 100, 320, 280, 370) })
	chosen(r, 1, 2, 3)
	r.drag(20, 230, 300, 310, 300, 320) // not all of 3
	chosen(r)
	r.none()
}

func TestDraggingAPoint(t *testing.T) {
	for _, scale := range []float32{1, 2} {
		r := drawer(t, scale)
		r.s.Select(1)
		r.drag(153, 52, 170, 60, 183, 72) // taken hold of beside its middle
		e := one[Change](r)
		if e.Why != MovePoint {
			t.Errorf("why %q", e.Why)
		}
		samePath(t, "moved", e.Shapes[0].Points, path(50, 50, 180, 70, 250, 50))
	}
}

func TestADraggedPointHoldsOnToOthersUnlessCtrl(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(1)
	r.drag(150, 50, 150, 90, 104, 103) // near a corner of the loss
	samePath(t, "held on", one[Change](r).Shapes[0].Points, path(50, 50, 100, 100, 250, 50))
	r.with(ctrl, func() { r.drag(150, 50, 150, 90, 104, 103) })
	samePath(t, "free", one[Change](r).Shapes[0].Points, path(50, 50, 104, 103, 250, 50))
	r.drag(150, 50, 160, 50, 155, 50) // its own old place does not hold it
	samePath(t, "own line", one[Change](r).Shapes[0].Points, path(50, 50, 155, 50, 250, 50))
}

func TestEscapeMidDragPutsBack(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(1)
	r.move(150, 50)
	r.s.MouseDown(r.at(150, 50, desktop.MouseButtonPrimary))
	r.pull(150, 90)
	r.key(fyne.KeyEscape)
	r.pull(150, 95)
	r.s.MouseUp(r.at(150, 95, desktop.MouseButtonPrimary))
	r.none()
	chosen(r, 1)
}

func TestSeveralPointsMoveTogether(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(1)
	r.press(50, 50)
	r.with(shift, func() { r.press(250, 50) })
	r.drag(250, 50, 250, 60, 250, 70)
	samePath(t, "moved", one[Change](r).Shapes[0].Points, path(50, 70, 150, 50, 250, 70))
}

func TestABoxWithCtrlChoosesPoints(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(3)
	r.with(ctrl, func() { r.drag(130, 280, 160, 320, 270, 360) })
	chosen(r, 3)
	if len(r.s.points) != 4 {
		t.Errorf("%d points chosen, want 4 (two of the tear, two of its fork)", len(r.s.points))
	}
}

func TestAddingAPoint(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(r *rig)
		want []geom.Pt
	}{
		{"by pressing the plus", func(r *rig) { r.press(100, 51) }, path(50, 50, 100, 50, 150, 50, 250, 50)},
		{"by dragging the plus", func(r *rig) { r.drag(200, 50, 200, 60, 205, 80) }, path(50, 50, 150, 50, 205, 80, 250, 50)},
		{"by a double press on the line", func(r *rig) { r.double(125, 52) }, path(50, 50, 125, 50, 150, 50, 250, 50)},
		{"by Insert after the chosen point", func(r *rig) { r.press(150, 50); r.key(fyne.KeyInsert) }, path(50, 50, 150, 50, 200, 50, 250, 50)},
	} {
		r := drawer(t, 2)
		r.s.Select(1)
		c.do(r)
		e := one[Change](r)
		samePath(t, c.name, e.Shapes[0].Points, c.want)
		if e.Why != InsertPoint {
			t.Errorf("%s: why %q", c.name, e.Why)
		}
	}
}

func TestDraggingAWholeShapeWithItsForks(t *testing.T) {
	r := drawer(t, 1)
	r.drag(75, 300, 80, 310, 85, 320)
	e := one[Change](r)
	samePath(t, "tear", e.Shapes[0].Points, path(60, 320, 160, 320, 260, 320))
	samePath(t, "fork", e.Shapes[0].Forks[0], path(160, 320, 170, 370))
	r.s.Select(1, 3)
	r.drag(75, 300, 80, 310, 85, 320)
	if e := one[Change](r); len(e.Shapes) != 2 || e.Label() != "move shapes" {
		t.Errorf("moved %d shapes, %q", len(e.Shapes), e.Label())
	}
}

func TestABoxCanBeginInsideALoss(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select()
	r.drag(150, 150, 160, 160, 190, 170)
	r.none()
	r.s.Select(2)
	r.drag(150, 150, 160, 160, 190, 170)
	samePath(t, "chosen, it moves", one[Change](r).Shapes[0].Points, path(140, 120, 340, 120, 340, 220, 140, 220))
}

func TestDeleting(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(1, 2)
	r.key(fyne.KeyDelete)
	if e := one[Delete](r); !slices.Equal(e.Refs, []int{1, 2}) || e.Label() != "delete damages" {
		t.Errorf("got %v", e)
	}
	r.s.Select(1)
	r.press(150, 50)
	r.key(fyne.KeyDelete)
	samePath(t, "without its middle", one[Change](r).Shapes[0].Points, path(50, 50, 250, 50))
	r.press(150, 50)
	r.with(shift, func() { r.press(250, 50) })
	r.key(fyne.KeyDelete)
	if e := one[Delete](r); !slices.Equal(e.Refs, []int{1}) {
		t.Errorf("a path of one point: got %v", e)
	}
	r.s.Select(3)
	r.press(160, 350)
	r.key(fyne.KeyDelete)
	if e := one[Change](r); len(e.Shapes[0].Forks) != 0 || len(e.Shapes[0].Points) != 3 {
		t.Errorf("a fork of one point: got %v", e)
	}
	r.s.Select()
	r.key(fyne.KeyDelete)
	r.none()
}

func TestBackspaceWhileDrawingNeverDeletesWhatIsChosen(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(2)
	r.s.SetTool(TearTool)
	r.press(400, 300)
	r.key(fyne.KeyBackspace)
	r.key(fyne.KeyBackspace)
	r.none()
}

func TestNudging(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(1)
	r.key(fyne.KeyRight)
	e := one[Change](r)
	samePath(t, "not calibrated: one pixel", e.Shapes[0].Points, path(51, 50, 151, 50, 251, 50))
	if e.Why != Nudge {
		t.Errorf("why %q", e.Why)
	}
	sc := r.s.Scene()
	sc.Frame = UniformFrame(0.05, 0.05) // 20 pixels a millimetre
	r.s.SetScene(sc)
	r.press(150, 50)
	r.with(shift, func() { r.key(fyne.KeyUp) })
	samePath(t, "one point, one millimetre", one[Change](r).Shapes[0].Points, path(50, 50, 150, 30, 250, 50))
	r.key(fyne.KeyUp)
	samePath(t, "a tenth", one[Change](r).Shapes[0].Points, path(50, 50, 150, 48, 250, 50))
}

func TestSteppingThroughPointsByKeys(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(3)
	for range 4 {
		r.s.TypedRune('.')
	}
	if r.s.points[0] != (pointRef{3, 1, 0}) {
		t.Errorf("point %v, want the first of the fork", r.s.points)
	}
	r.s.TypedRune(',')
	if r.s.points[0] != (pointRef{3, 0, 2}) {
		t.Errorf("point %v, want the last of the tear", r.s.points)
	}
}

func TestProposalsAndPiecesArePressed(t *testing.T) {
	r := drawer(t, 1)
	sc := r.s.Scene()
	sc.Proposals = []Proposal{{ID: 7, Points: path(400, 200, 500, 200, 500, 300, 400, 300)}}
	sc.Pieces = []PieceShape{{Label: "1f-1a", Ref: 1, Rings: [][]geom.Pt{path(30, 20, 350, 20, 350, 80, 30, 80)}}}
	r.s.SetScene(sc)
	var id int
	var piece string
	r.s.OnProposal = func(i int) { id = i }
	r.s.OnPiece = func(label string) { piece = label }
	r.press(450, 250)
	if id != 7 {
		t.Errorf("proposal %d, want 7", id)
	}
	r.press(320, 50)
	if piece != "1f-1a" {
		t.Errorf("piece %q, want 1f-1a", piece)
	}
}

func TestASceneWithoutTheChosenLetsGoOfIt(t *testing.T) {
	r := drawer(t, 1)
	r.s.Select(1, 3)
	r.press(150, 300)
	r.s.SetScene(Scene{Shapes: []Shape{{Ref: 3, Kind: Tear, Points: path(1, 1)}}})
	chosen(r, 3)
	if len(r.s.points) != 0 {
		t.Errorf("points %v of what is no more are chosen", r.s.points)
	}
	r.frame()
}

func TestANewSceneMidDragIsBorne(t *testing.T) {
	without := Scene{Shapes: []Shape{{Ref: 2, Kind: Loss, Closed: true, Points: path(100, 100, 300, 100, 300, 200)}}}
	for _, c := range []struct {
		name string
		x, y float64
	}{{"a point", 150, 50}, {"a plus", 100, 50}, {"a shape", 80, 50}} {
		r := drawer(t, 1)
		with := r.s.Scene()
		r.s.Select(1)
		down := func() {
			r.clock = r.clock.Add(time.Second)
			r.move(c.x, c.y)
			r.s.MouseDown(r.at(c.x, c.y, desktop.MouseButtonPrimary))
		}
		down()
		r.s.SetScene(without) // the damage is gone before the first move
		r.pull(c.x, c.y+20)
		r.s.MouseUp(r.at(c.x, c.y+20, desktop.MouseButtonPrimary))
		r.none()

		r.s.SetScene(with)
		r.s.Select(1)
		down()
		r.pull(c.x, c.y+20)
		r.s.SetScene(with) // the same again, as when pieces have been worked out
		r.pull(c.x, c.y+30)
		r.s.MouseUp(r.at(c.x, c.y+30, desktop.MouseButtonPrimary))
		if e := one[Change](r); e.Shapes[0].Ref != 1 {
			t.Errorf("%s: %v", c.name, e)
		}
	}
}
