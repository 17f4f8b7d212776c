package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// guide leads through a first mend in a strip above the status line. A step
// goes on by itself when what it asks for is done; the user may go on, back or
// away at any time, and finds the guide again where it was left. A nil guide,
// or one that is closed, does nothing.
type guide struct {
	w     *Window
	steps []guideStep
	at    int
	words *widget.Label
	count *widget.Label
	help  *keyButton
	next  *keyButton
	box   *fyne.Container
}

func newGuide(w *Window) *guide {
	g := &guide{w: w, steps: guideSteps(), words: widget.NewLabel(""), count: widget.NewLabel("")}
	g.words.Wrapping = fyne.TextWrapWord
	g.count.TextStyle.Bold = true
	press := func(act func()) func() { return func() { act(); w.focusSurface() } }
	g.help = newButton("", press(func() { g.steps[g.at].help(w) }))
	back := newButton(t("Back"), press(func() { g.step(-1) }))
	g.next = newButton(t("Next"), press(func() { g.step(1) }))
	g.next.Importance = widget.HighImportance
	away := newButton(t("Close"), g.close)
	// As high for one line of words as for two, lest the leaf jump from step
	// to step.
	lines := canvas.NewRectangle(nil)
	two := widget.NewLabel("\n")
	lines.SetMinSize(fyne.NewSize(1, two.MinSize().Height))
	middle := func(o fyne.CanvasObject) fyne.CanvasObject {
		return container.NewVBox(layout.NewSpacer(), o, layout.NewSpacer())
	}
	g.box = container.NewStack(container.NewBorder(widget.NewSeparator(), nil, middle(g.count),
		middle(container.NewHBox(g.help, back, g.next, away)), container.NewStack(lines, middle(g.words))))
	g.box.Hide()
	return g
}

func (g *guide) content() fyne.CanvasObject { return g.box }

func (g *guide) open() bool { return g != nil && g.box.Visible() }

// toggleGuide opens the guide where it was left, or closes it.
func (w *Window) toggleGuide() {
	g := w.guide
	if g.open() {
		g.close()
		return
	}
	at := w.settings.GuideAt()
	if !hasLeaf(w) {
		at = 0
	} else if at == 0 {
		at = 1
	}
	g.box.Show()
	g.show(at)
	w.status.say(t("%s goes on, %s goes back, %s closes this guide.", w.command("guide-next").keys[0], w.command("guide-back").keys[0], w.command("guide").keys[0]))
}

// did tells the guide what happened; if its step waits for that, it goes on.
func (g *guide) did(e guideEvent) {
	if g.open() && g.steps[g.at].event == e {
		g.step(1)
	}
}

// traced tells the guide what kind of damage was traced.
func (g *guide) traced(kind mendplan.DamageKind) {
	if kind.Closed() {
		g.did(guideRing)
	} else {
		g.did(guideLine)
	}
}

// step goes on or back; past the last step the guide is through.
func (g *guide) step(by int) {
	if g.at+by < len(g.steps) {
		g.show(max(g.at+by, 0))
		return
	}
	g.w.settings.SetGuideAt(0)
	g.box.Hide()
	g.w.status.say(t("That was the whole way. Good mending!"))
}

func (g *guide) show(i int) {
	g.at = min(max(i, 0), len(g.steps)-1)
	g.w.settings.SetGuideAt(g.at)
	g.refresh()
}

// refresh says the step anew: some depend on the leaf in hand.
func (g *guide) refresh() {
	if !g.open() {
		return
	}
	step := g.steps[g.at]
	g.words.SetText(step.say(g.w))
	g.count.SetText(t("Step %d of %d", g.at+1, len(g.steps)))
	words := ""
	if step.helps != "" {
		words = t(step.helps)
	}
	g.help.SetText(words)
	g.help.Hidden = words == ""
	g.next.SetText(t("Next"))
	if g.at == len(g.steps)-1 {
		g.next.SetText(t("Finish"))
	}
	g.box.Refresh()
}

// close puts the guide away until it is called again.
func (g *guide) close() {
	g.box.Hide()
	g.w.status.say(t("The guide goes on from here when you call it again: %s.", g.w.command("guide").keys[0]))
	g.w.focusSurface()
}

// leafToTrace shows a leaf on which nothing is traced yet, if there is one.
func (w *Window) leafToTrace() {
	leaves := w.session.Job().Leaves
	leaf, _ := w.session.Leaf()
	if len(leaf.Damages) == 0 {
		return
	}
	if i := slices.IndexFunc(leaves, func(l mendplan.Leaf) bool { return len(l.Damages) == 0 }); i >= 0 {
		w.session.Show(leaves[i].ID, "")
	}
}
