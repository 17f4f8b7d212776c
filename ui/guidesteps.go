package ui

import "leafmend/ui/leafview"

// guideEvent is what a step of the guide may wait for.
type guideEvent int

const (
	guideNothing guideEvent = iota // the user goes on
	guideScans
	guideScaled
	guideLine // a tear or the like was traced
	guideRing // a loss or the like was traced
	guideCuts
	guidePrinted
	guideSaved
)

// guideStep is one step of the guided first mend.
type guideStep struct {
	words string               // in English; "" where say is given
	tell  func(*Window) string // what to do, where that depends on the job
	event guideEvent           // that completes it
	helps string               // on the button that helps, in English; "" for none
	help  func(*Window)
}

func (s guideStep) say(w *Window) string {
	if s.tell != nil {
		return s.tell(w)
	}
	return t(s.words)
}

// guideSteps leads from scan to cut list.
func guideSteps() []guideStep {
	run := func(id string) func(*Window) { return func(w *Window) { w.Run(id) } }
	trace := func(tool leafview.ToolID) func(*Window) {
		return func(w *Window) {
			w.leafToTrace()
			w.pickTool(tool)
		}
	}
	return []guideStep{
		{words: "Add a scan of a leaf, or open the sample job to practise on. Leaf 4 of the sample is left for you to trace.",
			event: guideScans, helps: "Open the sample job", help: run("sample")},
		{tell: sayScale, event: guideScaled, helps: "Set the scale…", help: func(w *Window) { w.showStage(stageTrace); w.trace.pressScale() }},
		{words: "Take the tool Tear (T) and press along a tear, point by point, from its blind end to the edge. Enter or a double press ends it, Backspace takes a point back.",
			event: guideLine, helps: "Take the tool Tear", help: trace(leafview.TearTool)},
		{words: "The tissue is drawn over the leaf already. On the right, change style, side, tissue or a margin, and see it change. Every default says what it rests on.",
			helps: "Choose the last damage", help: func(w *Window) {
				if !hasDamage(w) {
					w.Run("prev-damage")
				}
				w.side.showDetails()
			}},
		{words: "Trace a loss with the tool Loss (L): go round it, and press the first point again to close it, or Enter.",
			event: guideRing, helps: "Take the tool Loss", help: func(w *Window) { w.pickTool(leafview.LossTool) }},
		{words: "Look at the cut list (Ctrl+3): each sheet with its pieces, and the cuts in their order.",
			event: guideCuts, helps: "Show the cut list", help: run("stage-cuts")},
		{words: "Print (Ctrl+P) gives cut list, templates at true size and the estimate. Measure the bar of 100 mm before you cut.",
			event: guidePrinted, helps: "Print…", help: run("print")},
		{words: "Save the job (Ctrl+S). That is all: every other command is under F1.", event: guideSaved, helps: "Save", help: run("save")},
	}
}

// sayScale says whether the scale is known, and what to do if not.
func sayScale(w *Window) string {
	leaf, ok := w.session.Leaf()
	c := leaf.SideOf(w.session.Side()).Calibration
	if ok && c.Known() {
		return t("The scale of this side is known, as is said above the leaf: %s. Without a scale nothing could be measured or cut. Go on.", scaleShort(c))
	}
	return t("This side has no scale, as is said in red above the leaf, and so nothing can be measured or cut. Set it: by a ruler in the picture, by the size of the leaf, or by the resolution of the file.")
}
