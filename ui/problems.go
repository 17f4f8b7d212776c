package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/ui/leafview"
)

// problemsPanel lists what is wrong or worth knowing; each leads to its place.
type problemsPanel struct {
	w      *Window
	box    *fyne.Container
	scroll *container.Scroll
	key    string // of what is listed
	most   int    // how many are shown
}

func newProblemsPanel(w *Window) *problemsPanel {
	p := &problemsPanel{w: w, box: inScroll(), most: problemsAtOnce}
	p.scroll = container.NewVScroll(p.box)
	p.scroll.SetMinSize(fyne.NewSize(200, 120))
	return p
}

func (p *problemsPanel) content() fyne.CanvasObject { return p.scroll }

// problemsAtOnce is how many problems are shown until more are asked for: each
// has words to lay out and acts to try.
const problemsAtOnce = 50

func (p *problemsPanel) refresh() {
	problems := p.w.session.Problems()
	shown := problems[:min(len(problems), p.most)]
	key := fmt.Sprint(len(problems), shown)
	if key == p.key {
		return
	}
	p.key = key
	p.w.remedies.drop(p.box)
	var rows []fyne.CanvasObject // given to the box at once: each one added would lay all out
	if len(problems) == 0 {
		rows = append(rows, small(t("Nothing to put right and nothing to look at.")))
	}
	for i, pr := range shown {
		rows = append(rows, newPressRow(problemLine(pr), func() { p.w.goTo(i) }), p.w.remedyRows(pr, i), widget.NewSeparator())
	}
	if more := len(problems) - len(shown); more > 0 {
		rows = append(rows, newButton(t("Show %d more of %d", min(more, problemsAtOnce), more), func() {
			p.most += problemsAtOnce
			p.refresh()
		}))
	}
	p.box.Objects = rows
	p.box.Refresh()
}

// problemLine shows one problem: weight by drawing, colour and word.
func problemLine(pr mendplan.Problem) fyne.CanvasObject {
	name, colour := "advice", colourQuiet
	switch pr.Weight {
	case mendplan.Wrong:
		name, colour = "problem", theme.ColorNameError
	case mendplan.Doubt:
		name, colour = "problem", theme.ColorNameWarning
	}
	mark := canvas.NewImageFromResource(iconIn(name, colour))
	mark.FillMode = canvas.ImageFillContain
	mark.SetMinSize(fyne.NewSquareSize(theme.IconInlineSize()))
	words := widget.NewLabel(sentence(say(pr.Words)))
	words.Wrapping = fyne.TextWrapWord
	body := container.New(layout.NewCustomPaddedVBoxLayout(-8), words, small(weightWord(pr.Weight)+": "+say(pr.Hint)))
	return container.NewBorder(nil, nil, container.NewVBox(layout.NewSpacer(), mark, layout.NewSpacer()), nil, body)
}

// goTo shows the place of problem i and takes its damage in hand.
func (w *Window) goTo(i int) {
	problems := w.session.Problems()
	if i < 0 || i >= len(problems) {
		return
	}
	w.problem = i
	pr := problems[i]
	switch {
	case pr.Leaf != "":
		w.showStage(stageTrace)
		w.session.Show(pr.Leaf, pr.Side)
	case pr.Kind == mendplan.NoTissue, pr.Kind == mendplan.NoStock:
		w.showStage(stageStock)
	case pr.Kind == mendplan.BadRule:
		w.showStage(stageJob)
	case pr.Kind == mendplan.BadOrder:
		w.showOrder(orderSheets)
	default: // it is about the whole job: the list tells it, with what helps
		w.side.showProblems()
	}
	if pr.Damage > 0 {
		w.session.Select(pr.Damage)
		w.surface.ZoomToSelection()
	}
	if pr.At != nil {
		w.surface.ZoomTo(leafview.RectOf(*pr.At).Grow(200))
	}
	w.status.say(sentence(say(pr.Words)) + " " + say(pr.Hint))
	w.showView()
	w.focusSurface()
}

// stepProblem goes to the next problem, or by −1 to the one before, round and
// round.
func (w *Window) stepProblem(by int) {
	n := len(w.session.Problems())
	switch {
	case n == 0:
	case w.problem < 0 && by < 0:
		w.goTo(n - 1)
	default:
		w.goTo((w.problem + by + n) % n)
	}
}
