package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/ui/leafview"
)

func viewCommands() []*command {
	stage := func(id, words, help string, name fyne.KeyName, s stage) *command {
		return &command{id: id, words: words, help: help, menu: menuView, keys: []key{{name, ctrl}},
			checked: func(w *Window) bool { return w.stage == s },
			run:     func(w *Window) { w.showStage(s) }}
	}
	return []*command{
		stage("stage-trace", "Trace", "The leaf with its damages and pieces.", fyne.Key1, stageTrace),
		stage("stage-mends", "Mends", "All damages and their mends in one table.", fyne.Key2, stageMends),
		stage("stage-cuts", "Cut list", "The pieces on their sheets, in the order of cutting.", fyne.Key3, stageCuts),
		stage("stage-estimate", "Estimate", "How much tissue and paste the job takes.", fyne.Key4, stageEstimate),
		stage("stage-stock", "Tissues", "Tissues and the sheets, rolls and remnants at hand.", fyne.Key5, stageStock),
		stage("stage-job", "Job and rules", "Particulars of the job, and every rule with its source.", fyne.Key6, stageJob),
		stage("stage-order", "Order", "Gatherings, pages, and the check of the order.", fyne.Key7, stageOrder),
		stage("stage-work", "Work", "What was done to which leaf, the paste, and the days.", fyne.Key8, stageWork),
		{id: "fit", words: "Whole leaf", menu: menuView, keys: []key{{fyne.Key0, 0}}, surface: true, newPart: true,
			help: "Show the whole leaf.", enabled: tracing,
			run: func(w *Window) { w.surface.Fit(); w.showView() }},
		{id: "one-to-one", words: "Pixel for pixel", menu: menuView, keys: []key{{fyne.Key1, 0}}, surface: true,
			help: "Show one pixel of the scan as one of the screen.", enabled: tracing,
			run: func(w *Window) { w.surface.OneToOne(); w.showView() }},
		{id: "true-size", words: "True size", menu: menuView, keys: []key{{fyne.Key0, ctrl}},
			help: "Show the leaf as large as it is; asks once for the size of the screen.", enabled: tracing,
			run: (*Window).trueSize},
		{id: "zoom-in", words: "Closer", menu: menuView, keys: []key{{"+", 0}}, surface: true,
			help: "Zoom in about the middle.", enabled: tracing,
			run: func(w *Window) { w.surface.ZoomBy(1.26); w.showView() }},
		{id: "zoom-out", words: "Further away", menu: menuView, keys: []key{{fyne.KeyMinus, 0}}, surface: true,
			help: "Zoom out about the middle.", enabled: tracing,
			run: func(w *Window) { w.surface.ZoomBy(1 / 1.26); w.showView() }},
		{id: "zoom-chosen", words: "What is chosen", menu: menuView, keys: []key{{fyne.KeyZ, 0}},
			help: "Zoom to the chosen damages.", enabled: hasDamage,
			run: func(w *Window) { w.showStage(stageTrace); w.surface.ZoomToSelection(); w.showView() }},
		{id: "swell", words: "Swell of the gatherings…", menu: menuView, keys: []key{{fyne.KeyS, shift}},
			help: "See how much thicker the mends make each gathering, at the fold, at the corners and anywhere.", enabled: hasPieces,
			run: (*Window).showSwell},
		{id: "side-by-side", words: "Both sides side by side", menu: menuView, keys: []key{{fyne.KeyI, 0}},
			help: "Show front and back next to each other; they move together, and a press on one takes it in hand.", enabled: tracing,
			checked: func(w *Window) bool { return w.beside.on },
			run:     func(w *Window) { w.beside.toggle() }},
		{id: "bench", words: "Bench view", menu: menuView, keys: []key{{fyne.KeyB, ctrl}}, newPart: true,
			help: "One leaf in large type: its pieces in the order of pasting, to tick off from a metre away.", enabled: hasLeaf,
			run: (*Window).openBench},
		{id: "full-screen", words: "Full screen", menu: menuView, keys: []key{{fyne.KeyF, ctrl | shift}},
			help:    "Give the window the whole screen, and back.",
			checked: func(w *Window) bool { return w.win.FullScreen() },
			run:     func(w *Window) { w.win.SetFullScreen(!w.win.FullScreen()) }},
		{id: "dark", words: "Dark look", menu: menuView, keys: []key{{fyne.KeyD, ctrl | shift}},
			help:    "Change between the light and the dark look.",
			checked: func(w *Window) bool { return w.isDark() },
			run:     (*Window).toggleDark},
	}
}

// pictureCommands change what the surface shows of leaf and pieces.
func pictureCommands() []*command {
	show := func(id, words, help string, k key, part func(*leafview.Look) *bool) *command {
		return &command{id: id, words: words, help: help, menu: menuView, keys: []key{k},
			checked: func(w *Window) bool { l := w.surface.Look(); return *part(&l) },
			run: func(w *Window) {
				l := w.surface.Look()
				*part(&l) = !*part(&l)
				w.surface.SetLook(l)
				w.beside.lookAlike()
			}}
	}
	pieces := show("show-pieces", "Show the pieces", "Draw the tissue over the leaf, or not.", key{fyne.KeyP, shift},
		func(l *leafview.Look) *bool { return &l.Pieces })
	pieces.newPart = true
	return []*command{
		pieces,
		show("show-labels", "Show labels", "Numbers of damages and labels of pieces.", key{fyne.KeyL, shift},
			func(l *leafview.Look) *bool { return &l.Labels }),
		show("show-other", "Show the other side through", "What is traced or pasted on the other side, dashed and mirrored.", key{fyne.KeyO, shift},
			func(l *leafview.Look) *bool { return &l.OtherSide }),
		show("show-grid", "Grid", "A grid in millimetres or inches.", key{fyne.KeyG, 0},
			func(l *leafview.Look) *bool { return &l.Grid }),
		show("show-rulers", "Rulers", "Rulers along head and left.", key{fyne.KeyR, shift},
			func(l *leafview.Look) *bool { return &l.Rulers }),
		show("show-overview", "Overview", "The whole leaf small in a corner when zoomed in.", key{fyne.KeyV, shift},
			func(l *leafview.Look) *bool { return &l.Overview }),
		{id: "picture", words: "Brightness and faint tears…", menu: menuView, keys: []key{{fyne.KeyL, ctrl}},
			help: "Brightness, contrast, single colours, and a help for faint tears. The scan itself is not changed.", enabled: tracing,
			run: (*Window).pictureDialog},
		{id: "show-print", words: "Show the print", menu: menuView, keys: []key{{fyne.KeyI, shift}},
			help: "Mark where this side is printed or written on, as the advice on sides sees it.", enabled: hasScan,
			checked: func(w *Window) bool { return w.printShown },
			run:     (*Window).togglePrint},
		show("show-doubt", "Show how far lengths may be off", "Write ± beside lengths while drawing; the measuring tool always does.", key{fyne.KeyE, shift},
			func(l *leafview.Look) *bool { return &l.Doubt }),
		{id: "raking", words: "Bring out faint tears", menu: menuView, keys: []key{{fyne.KeyK, shift}},
			help: "Strengthen small differences of shade, as a lamp from the side does.", enabled: tracing,
			checked: func(w *Window) bool { return w.surface.Filter().Local > 0 },
			run:     (*Window).toggleRaking},
	}
}
