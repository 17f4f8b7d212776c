package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// sidePanel is beside the surface: the damage in hand, the leaf, or the
// problems.
type sidePanel struct {
	w        *Window
	tab      sideTab
	heads    map[sideTab]*pressable
	details  *detailsPanel
	leaf     *leafPanel
	problems *problemsPanel
	body     *fyne.Container
	ground   *canvas.Rectangle
	box      fyne.CanvasObject
}

type sideTab int

const (
	tabDetails sideTab = iota
	tabLeaf
	tabProblems
)

func newSidePanel(w *Window) *sidePanel {
	p := &sidePanel{w: w, heads: map[sideTab]*pressable{}, ground: canvas.NewRectangle(shade(colourPanel))}
	p.details, p.leaf, p.problems = newDetailsPanel(w), newLeafPanel(w), newProblemsPanel(w)
	row := container.NewHBox()
	for _, tab := range []struct {
		id    sideTab
		words string
		hint  string
	}{{tabDetails, t("Damage"), t("The damage in hand and its mend.")},
		{tabLeaf, t("Leaf"), t("Particulars of the leaf, and all its damages.")},
		{tabProblems, t("Problems"), t("What is to put right or to look at, each leading to its place.")}} {
		head := newPressable("", tab.words, func() { p.show(tab.id); w.focusSurface() })
		head.onHint, head.hint = w.status.hover, tab.hint
		p.heads[tab.id] = head
		row.Add(head)
	}
	p.body = container.NewStack(p.details.content())
	p.box = container.NewStack(p.ground, container.New(layout.NewCustomPaddedLayout(2, 2, 4, 2),
		container.NewBorder(row, nil, nil, nil, p.body)))
	return p
}

func (p *sidePanel) content() fyne.CanvasObject { return p.box }

// showDetails brings the damage in hand to the front.
func (p *sidePanel) showDetails() { p.show(tabDetails) }

// showProblems brings the list of problems to the front.
func (p *sidePanel) showProblems() {
	p.w.showStage(stageTrace)
	p.show(tabProblems)
}

func (p *sidePanel) show(tab sideTab) {
	if tab != p.tab {
		p.tab = tab
		p.body.Objects = []fyne.CanvasObject{map[sideTab]fyne.CanvasObject{
			tabDetails: p.details.content(), tabLeaf: p.leaf.content(), tabProblems: p.problems.content()}[tab]}
		p.body.Refresh()
	}
	p.refresh()
}

func (p *sidePanel) refresh() {
	if p.w.bar == nil || p.w.trace == nil {
		return // being built
	}
	n := len(p.w.session.Problems())
	words := t("Problems")
	if n > 0 {
		words = fmt.Sprintf("%s (%d)", words, n)
	}
	for id, head := range p.heads {
		text := head.text
		if id == tabProblems {
			text = words
		}
		head.set(text, id == p.tab, false)
	}
	switch p.tab {
	case tabDetails:
		p.details.refresh()
	case tabLeaf:
		p.leaf.refresh()
	case tabProblems:
		p.problems.refresh()
	}
	p.ground.FillColor = shade(colourPanel)
	p.ground.Refresh()
}
