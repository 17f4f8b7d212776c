package ui

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

func TestTheStripFollowsTheToolInHand(t *testing.T) {
	w := withBoth(t)
	s := w.trace.strip
	if s.shown != stripNone {
		t.Error("there is something in the strip although nothing is chosen")
	}
	height := w.surface.Size().Height
	w.typedRune('t')
	if s.shown != stripTracing {
		t.Fatal("no strip for tracing")
	}
	if got := w.surface.Size().Height; got != height {
		t.Errorf("the surface is %g high with a tool in hand, was %g: the leaf jumps", got, height)
	}
	test.Tap(s.follow)
	if w.settings.Follow() || w.surface.Habits().Follow {
		t.Error("the check does not stop following")
	}
	test.Tap(s.snap)
	if w.surface.Habits().Snap {
		t.Error("the check does not stop holding on")
	}
	s.radius.SetValue(17)
	if w.surface.Habits().SnapRadius != 17 {
		t.Errorf("reach of holding on %g", w.surface.Habits().SnapRadius)
	}
	w.Run("follow")
	if !s.follow.Checked {
		t.Error("the strip does not show what a key changed")
	}
	w.typedRune('B')
	if s.shown != stripOther {
		t.Error("no strip for the other side")
	}
	w.typedRune('v')
	if s.shown != stripNone {
		t.Error("the strip stays")
	}
	n := traceTear(t, w, at(150, 200), at(250, 200))
	if s.shown != stripChosen {
		t.Error("no strip for the margin of the mend in hand")
	}
	w.Run("margin-wider")
	if _, d, _ := w.session.Job().FindDamage(n); len(d.Mends) != 1 {
		t.Error("the margin is not wider")
	}
}

func TestHowHardTracesClingIsShownAtOnce(t *testing.T) {
	w := withBoth(t)
	w.typedRune('t')
	from, to := geom.Pt{X: 100, Y: 100}, geom.Pt{X: 200, Y: 100}
	w.follow(from, to)
	before := w.followed.ready
	if before == nil {
		t.Fatal("nothing is followed")
	}
	w.trace.strip.strength.SetValue(0.2)
	if w.settings.FollowStrength() != 0.2 || w.followed.ready == before {
		t.Error("the stretch in hand is not followed anew")
	}
}

func TestProposalsTellHowSureTheyAreAndAreTakenSinglyOrAll(t *testing.T) {
	w := withBoth(t)
	ring := func(x float64) []geom.Pt {
		return []geom.Pt{{X: x, Y: 200}, {X: x + 40, Y: 200}, {X: x + 40, Y: 240}, {X: x, Y: 240}}
	}
	list := []scan.Proposal{{Kind: scan.KindHole, Polygon: ring(100), Confidence: 0.82, Why: phrase.Of("backing is seen")},
		{Kind: scan.KindHole, Polygon: ring(200), Confidence: 0.4}, {Kind: scan.KindHole, Polygon: ring(300), Confidence: 0.6}}
	w.showProposals(list)
	if got := w.surface.Scene().Proposals[0].Label; got != "82 %" {
		t.Errorf("the first is labelled %q", got)
	}
	if w.trace.strip.shown != stripProposals {
		t.Error("no strip for proposals")
	}
	if leaf, _ := w.session.Leaf(); len(leaf.Damages) != 0 {
		t.Fatal("a proposal entered the job by itself")
	}
	w.typedRune('X') // asks about the first
	if !w.asking() {
		t.Fatal("nothing is asked")
	}
	w.closeDialog()
	w.dropProposal(1)
	w.typedRune('A')
	if leaf, _ := w.session.Leaf(); len(leaf.Damages) != 2 || len(w.proposals) != 0 {
		t.Errorf("%d losses, %d proposals left", len(leaf.Damages), len(w.proposals))
	}
	w.Run("undo")
	w.showProposals(list)
	w.typedRune('Z')
	if leaf, _ := w.session.Leaf(); len(leaf.Damages) != 0 || len(w.proposals) != 0 {
		t.Error("refusing all leaves something")
	}
}

