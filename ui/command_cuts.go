package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/mendplan"
)

// cutCommands are about sheets and how they are cut.
func cutCommands() []*command {
	inCuts := func(f func(p *cutsPanel)) func(*Window) {
		return func(w *Window) {
			w.showStage(stageCuts)
			if p, ok := w.panels[stageCuts].(*cutsPanel); ok {
				f(p)
			}
		}
	}
	return []*command{
		{id: "show-on-sheet", words: "Show on its sheet", menu: menuMend, keys: []key{{fyne.KeyC, alt | ctrl}}, newPart: true,
			help: "Show the pieces of the damage in hand on the sheet they are cut from.", enabled: hasDamage,
			run: inCuts(func(p *cutsPanel) { p.refresh() })},
		{id: "hold-sheets", words: "Hold or release sheets", menu: menuMend, keys: []key{{fyne.KeyH, alt | shift}},
			help: "Keep the sheets of this tissue as they are laid out, or release the one shown.", enabled: hasPieces,
			run: inCuts((*cutsPanel).toggleHold)},
		{id: "sheet-cut", words: "The sheet is cut", menu: menuMend, keys: []key{{fyne.KeyX, alt | ctrl}},
			help: "Mark the sheet shown as cut: it leaves the stock, and what is left of it enters.", enabled: hasPieces,
			run: inCuts((*cutsPanel).toggleDone)},
		{id: "not-placed", words: "What does not fit…", menu: menuMend, keys: []key{{fyne.KeyU, alt}},
			help:    "Which pieces are on no sheet, why, and what stock would do.",
			enabled: func(w *Window) bool { return unplacedCount(w.session.Plan()) > 0 },
			run:     (*Window).notPlaced},
		{id: "search-longer", words: "Look longer for a layout", menu: menuMend, keys: []key{{fyne.KeyL, alt | shift}},
			help: "Search for a layout that takes less tissue; stop it whenever it is good enough.",
			enabled: func(w *Window) bool {
				_, _, running := w.session.Searching()
				return hasPieces(w) && !running
			},
			run: inCuts(func(p *cutsPanel) { p.searchLonger() })},
		{id: "good-enough", words: "The layout is good enough", menu: menuMend, keys: []key{{fyne.KeyE, alt | shift}},
			help: "End the search and keep the best layout it has found.",
			enabled: func(w *Window) bool {
				_, _, running := w.session.Searching()
				return running
			},
			run: func(w *Window) { w.session.StopSearch(true) }},
	}
}

// searchLonger begins a search with the budget that is chosen.
func (p *cutsPanel) searchLonger() {
	if !p.ready() {
		return
	}
	p.w.session.SearchLonger(p.seek.budget(), func(before, after mendplan.Plan) {
		p.w.status.say(searchOutcome(before, after))
	})
	p.seek.refresh()
}

// searchOutcome says what a longer search has brought.
func searchOutcome(before, after mendplan.Plan) string {
	sum := func(p mendplan.Plan) (sheets int, use float64) {
		for _, l := range p.Layouts {
			sheets, use = sheets+len(l.Layout.Sheets), use+l.Layout.Use()
		}
		return sheets, use
	}
	n0, u0 := sum(before)
	n1, u1 := sum(after)
	switch {
	case n1 < n0:
		return t("A better layout is found: %d sheets in place of %d.", n1, n0)
	case u1 < u0*0.9995:
		return t("A better layout is found: %.1f %% less tissue is used up.", (1-u1/u0)*100)
	}
	return t("No better layout was found.")
}
