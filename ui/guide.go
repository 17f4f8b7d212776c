package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// guideStep is one step of the guided first mend. It is done when its event
// happens, or when the user goes on.
type guideEvent int

const (
	guideNothing guideEvent = iota
	guideScans
	guideScaled
	guideTraced
	guideCuts
	guidePrinted
	guideSaved
)

type guideStep struct {
	words string
	event guideEvent // that completes it; nothing means the user goes on
	run   string     // command that helps, "" for none
}

// guideSteps leads from scan to cut list.
func guideSteps() []guideStep {
	return []guideStep{
		{"Add a scan of a leaf, or open the sample job to practise on. Leaf 4 of the sample is left for you to trace.", guideScans, "sample"},
		{"Look at the chip that tells the scale, above the leaf. If it says NO SCALE in red, press it and set the scale. If it shows a number, go on.", guideScaled, ""},
		{"Take the tool Tear (T). Press along a tear, point by point, from its blind end to the edge; Enter or a double press ends it.", guideTraced, "tool-tear"},
		{"The tissue is drawn over the leaf already. On the right, change style, side, tissue or a margin, and see it change. Every default says what it rests on.", guideNothing, ""},
		{"Trace a loss with the tool Loss (L): go round it, and press the first point again to close it.", guideTraced, "tool-loss"},
		{"Look at the cut list (Ctrl+3): each sheet with its pieces, and the cuts in their order.", guideCuts, "stage-cuts"},
		{"Print (Ctrl+P) gives cut list, templates at true size and the estimate. Measure the bar of 100 mm before you cut.", guidePrinted, "print"},
		{"Save the job (Ctrl+S). That is all: every other command is under F1.", guideSaved, "save"},
	}
}

// guide shows the steps in a strip above the status line. A nil guide, or one
// that is closed, does nothing.
type guide struct {
	w     *Window
	steps []guideStep
	at    int
	words *widget.Label
	count *widget.Label
	help  *widget.Button
	box   *fyne.Container
}

func newGuide(w *Window) *guide {
	g := &guide{w: w, steps: guideSteps(), words: widget.NewLabel(""), count: widget.NewLabel("")}
	g.words.Wrapping = fyne.TextWrapWord
	g.count.TextStyle.Bold = true
	g.help = widget.NewButton("", func() { w.Run(g.steps[g.at].run); w.focusSurface() })
	back := widget.NewButton(t("Back"), func() { g.show(g.at - 1) })
	next := widget.NewButton(t("Next"), func() { g.show(g.at + 1) })
	next.Importance = widget.HighImportance
	skip := widget.NewButton(t("Close"), g.close)
	g.box = container.NewStack(container.NewBorder(widget.NewSeparator(), nil, g.count,
		container.NewHBox(g.help, back, next, skip), g.words))
	g.box.Hide()
	return g
}

func (g *guide) content() fyne.CanvasObject { return g.box }

func (w *Window) openGuide() {
	w.guide.at = 0
	w.guide.box.Show()
	if hasLeaf(w) {
		w.guide.at = 1
	}
	w.guide.show(w.guide.at)
}

// did tells the guide what happened; if its step waits for that, it goes on.
func (g *guide) did(e guideEvent) {
	if g != nil && g.box.Visible() && g.steps[g.at].event == e {
		g.show(g.at + 1)
	}
}

func (g *guide) show(i int) {
	if i >= len(g.steps) {
		g.close()
		g.w.status.say(t("That was the whole way. Good mending!"))
		return
	}
	g.at = max(i, 0)
	step := g.steps[g.at]
	g.words.SetText(t(step.words))
	g.count.SetText(t("Step %d of %d", g.at+1, len(g.steps)))
	g.help.Hidden = step.run == ""
	if step.run != "" {
		g.help.SetText(t(g.w.command(step.run).words))
	}
	g.box.Refresh()
}

func (g *guide) close() {
	g.box.Hide()
	g.w.settings.SetGuideSeen(true)
	g.w.focusSurface()
}
