package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// detailsPanel shows the damage in hand and its mend, every field editable.
// When several are chosen, what is changed is changed on all of them. The
// fields for each kind and style are made once and kept.
type detailsPanel struct {
	w      *Window
	scroll *container.Scroll
	forms  map[string]*detailsForm
	empty  *fyne.Container // shown when nothing is chosen
	form   *detailsForm    // of the damage in hand; nil when none is
}

func newDetailsPanel(w *Window) *detailsPanel {
	p := &detailsPanel{w: w, forms: map[string]*detailsForm{}}
	p.scroll = container.NewVScroll(tight())
	p.scroll.SetMinSize(fyne.NewSize(262, 120))
	return p
}

func (p *detailsPanel) content() fyne.CanvasObject { return p.scroll }

func (p *detailsPanel) refresh() {
	d, ok := p.w.session.Damage()
	var want *fyne.Container
	if ok {
		key := fmt.Sprint(d.Kind, styleInForce(p.w.session.Job(), d))
		if p.form = p.forms[key]; p.form == nil {
			p.form = newDetailsForm(p.w, d)
			p.forms[key] = p.form
		}
		want = p.form.box
	} else {
		if p.form = nil; p.empty == nil {
			p.empty = p.buildEmpty()
		}
		want = p.empty
	}
	if p.scroll.Content != want {
		p.scroll.Content = want
		p.scroll.ScrollToTop()
		p.scroll.Refresh()
	}
	if ok {
		p.form.fill(d)
	}
}

// buildEmpty says what to do when nothing is chosen.
func (p *detailsPanel) buildEmpty() *fyne.Container {
	box := inScroll()
	words := widget.NewLabel(t("No damage is chosen.") + "\n\n" + t("Take a tool from the column and trace a tear or a loss, or press a damage on the leaf."))
	words.Wrapping = fyne.TextWrapWord
	box.Add(words)
	for _, id := range []string{"tool-tear", "tool-loss", "next-damage"} {
		c := p.w.command(id)
		box.Add(newButton(t(c.words)+"   "+c.keys[0].String(), func() { p.w.Run(id); p.w.focusSurface() }))
	}
	return box
}
