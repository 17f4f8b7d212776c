package ui

import "fyne.io/fyne/v2"

func mendCommands() []*command {
	return []*command{
		{id: "next-damage", words: "Next damage", menu: menuMend, keys: []key{{fyne.KeyN, 0}},
			help: "Take the next damage in hand, on the next leaf when this one has no more.", enabled: hasLeaf,
			run: func(w *Window) { w.stepDamage(1) }},
		{id: "prev-damage", words: "Previous damage", menu: menuMend, keys: []key{{fyne.KeyB, 0}},
			help: "Take the damage before in hand.", enabled: hasLeaf,
			run: func(w *Window) { w.stepDamage(-1) }},
		{id: "next-problem", words: "Next problem", menu: menuMend, keys: []key{{fyne.KeyP, 0}},
			help:    "Go to the place of the next problem.",
			enabled: func(w *Window) bool { return len(w.session.Problems()) > 0 },
			run:     func(w *Window) { w.stepProblem(1) }},
		{id: "prev-problem", words: "Previous problem", menu: menuMend, keys: []key{{fyne.KeyP, alt}},
			help:    "Go to the place of the problem before.",
			enabled: func(w *Window) bool { return len(w.session.Problems()) > 0 },
			run:     func(w *Window) { w.stepProblem(-1) }},
		{id: "style", words: "Another style of mend", menu: menuMend, keys: []key{{fyne.KeyY, 0}}, newPart: true,
			help: "Change to the next style that suits the damage in hand.", enabled: hasDamage,
			run: (*Window).nextStyle},
		{id: "mend-side", words: "Mend from the other side", menu: menuMend, keys: []key{{fyne.KeyF, shift}},
			help: "Paste the tissue on the other side of the leaf.", enabled: hasDamage,
			run: (*Window).otherSide},
		{id: "tissue", words: "Another tissue", menu: menuMend, keys: []key{{fyne.KeyT, shift}},
			help: "Change to the next tissue of the stock.", enabled: hasDamage,
			run: (*Window).nextTissue},
		{id: "join", words: "Join two tears", menu: menuMend, keys: []key{{fyne.KeyJ, shift}},
			help:    "Make one tear of the two that are chosen.",
			enabled: func(w *Window) bool { return w.surface.CanJoin() },
			run:     func(w *Window) { w.surface.JoinSelected() }},
		{id: "no-mend", words: "Record only", menu: menuMend, keys: []key{{fyne.KeyN, shift}},
			help: "Keep the damage in the record, but cut no tissue for it.", enabled: hasDamage,
			checked: func(w *Window) bool { d, _ := w.session.Damage(); return d.NoMend },
			run:     (*Window).toggleNoMend},
	}
}
