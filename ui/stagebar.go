package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan"
)

// stageBar is the row under the menus: the large views in the order of work,
// and what is wanted in any of them.
type stageBar struct {
	w        *Window
	stages   map[stage]*pressable
	problems *pressable
	undo     *pressable
	redo     *pressable
	ground   *canvas.Rectangle
	box      *fyne.Container
}

func newStageBar(w *Window) *stageBar {
	b := &stageBar{w: w, stages: map[stage]*pressable{}, ground: canvas.NewRectangle(shade(colourBar))}
	row := container.NewHBox()
	for _, c := range w.commands {
		if len(c.id) < 6 || c.id[:6] != "stage-" {
			continue
		}
		p := w.commandButton(c, "", t(c.words))
		row.Add(p)
		b.stages[stage(len(b.stages))] = p
	}
	b.problems = newPressable("ok", "", func() { w.side.showProblems() })
	b.problems.onHint, b.problems.hint = w.status.hover, t("What the program found: press to see the list.")
	b.undo = w.commandButton(w.command("undo"), "undo", "")
	b.redo = w.commandButton(w.command("redo"), "redo", "")
	right := container.NewHBox(b.problems, b.undo, b.redo,
		w.commandButton(w.command("search"), "search", ""),
		w.commandButton(w.command("print"), "print", t("Print")))
	b.box = container.NewStack(b.ground, container.New(layout.NewCustomPaddedLayout(2, 2, 4, 4),
		container.New(twoEnds{}, row, right)))
	return b
}

// commandButton makes a button of a command; its hint names help and key.
func (w *Window) commandButton(c *command, icon, words string) *pressable {
	p := newPressable(icon, words, func() { w.Run(c.id); w.focusSurface() })
	p.onHint, p.hint = w.status.hover, t(c.help)
	if len(c.keys) > 0 {
		p.hint += "  [" + c.keys[0].String() + "]"
	}
	return p
}

func (b *stageBar) content() fyne.CanvasObject { return b.box }

func (b *stageBar) refresh() {
	for s, p := range b.stages {
		p.set(p.text, s == b.w.stage, false)
	}
	b.undo.set("", false, b.w.session.history.UndoLabel() == "")
	b.redo.set("", false, b.w.session.history.RedoLabel() == "")
	b.showProblems()
	b.ground.FillColor = shade(colourBar)
	b.ground.Refresh()
}

// showProblems says how many problems of each weight there are.
func (b *stageBar) showProblems() {
	count := map[mendplan.Weight]int{}
	for _, p := range b.w.session.Problems() {
		count[p.Weight]++
	}
	p := b.problems
	text := t("No problems")
	p.icon, p.colour = "ok", theme.ColorNameSuccess
	switch {
	case count[mendplan.Wrong] > 0:
		p.icon, p.colour = "problem", theme.ColorNameError
		text = fmt.Sprintf("%d %s", count[mendplan.Wrong], t("to put right"))
	case count[mendplan.Doubt] > 0:
		p.icon, p.colour = "problem", theme.ColorNameWarning
		text = fmt.Sprintf("%d %s", count[mendplan.Doubt], t("to look at"))
	case count[mendplan.Advice] > 0:
		p.icon, p.colour = "advice", colourQuiet
		text = fmt.Sprintf("%d %s", count[mendplan.Advice], t("good to know"))
	case !hasLeaf(b.w):
		p.icon, text = "", ""
	}
	p.text = text
	p.Refresh()
}
