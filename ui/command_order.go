package ui

import "fyne.io/fyne/v2"

// orderCommands lead to the gatherings and through the check of the order.
func orderCommands() []*command {
	page := func(id, words, help string, k key, at orderPage) *command {
		return &command{id: id, words: words, help: help, menu: menuWork, keys: []key{k},
			checked: func(w *Window) bool {
				p, ok := w.panels[stageOrder].(*orderPanel)
				return ok && w.stage == stageOrder && p.page == at
			},
			run: func(w *Window) { w.showOrder(at) }}
	}
	checked := func(id, words, help string, k key, wrong bool) *command {
		return &command{id: id, words: words, help: help, menu: menuWork, keys: []key{k}, enabled: hasLeaf,
			run: func(w *Window) { w.showOrder(orderChecks).check.record(wrong) }}
	}
	onSheets := func(id, words, help string, k key, do func(*orderPanel)) *command {
		return &command{id: id, words: words, help: help, menu: menuWork, keys: []key{k},
			run: func(w *Window) { do(w.showOrder(orderSheets)) }}
	}
	return []*command{
		page("order-gatherings", "Gatherings", "The publication as sheets nested in gatherings, and which leaf stands where.", key{fyne.Key7, alt}, orderSheets),
		page("order-check", "Check the order", "Lay the sheets back one by one and compare the page numbers; two people check.", key{fyne.Key8, alt}, orderChecks),
		checked("order-good", "Record the check: in order", "Write down that the order was checked and found right.", key{fyne.KeyJ, alt}, false),
		checked("order-bad", "Record the check: not in order", "Write down that the order was checked and what was found out of place.", key{fyne.KeyJ, alt | shift}, true),
		onSheets("propose-gatherings", "Propose gatherings from the leaves", "Make one gathering of all leaves in their order, the outermost first.", key{fyne.KeyG, alt}, func(p *orderPanel) { p.propose() }),
		onSheets("add-gathering", "Add a gathering", "Add an empty gathering at the end.", key{fyne.KeyG, alt | shift}, func(p *orderPanel) { p.edit("add gathering", added) }),
		onSheets("add-sheet", "Add a sheet", "Add an empty sheet inside the chosen one.", key{fyne.KeyS, alt | shift}, func(p *orderPanel) { p.editor.add() }),
	}
}
