package ui

import "fyne.io/fyne/v2"

func leafCommands() []*command {
	return []*command{
		{id: "next-leaf", words: "Next leaf", menu: menuLeaf, keys: []key{{fyne.KeyPageDown, 0}},
			help: "Show the next leaf.", enabled: hasLeaf, run: func(w *Window) { w.stepLeaf(1) }},
		{id: "prev-leaf", words: "Previous leaf", menu: menuLeaf, keys: []key{{fyne.KeyPageUp, 0}},
			help: "Show the previous leaf.", enabled: hasLeaf, run: func(w *Window) { w.stepLeaf(-1) }},
		{id: "flip", words: "Turn the leaf over", menu: menuLeaf, keys: []key{{fyne.KeyF, 0}},
			help: "Show the other side; what was traced here shows through, mirrored.", enabled: hasLeaf,
			run: (*Window).flip},
		{id: "tab-damage", words: "Particulars of the damage", menu: menuLeaf, keys: []key{{fyne.KeyF3, ctrl}}, newPart: true,
			help: "Show the damage in hand and its mend beside the leaf.", enabled: hasLeaf, run: func(w *Window) { w.showTab(tabDetails) }},
		{id: "tab-leaf", words: "Particulars of the leaf", menu: menuLeaf, keys: []key{{fyne.KeyF4, ctrl}},
			help: "Show mark, kind, weight, fold and note of the leaf beside it.", enabled: hasLeaf, run: func(w *Window) { w.showTab(tabLeaf) }},
		{id: "tab-problems", words: "List of problems", menu: menuLeaf, keys: []key{{fyne.KeyF5, ctrl}},
			help: "Show what is to put right or to look at beside the leaf.", enabled: hasLeaf, run: func(w *Window) { w.showTab(tabProblems) }},
		{id: "fields", words: "To the fields and back", menu: menuLeaf, keys: []key{{fyne.KeyF6, ctrl}},
			help: "Give the keyboard to the first field of what is shown, or back to the leaf; Tab goes on to the next field.", run: (*Window).toFields},
		{id: "scale-points", words: "Set the scale by two points", menu: menuLeaf, keys: []key{{fyne.KeyC, 0}}, newPart: true,
			help: "Press two points a known distance apart, on a ruler or the leaf, and type the distance.", enabled: tracing,
			run: func(w *Window) { w.pickTool("calibrate") }},
		{id: "scale-size", words: "Set the scale by the leaf's size…", menu: menuLeaf, keys: []key{{fyne.KeyC, ctrl | shift}},
			help: "Type the leaf's measured width and height.", enabled: hasScan,
			run: (*Window).scaleBySize},
		{id: "scale-file", words: "Set the scale from the file…", menu: menuLeaf, keys: []key{{fyne.KeyF, ctrl}},
			help: "Take the resolution that the scan's file tells, and see what it is worth.", enabled: hasScan,
			run: (*Window).scaleFromFile},
		{id: "scale-all", words: "Give this scale to all scans alike…", menu: menuLeaf, keys: []key{{fyne.KeyC, fyne.KeyModifierAlt | shift}},
			help: "Give this side's scale to every scan that has none.", enabled: hasScale,
			run: (*Window).scaleAll},
		{id: "find-outline", words: "Find the leaf's edge", menu: menuLeaf, keys: []key{{fyne.KeyU, shift}}, newPart: true,
			help: "Look for the edge of the leaf against its background, and set outline and true edge.", enabled: hasScan,
			run: (*Window).findOutline},
		{id: "find-losses", words: "Propose losses and tears", menu: menuLeaf, keys: []key{{fyne.KeyW, shift}},
			help: "Look for places where the background shows through, holes and open tears; each waits for your word.", enabled: hasScan,
			run: (*Window).proposeLosses},
		{id: "next-proposal", words: "Next proposal…", menu: menuLeaf, keys: []key{{fyne.KeyX, shift}},
			help: "Go to the next proposed loss or tear and say whether it is one.", enabled: proposed, run: (*Window).nextProposal},
		{id: "accept-all", words: "Accept all proposals", menu: menuLeaf, keys: []key{{fyne.KeyA, shift}},
			help: "Take every proposed loss and tear into the job, as one step.", enabled: proposed, run: (*Window).acceptAll},
		{id: "refuse-all", words: "Refuse all proposals", menu: menuLeaf, keys: []key{{fyne.KeyZ, shift}},
			help: "Take all proposals away.", enabled: proposed, run: (*Window).refuseAll},
		{id: "lay-over", words: "Lay the sides over one another", menu: menuLeaf, keys: []key{{fyne.KeyG, shift}}, newPart: true,
			help: "Lay the back over the front by their outlines, so that what is traced on one side shows at its place on the other.", enabled: bothScans,
			run: (*Window).layOver},
		{id: "lay-by-edges", words: "Lay the sides by their true edges", menu: menuLeaf, keys: []key{{fyne.KeyG, ctrl | shift}},
			help: "Forget how the sides were laid over one another: their true edges alone tell it again.", enabled: laidOver,
			run: (*Window).overByEdges},
		{id: "mended", words: "Mended", menu: menuLeaf, keys: []key{{fyne.KeyM, ctrl}}, newPart: true,
			help: "Tick the leaf off: every mend is on.", enabled: hasLeaf,
			checked: func(w *Window) bool { l, _ := w.session.Leaf(); return l.Mended },
			run:     (*Window).toggleMended},
		{id: "scan-for-side", words: "Choose the scan of this side…", menu: menuLeaf, keys: []key{{fyne.KeyO, ctrl | shift}},
			help: "Give the side that is shown a scan, or another one.", enabled: hasLeaf,
			run: (*Window).scanForSide},
		{id: "check-scan", words: "Compare the traces with the picture…", menu: menuLeaf, keys: []key{{fyne.KeyJ, ctrl | shift}},
			help: "Show the traces on a scan that has changed since they were drawn, and say whether they fit.", enabled: changedHere,
			run: (*Window).checkChanged},
		{id: "leaf-up", words: "Move the leaf up", menu: menuLeaf, keys: []key{{fyne.KeyUp, ctrl | shift}},
			help: "Move the leaf one place up in the list.", enabled: hasLeaf, run: func(w *Window) { w.moveLeaf(-1) }},
		{id: "leaf-down", words: "Move the leaf down", menu: menuLeaf, keys: []key{{fyne.KeyDown, ctrl | shift}},
			help: "Move the leaf one place down in the list.", enabled: hasLeaf, run: func(w *Window) { w.moveLeaf(1) }},
		{id: "remove-leaf", words: "Take the leaf out of the job…", menu: menuLeaf, keys: []key{{fyne.KeyDelete, ctrl | shift}},
			help: "Take the leaf and its damages out of the job; the scans stay on the disk.", enabled: hasLeaf,
			run: (*Window).removeLeaf},
	}
}

func hasScan(w *Window) bool {
	l, ok := w.session.Leaf()
	return ok && l.SideOf(w.session.Side()).Scan.Present()
}

func hasScale(w *Window) bool {
	l, ok := w.session.Leaf()
	return ok && l.SideOf(w.session.Side()).Calibration.Known()
}
