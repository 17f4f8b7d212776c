package ui

import "fyne.io/fyne/v2"

func fileCommands() []*command {
	return []*command{
		{id: "new", words: "New job", menu: menuFile, keys: []key{{fyne.KeyN, ctrl}},
			help: "Begin an empty job.",
			run:  func(w *Window) { w.leaving(w.newJob) }},
		{id: "open", words: "Open job…", menu: menuFile, keys: []key{{fyne.KeyO, ctrl}},
			help: "Open a job that was saved.",
			run:  func(w *Window) { w.leaving(w.openDialog) }},
		{id: "sample", words: "Open the sample job", menu: menuFile, keys: []key{{fyne.KeyF2, ctrl}},
			help: "Open an invented job to try everything on; it is unpacked into a folder of its own.",
			run:  func(w *Window) { w.leaving(w.openSample) }},
		{id: "save", words: "Save", menu: menuFile, keys: []key{{fyne.KeyS, ctrl}}, newPart: true,
			help: "Save the job in its file.",
			run:  func(w *Window) { w.save(nil) }},
		{id: "save-as", words: "Save as…", menu: menuFile, keys: []key{{fyne.KeyS, ctrl | shift}},
			help: "Save the job in another file; the scans stay where they are.",
			run:  func(w *Window) { w.saveAs(nil) }},
		{id: "add-scans", words: "Add a scan…", menu: menuFile, keys: []key{{fyne.KeyI, ctrl}}, newPart: true,
			help: "Add a picture of a leaf. Several at once: drop them on the window, or add a folder.",
			run:  (*Window).addScanDialog},
		{id: "add-folder", words: "Add a folder of scans…", menu: menuFile, keys: []key{{fyne.KeyI, ctrl | shift}},
			help: "Add all pictures of a folder and pair them into leaves.",
			run:  (*Window).addFolderDialog},
		{id: "print", words: "Print…", menu: menuFile, keys: []key{{fyne.KeyP, ctrl}}, newPart: true,
			enabled: hasLeaf,
			help:    "Write cut list, templates at true size, estimate and leaves as a PDF, and open it for printing.",
			run:     (*Window).printDialog},
		{id: "export", words: "Export…", menu: menuFile, keys: []key{{fyne.KeyE, ctrl}}, enabled: hasLeaf,
			help: "Write the pieces as a table, the plan for other programs, or the side that is shown as a drawing.",
			run:  (*Window).exportDialog},
		{id: "library", words: "Kept between jobs…", menu: menuFile, keys: []key{{fyne.KeyL, ctrl | shift}}, newPart: true,
			help: "Tissues, stock, rules and recipes of the workshop: take them into this job, keep this job's, or carry them in a file.",
			run:  (*Window).libraryDialog},
		{id: "quit", words: "Quit", menu: menuFile, keys: []key{{fyne.KeyQ, ctrl}}, newPart: true,
			help: "Close the program; it asks first when work is not saved.",
			run:  func(w *Window) { w.leaving(w.quit) }},
	}
}
