package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
)

// tracePanel is the stage for tracing: leaves on the left, the surface with
// its tools in the middle, particulars on the right.
type tracePanel struct {
	w           *Window
	left, right *container.Split
	start       *startPanel
	all         *fyne.Container
	tools       *toolColumn
	title       *widget.Label
	front, back *pressable
	scale       *pressable
	ribbon      *ribbon
	head        *canvas.Rectangle
	both        *pressable
	strip       *toolStrip
	usual       float64 // share of the surface while one side is shown
}

func newTracePanel(w *Window) *tracePanel {
	p := &tracePanel{w: w, title: widget.NewLabel(""), tools: newToolColumn(w), start: newStartPanel(w), ribbon: newRibbon()}
	p.title.TextStyle.Bold = true
	p.title.Truncation = fyne.TextTruncateEllipsis
	p.head = canvas.NewRectangle(shade(colourPanel))
	p.front = p.sideButton(mendplan.Front)
	p.back = p.sideButton(mendplan.Back)
	p.scale = newPressable("calibrate", "", p.pressScale)
	p.scale.onHint = w.status.hover
	prev, next := w.commandButton(w.command("prev-leaf"), "prev", ""), w.commandButton(w.command("next-leaf"), "next", "")
	fit := w.commandButton(w.command("fit"), "fit", "")
	p.both = w.commandButton(w.command("side-by-side"), "both", "")
	out, in := w.commandButton(w.command("zoom-out"), "minus", ""), w.commandButton(w.command("zoom-in"), "plus", "")
	row := container.New(&givingRow{title: p.title, gives: []fyne.CanvasObject{out, in, fit, p.both, prev, next}},
		prev, next, p.title, p.front, p.back, p.both, p.scale, out, in, fit)
	head := container.NewStack(p.head, container.New(layout.NewCustomPaddedLayout(2, 2, 2, 2), row))
	p.strip = newToolStrip(w)
	middle := container.NewBorder(container.NewVBox(head, p.ribbon.content()), p.strip.content(), p.tools.content(), nil, w.beside.content())
	p.right = container.NewHSplit(middle, w.side.content())
	p.left = container.NewHSplit(w.leaves.content(), p.right)
	p.left.Offset = within(w.settings.LeavesWidth(), 0.165)
	p.right.Offset = within(w.settings.DetailsWidth(), 0.7)
	p.all = container.NewStack(p.left)
	return p
}

// arrange gives both sides the room of the list of leaves while they lie side
// by side; the buttons before and after the leaf's name lead on. What is beside
// the surface keeps its width, so that the button that was pressed stays under
// the pointer.
func (p *tracePanel) arrange() {
	details := p.w.side.content().Size().Width
	if p.w.beside.on {
		p.usual = p.right.Offset
	}
	p.left.Leading.Show()
	if p.w.beside.on {
		p.left.Leading.Hide()
	}
	p.left.Refresh()
	bar := p.right.Size().Width - p.right.Leading.Size().Width - p.right.Trailing.Size().Width
	if room := p.right.Size().Width - bar; details > 0 && room > details {
		p.right.SetOffset(float64(1 - details/room))
	}
}

// shares returns how wide the list of leaves and the surface are, as shares of
// their room with one side shown.
func (p *tracePanel) shares() (leaves, surface float64) {
	if p.w.beside.on {
		return p.left.Offset, p.usual
	}
	return p.left.Offset, p.right.Offset
}

// within is a remembered share, or the usual one when there is none.
func within(v, usual float64) float64 {
	if v < 0.02 || v > 0.98 {
		return usual
	}
	return v
}

func (p *tracePanel) sideButton(side mendplan.SideName) *pressable {
	b := newPressable("", "", func() {
		if leaf, ok := p.w.session.Leaf(); ok {
			p.w.session.Show(leaf.ID, side)
		}
		p.w.focusSurface()
	})
	b.onHint, b.hint = p.w.status.hover, t("Show this side; the other shows through, dashed and mirrored.  [%s]", p.w.command("flip").keys[0])
	return b
}

func (p *tracePanel) content() fyne.CanvasObject { return p.all }

func (p *tracePanel) refresh() {
	want := fyne.CanvasObject(p.left)
	leaf, ok := p.w.session.Leaf()
	if !ok {
		want = p.start.content()
		p.start.refresh()
	}
	if p.all.Objects[0] != want {
		p.all.Objects[0] = want
		p.all.Refresh()
		p.w.focusSurface()
	}
	if !ok {
		return
	}
	p.title.SetText(leafTitle(leaf))
	side := p.w.session.Side()
	p.front.set(sideWord(leaf, mendplan.Front), side == mendplan.Front, false)
	p.back.set(sideWord(leaf, mendplan.Back), side == mendplan.Back, false)
	p.both.set("", p.w.beside.on, false)
	p.refreshScale(leaf.SideOf(side))
	p.refreshRibbon(leaf)
	p.head.FillColor = shade(colourPanel)
	p.head.Refresh()
	p.tools.refresh()
	p.strip.refresh()
	p.w.leaves.refresh()
	p.w.side.refresh()
}

// refreshScale says whether millimetres can be told, loudly if not.
func (p *tracePanel) refreshScale(side mendplan.Side) {
	c := side.Calibration
	b := p.scale
	b.icon, b.colour, b.bold = "calibrate", colourQuiet, false
	switch {
	case !side.Scan.Present():
		b.text, b.hint = "", t("This side has no scan.")
	case !c.Known():
		b.icon, b.colour, b.bold = "problem", theme.ColorNameError, true
		b.text, b.hint = t("NO SCALE"), t("Nothing can be measured or cut until the scale is set: press here.")
	case doubtful(c):
		b.icon, b.colour = "problem", theme.ColorNameWarning
		b.text = scaleShort(c) + " ?"
		b.hint = t("The scale rests on: %s. It may be off by %.1f %%: press to set it better.", c.Words, c.DoubtPercent)
	default:
		b.text = scaleShort(c)
		b.hint = t("The scale rests on: %s. Press to set it anew.", scaleWords(c))
	}
	b.Refresh()
}

// pressScale opens the ways to set the scale.
func (p *tracePanel) pressScale() {
	pos := fyne.CurrentApp().Driver().AbsolutePositionForObject(p.scale)
	p.w.popUp(pos.AddXY(0, p.scale.Size().Height), []string{"scale-points", "scale-size", "scale-file", "scale-all"})
}

// refreshRibbon warns across the surface about what must not be missed.
func (p *tracePanel) refreshRibbon(leaf mendplan.Leaf) {
	side := leaf.SideOf(p.w.session.Side())
	switch {
	case p.w.pictureFault != nil:
		s := inWords(p.w.pictureFault)
		p.ribbon.show(theme.ColorNameError, s.what+" — "+s.remedy, t("Choose the scan…"), func() { p.w.Run("scan-for-side") })
	case !side.Scan.Present():
		p.ribbon.show(theme.ColorNameWarning, t("This side has no scan."), t("Choose the scan…"), func() { p.w.Run("scan-for-side") })
	case !side.Calibration.Known():
		p.ribbon.show(theme.ColorNameError, t("No scale: the file does not tell its resolution, so no piece can be cut for this side."),
			t("Set the scale…"), p.pressScale)
	default:
		p.ribbon.hide()
	}
}
