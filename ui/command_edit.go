package ui

import "fyne.io/fyne/v2"

func editCommands() []*command {
	return []*command{
		{id: "undo", words: "Undo", menu: menuEdit, keys: []key{{fyne.KeyZ, ctrl}},
			help:    "Take the last step back; while drawing, the last point.",
			enabled: func(w *Window) bool { return w.session.history.UndoLabel() != "" || w.surfaceBusy() || w.typing() },
			run:     (*Window).undo},
		{id: "redo", words: "Redo", menu: menuEdit, keys: []key{{fyne.KeyY, ctrl}, {fyne.KeyZ, ctrl | shift}},
			help:    "Do again what was undone last.",
			enabled: func(w *Window) bool { return w.session.history.RedoLabel() != "" || w.typing() },
			run:     (*Window).redo},
		{id: "delete", words: "Delete damage", menu: menuEdit, keys: []key{{fyne.KeyDelete, 0}}, surface: true, newPart: true,
			help: "Delete the chosen damages with their mends.", enabled: hasDamage,
			run: (*Window).deleteChosen},
		{id: "select-all", words: "Choose all damages", menu: menuEdit, keys: []key{{fyne.KeyA, ctrl}},
			help: "Choose every damage traced on this side, to change them together.", enabled: hasLeaf,
			run: (*Window).selectAll},
		{id: "deselect", words: "Choose none", menu: menuEdit, keys: []key{{fyne.KeyA, ctrl | shift}},
			help: "Let go of what is chosen.", enabled: hasDamage,
			run: func(w *Window) { w.session.Select() }},
		{id: "copy-details", words: "Copy the mend", menu: menuEdit, keys: []key{{fyne.KeyC, ctrl}}, newPart: true,
			help: "Remember how the damage in hand is mended.", enabled: hasDamage,
			run: (*Window).copyMend},
		{id: "paste-details", words: "Mend the chosen in the same way", menu: menuEdit, keys: []key{{fyne.KeyV, ctrl}},
			help:    "Give the remembered mend to all chosen damages.",
			enabled: func(w *Window) bool { return hasDamage(w) && w.copied != nil },
			run:     (*Window).pasteMend},
		{id: "copy-other", words: "Copy to the other side", menu: menuEdit, keys: []key{{fyne.KeyD, shift}},
			help: "Trace the chosen damages on the other side as well, at the same place of the leaf.", enabled: hasDamage,
			run: (*Window).copyToOther},
		{id: "move-leaf", words: "Move to another leaf…", menu: menuEdit, keys: []key{{fyne.KeyM, shift}},
			help: "Move the chosen damages with their mends to another leaf.", enabled: hasDamage,
			run: (*Window).moveToLeaf},
		{id: "settings", words: "Settings…", menu: menuEdit, keys: []key{{fyne.KeyComma, ctrl}}, newPart: true,
			help: "Look, size of text, language, wheel and pointer, units of new jobs.",
			run:  (*Window).settingsDialog},
	}
}
