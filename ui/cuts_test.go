package ui

import (
	"math"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"leafmend/mendplan"
	"leafmend/mendplan/nest"
)

// inCuts opens the sample job on its cut list.
func inCuts(t *testing.T) (*Window, *cutsPanel) {
	t.Helper()
	w := testWindow(t)
	withSample(t, w)
	w.Run("stage-cuts")
	p := w.panels[stageCuts].(*cutsPanel)
	if len(p.sheets) < 2 {
		t.Fatalf("the sample lies on %d sheets", len(p.sheets))
	}
	return w, p
}

// middleOf is where a piece is drawn.
func middleOf(d *sheetDrawing, place int) fyne.Position {
	p := d.sheet.Places[place]
	pos, size := d.view.rect(p.X, p.Y, p.W, p.H)
	return pos.AddXY(size.Width/2, size.Height/2)
}

func hoverAt(d *sheetDrawing, at fyne.Position) {
	d.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at}})
}

func TestPointingAtAPieceShowsItOnItsLeaf(t *testing.T) {
	w, p := inCuts(t)
	for i, pl := range p.draw.sheet.Places {
		hoverAt(p.draw, middleOf(p.draw, i))
		piece, _ := w.piece(pl.Blank)
		if p.glance.leaf != piece.Leaf || p.glance.side != piece.Side || !p.glance.lit[pl.Blank] {
			t.Errorf("%s: the picture shows leaf %s, %s, lit %v", pl.Blank, p.glance.leaf, p.glance.side, p.glance.lit)
		}
	}
	p.draw.MouseOut()
	if len(p.glance.lit) != 0 {
		t.Errorf("still lit: %v", p.glance.lit)
	}
}

func TestPointingAtAPieceOnItsLeafLightsItOnTheSheet(t *testing.T) {
	_, p := inCuts(t)
	hoverAt(p.draw, middleOf(p.draw, 0))
	label := p.draw.label(0)
	k, at := p.glance.fit()
	if k <= 0 {
		t.Fatal("the picture has no size")
	}
	for _, s := range p.glance.shapes {
		if s.label == label {
			q := s.rings[0][0].Lerp(s.rings[0][1], 0.5)
			p.glance.MouseMoved(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(at.X+float32(q.X)*k, at.Y+float32(q.Y)*k)}})
		}
	}
	if p.glance.hover == "" || !p.draw.lit[p.glance.hover] {
		t.Errorf("pointing at %q lit %v", p.glance.hover, p.draw.lit)
	}
}

func TestAChosenDamageShowsItsPiecesOnTheirSheet(t *testing.T) {
	w, p := inCuts(t)
	last := p.sheets[len(p.sheets)-1]
	piece, _ := w.piece(last.sheet.Places[0].Blank)
	w.takeInHand(piece.Damage)
	w.Run("show-on-sheet")
	if w.stage != stageCuts || !p.carries(p.at, map[string]bool{piece.Label: true}) || !p.draw.lit[piece.Label] {
		t.Errorf("sheet %d is shown, lit %v; want the sheet of %s", p.at+1, p.draw.lit, piece.Label)
	}
}

func TestTheSheetZoomsAtThePointerAndMoves(t *testing.T) {
	_, p := inCuts(t)
	d := p.draw
	at := middleOf(d, 3)
	under := d.view.toSheet(at)
	k := d.view.k
	d.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.NewDelta(0, 50)})
	now := d.view.toSheet(at)
	if d.view.k <= k || math.Hypot(now.X-under.X, now.Y-under.Y) > 0.5 {
		t.Errorf("zoom went from %g to %g, and the place under the pointer from %v to %v", k, d.view.k, under, now)
	}
	before := d.view.at
	corner := fyne.NewPos(d.view.at.X+1, d.view.at.Y-8) // beside the sheet
	d.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: corner.AddXY(20, -10)}, Dragged: fyne.NewDelta(20, -10)})
	d.DragEnd()
	if got := d.view.at.Subtract(before); got.X != 20 || got.Y != -10 {
		t.Errorf("dragging by 20, −10 moved the sheet by %v", got)
	}
	d.TypedRune('0')
	if d.closeUp() {
		t.Error("0 does not show the whole sheet")
	}
	d.TypedRune('+')
	if d.view.k <= d.view.wholeScale() {
		t.Error("+ does not zoom in")
	}
}

func TestACutIsTickedOffWithThePiecesItFrees(t *testing.T) {
	w, p := inCuts(t)
	step := slices.IndexFunc(p.draw.sheet.Cuts, func(c nest.Cut) bool { return c.Near.Place >= 0 || c.Far.Place >= 0 })
	p.steps.Select(step)
	if p.draw.marked != step {
		t.Fatalf("cut %d is chosen, and %d is shown", step, p.draw.marked)
	}
	free := 0
	for i := range p.draw.sheet.Places {
		if p.draw.freed(i) {
			free++
		}
	}
	if free == 0 {
		t.Error("no piece is shown as coming free")
	}
	p.steps.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	held := w.session.Job().Held
	if len(held) == 0 || !held[0].Steps[step].Off {
		t.Fatal("the cut is not ticked off in the job")
	}
	off := 0
	for _, pc := range held[0].Pieces {
		if pc.Off {
			off++
		}
	}
	if off != free {
		t.Errorf("%d pieces are ticked off, %d come free", off, free)
	}
	w.undo()
	if len(w.session.Job().Held) != 0 {
		t.Error("undo leaves the sheets held")
	}
}

func TestAPieceIsTickedOffByKey(t *testing.T) {
	w, p := inCuts(t)
	p.draw.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	p.draw.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	n := 0
	for _, h := range w.session.Job().Held {
		for _, pc := range h.Pieces {
			if pc.Off {
				n++
			}
		}
	}
	if n != 1 {
		t.Errorf("%d pieces are ticked off, want 1", n)
	}
}