func TestWhatIsAskedAboutIsSeenAboveTheQuestionAndEachAnswerLeadsOn(t *testing.T) {
	w := withBoth(t)
	ring := func(x float64) []geom.Pt {
		return []geom.Pt{{X: x, Y: 300}, {X: x + 40, Y: 300}, {X: x + 40, Y: 340}, {X: x, Y: 340}}
	}
	for _, size := range []fyne.Size{{Width: 1280, Height: 800}, {Width: 1024, Height: 700}} {
		w.win.Resize(size)
		w.showProposals([]scan.Proposal{{Kind: scan.KindHole, Polygon: ring(50)}, {Kind: scan.KindHole, Polygon: ring(150)}, {Kind: scan.KindHole, Polygon: ring(250)}})
		before := len(mustLeaf(t, w).Damages)
		w.nextProposal()
		for i, x := range []float64{50, 150, 250} {
			if !w.asking() {
				t.Fatalf("%v: nothing is asked about proposal %d", size, i+1)
			}
			question, _ := w.win.Canvas().Overlays().Top().(*widget.PopUp)
			top := (w.win.Canvas().Size().Height - question.Content.Size().Height) / 2
			scale, centre := w.surface.View()
			px := scale / float64(w.win.Canvas().Scale())
			origin := w.app.Driver().AbsolutePositionForObject(w.surface)
			low := float64(origin.Y+w.surface.Size().Height/2) + (340-centre.Y)*px
			high := low - 40*px
			left := float64(origin.X+w.surface.Size().Width/2) + (x-centre.X)*px
			if low > float64(top) || high < float64(origin.Y) || left < float64(origin.X) || left+40*px > float64(origin.X+w.surface.Size().Width) {
				t.Errorf("%v: proposal %d lies from %.0f to %.0f, the question begins at %.0f", size, i+1, high, low, top)
			}
			pressIn(t, w, "Yes, a loss")
		}
		if w.asking() || len(mustLeaf(t, w).Damages) != before+3 {
			t.Errorf("%v: after the last answer still asking %v, %d damages more", size, w.asking(), len(mustLeaf(t, w).Damages)-before)
		}
		w.Run("undo")
		w.Run("undo")
		w.Run("undo")
	}
}

func TestThePrintOfASideIsShownOnRequest(t *testing.T) {
	w := withBoth(t)
	pic, _ := w.pictures.get(w.session.scanPath(mustLeaf(t, w).Front.Scan), 0)
	if pic == nil {
		t.Fatal("the scan is not open")
	}
	paint := func() *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, 474, 552))
		painter{pic}.Paint(img, leafview.View{Scale: 1}, false)
		return img
	}
	if len(paint().Pix) == 0 {
		t.Fatal("no picture")
	}
	w.typedRune('I')
	if !w.printShown || !w.command("show-print").checked(w) {
		t.Error("Shift+I does not show the print")
	}
	w.typedRune('I')
	if w.printShown {
		t.Error("Shift+I does not take it away")
	}
}

func mustLeaf(t *testing.T, w *Window) mendplan.Leaf {
	t.Helper()
	l, ok := w.session.Leaf()
	if !ok {
		t.Fatal("no leaf")
	}
	return l
}

// TestKeysNeverStealTyping types every plain key of the command table into a
// field, and every key into a dialog: nothing but the field may change.
func TestKeysNeverStealTyping(t *testing.T) {
	w := withBoth(t)
	traceTear(t, w, geom.Pt{X: 300, Y: 200}, geom.Pt{X: 360, Y: 220})
	job := w.session.Job()
	tool, side, stage := w.surface.Tool(), w.session.Side(), w.stage
	field := w.side.details.form.note
	w.win.Canvas().Focus(field)
	typed := ""
	for _, c := range w.commands {
		for _, k := range c.keys {
			if len(k.name) != 1 || k.mod&^shift != 0 {
				continue
			}
			r := rune(k.name[0])
			if k.mod == 0 && r >= 'A' && r <= 'Z' {
				r += 'a' - 'A'
			}
			typed += string(r)
			w.win.Canvas().Focused().TypedRune(r)
		}
	}
	if len(typed) < 30 || field.Text != typed {
		t.Errorf("typed %q, the field has %q", typed, field.Text)
	}
	if w.surface.Tool() != tool || w.session.Side() != side || w.stage != stage || len(w.session.Job().Leaves) != len(job.Leaves) {
		t.Error("typing into a field ran a command")
	}
	w.win.Canvas().Unfocus()
	w.Run("true-size")
	if !w.asking() {
		t.Fatal("no dialog")
	}
	for _, r := range typed {
		w.typedRune(r)
	}
	if w.surface.Tool() != tool || w.session.Side() != side || w.stage != stage {
		t.Error("a key ran a command under a dialog")
	}
	w.closeDialog()
}

// TestKeysWorkWhateverHasTheFocus runs a command by its key with the focus on
// the surface, on the other surface, on nothing and on a list.
func TestKeysWorkWhateverHasTheFocus(t *testing.T) {
	w := withBoth(t)
	w.Run("side-by-side")
	canvas := w.win.Canvas()
	for name, focus := range map[string]func(){
		"the surface":    func() { canvas.Focus(w.surface) },
		"the other side": func() { canvas.Focus(w.beside.surface) },
		"nothing":        func() { canvas.Unfocus() },
	} {
		focus()
		before := w.session.Side()
		if f := canvas.Focused(); f != nil {
			f.TypedRune('f')
		} else {
			canvas.OnTypedRune()('f')
		}
		if w.session.Side() == before {
			t.Errorf("with %s in focus F does not turn the leaf over", name)
		}
	}
	traceTear(t, w, geom.Pt{X: 100, Y: 200}, geom.Pt{X: 160, Y: 220})
	canvas.Focus(w.beside.surface)
	canvas.Focused().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.Key2, Modifier: ctrl})
	if w.stage != stageMends {
		t.Error("Ctrl+2 on the other side does not show the mends")
	}
}