func TestADraggedPieceIsHeldWhereItIsDropped(t *testing.T) {
	w, p := inCuts(t)
	at := slices.IndexFunc(p.sheets, func(s sheetRef) bool { return !s.sheet.Remnant })
	p.goTo(at)
	d := p.draw
	label, pl := d.label(0), d.sheet.Places[0]
	d.fit(fitWhole)
	from := middleOf(d, 0)
	by := fyne.NewDelta(60, 90)
	d.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: from.AddXY(by.DX, by.DY)}, Dragged: by})
	d.DragEnd()
	pin, ok := w.session.Job().PinOf(label)
	if !ok {
		t.Fatalf("%s is not held; %q", label, w.status.outcome)
	}
	if wantX := pl.X + float64(by.DX/d.view.k); math.Abs(pin.XMM-wantX) > 0.3 {
		t.Errorf("it is held at x = %g, dropped at %g", pin.XMM, wantX)
	}
	found := false
	for _, s := range p.sheets {
		for _, q := range s.sheet.Places {
			if q.Blank == label {
				found = math.Abs(q.X-pin.XMM) < 0.01 && math.Abs(q.Y-pin.YMM) < 0.01 && q.Pinned
			}
		}
	}
	if !found {
		t.Error("the layout does not keep to it")
	}
	p.chooseLabel(label)
	d.TypedRune('h')
	if _, still := w.session.Job().PinOf(label); still {
		t.Error("H does not let it go")
	}
	w.undo()
	w.undo()
	if len(w.session.Job().Pinned) != 0 {
		t.Error("undo leaves it held")
	}
}

func TestASheetMarkedAsCutLeavesTheStock(t *testing.T) {
	w, p := inCuts(t)
	p.goTo(slices.IndexFunc(p.sheets, func(s sheetRef) bool { return !s.sheet.Remnant && !s.sheet.Roll }))
	s := p.sheets[p.at]
	count := func() int {
		for _, item := range w.session.Job().Stock {
			if item.ID == s.sheet.Stock {
				return item.Count
			}
		}
		return -1
	}
	before, items := count(), len(w.session.Job().Stock)
	w.Run("sheet-cut")
	if count() != before-1 {
		t.Errorf("%d of %s are in stock, were %d", count(), s.sheet.Stock, before)
	}
	if got, want := len(w.session.Job().Stock)-items, len(s.sheet.Offcuts()); got != want {
		t.Errorf("%d remnants entered the stock, want %d", got, want)
	}
	if !p.sheets[p.at].done {
		t.Error("the sheet shown is not the one that is cut")
	}
	w.Run("sheet-cut")
	if count() != before || len(w.session.Job().Stock) != items {
		t.Error("taking it back does not bring the stock back")
	}
}

func TestALongerSearchKeepsTheBetterLayoutThroughOtherEdits(t *testing.T) {
	w, p := inCuts(t)
	use := func() (sum float64) {
		for _, l := range w.session.Plan().Layouts {
			sum += l.Layout.Use()
		}
		return sum
	}
	before := use()
	p.seek.effort.SetSelectedIndex(0)
	w.Run("search-longer")
	after := use()
	if after > before {
		t.Errorf("the search made it worse: %g, was %g", after, before)
	}
	if w.status.outcome == "" {
		t.Error("the outcome is not told")
	}
	j := w.session.Job()
	j.Title = "another title"
	w.session.Do("change title", j)
	if got := use(); got != after {
		t.Errorf("another title made it %g, was %g", got, after)
	}
}

func TestASearchIsEndedOrCancelled(t *testing.T) {
	for name, enough := range map[string]bool{"good enough keeps the best found": true, "cancelled it leaves the layout as it was": false} {
		t.Run(name, func(t *testing.T) {
			w, _ := inCuts(t)
			stopped := false
			w.session.searchChanged.listen(func() {
				if _, _, running := w.session.Searching(); running && !stopped {
					stopped = true
					w.session.StopSearch(enough)
				}
			})
			told := false
			w.session.SearchLonger(4000, func(_, _ mendplan.Plan) { told = true })
			if _, _, running := w.session.Searching(); running || !stopped {
				t.Fatalf("the search still runs, or was never told of (%v)", stopped)
			}
			if told != enough {
				t.Errorf("the outcome told is %v", told)
			}
			if len(w.session.Plan().Layouts) == 0 || unplacedCount(w.session.Plan()) > 0 {
				t.Error("the layout is gone")
			}
		})
	}
}

func TestStockThatWouldDoIsOnePress(t *testing.T) {
	w, _ := inCuts(t)
	j := w.session.Job()
	for _, s := range j.Stock {
		j = j.WithoutStock(s.ID)
	}
	w.session.Do("take stock out", j)
	n := unplacedCount(w.session.Plan())
	if n == 0 {
		t.Fatal("without stock every piece has its place")
	}
	for range 10 {
		found := mendplan.Remedies(t.Context(), w.session.Job(), w.session.Plan())
		if len(found) == 0 {
			break
		}
		w.session.Do("add stock", found[0].Apply(w.session.Job()))
	}
	if n := unplacedCount(w.session.Plan()); n > 0 {
		t.Errorf("%d pieces are still on no sheet", n)
	}
}

func TestSheetsCutAlikeAreListedOnce(t *testing.T) {
	_, p := inCuts(t)
	twice := []sheetRef{p.sheets[0], p.sheets[1], p.sheets[0]}
	twice[2].number = 3
	runs := runsOf(twice)
	if len(runs) != 2 || len(runs[0]) != 2 {
		t.Errorf("the runs are %v, want the first and third together", runs)
	}
}
