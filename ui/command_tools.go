package ui

import (
	"fyne.io/fyne/v2"

	"leafmend/ui/leafview"
)

// toolRow describes a tool: how it is called, drawn and reached.
type toolRow struct {
	id          leafview.ToolID
	words, icon string
	help        string
	key         key
	group       int // a gap is left between groups
}

// toolRows lists the tools in the order of the tool column.
func toolRows() []toolRow {
	return []toolRow{
		{leafview.SelectTool, "Choose", "select", "Choose damages; move, add and delete their points.", key{fyne.KeyV, 0}, 0},
		{leafview.PanTool, "Move view", "pan", "Drag the leaf about; Space with any tool does the same.", key{fyne.KeyD, 0}, 0},
		{leafview.TearTool, "Tear", "tear", "Trace a tear, point by point; begin on a tear to fork it.", key{fyne.KeyT, 0}, 1},
		{leafview.SplitTool, "Split fold", "split", "Trace where the fold has split.", key{fyne.KeyS, 0}, 1},
		{leafview.LossTool, "Loss", "loss", "Go round the place where material is missing.", key{fyne.KeyL, 0}, 1},
		{leafview.WeakTool, "Weak area", "weak", "Go round thin, soft or cracked paper.", key{fyne.KeyW, 0}, 1},
		{leafview.NicksTool, "Nicked edge", "nicks", "Go along an edge with many small tears: one strip mends them.", key{fyne.KeyK, 0}, 1},
		{leafview.NoteTool, "Note only", "note", "Go round a stain, crease, old tape or other thing to record.", key{fyne.KeyO, 0}, 1},
		{leafview.RetraceTool, "Retrace", "retrace", "Cut a stretch out of a trace and draw it again.", key{fyne.KeyR, 0}, 2},
		{leafview.ReshapeTool, "Reshape", "reshape", "Draw across a shape to change its course.", key{fyne.KeyA, 0}, 2},
		{leafview.DivideTool, "Divide", "divide", "Make two tears of one.", key{fyne.KeyX, 0}, 2},
		{leafview.EdgeTool, "True edge", "edge", "Set the four corners of the leaf as it was.", key{fyne.KeyE, 0}, 3},
		{leafview.FoldTool, "Fold line", "fold", "Set where the fold runs, by two points.", key{fyne.KeyJ, 0}, 3},
		{leafview.OutlineTool, "Outline", "outline", "Trace the edge of the leaf as it is now.", key{fyne.KeyU, 0}, 3},
		{leafview.OtherTool, "Other side", "other", "Drag what the other side shows to where it belongs; Shift turns it.", key{fyne.KeyB, shift}, 3},
		{leafview.CalibrateTool, "Set scale", "calibrate", "Press two points a known distance apart.", key{}, 3},
		{leafview.CornersTool, "Photograph", "corners", "Press the four corners of a rectangle of known size.", key{fyne.KeyC, shift}, 3},
		{leafview.MeasureTool, "Measure", "measure", "Read lengths, areas and angles; nothing is changed.", key{fyne.KeyM, 0}, 3},
	}
}

// toolCommands makes a command of every tool that has no other.
func toolCommands() []*command {
	var all []*command
	group := 0
	for _, row := range toolRows() {
		if row.key == (key{}) {
			continue // set scale is a command of the leaf
		}
		all = append(all, &command{id: "tool-" + string(row.id), words: row.words, help: row.help, menu: menuTools,
			keys: []key{row.key}, newPart: row.group != group, enabled: hasLeaf,
			checked: func(w *Window) bool { return w.surface.Tool() == row.id },
			run:     func(w *Window) { w.pickTool(row.id) }})
		group = row.group
	}
	return append(all,
		&command{id: "follow", words: "Follow the tear", menu: menuTools, keys: []key{{fyne.KeyT, ctrl | shift}}, newPart: true,
			help:    "Let traces run along the tear in the picture between two presses; Shift draws straight.",
			checked: func(w *Window) bool { return w.settings.Follow() },
			run:     func(w *Window) { w.settings.SetFollow(!w.settings.Follow()); w.applyHabits() }},
		&command{id: "snap", words: "Hold on to what is near", menu: menuTools, keys: []key{{fyne.KeyH, ctrl}},
			help:    "New points hold on to points, lines, the true edge and the fold; Ctrl lets go for a moment.",
			checked: func(w *Window) bool { return w.settings.Snap() },
			run:     func(w *Window) { w.settings.SetSnap(!w.settings.Snap()); w.applyHabits() }},
	)
}

func helpCommands() []*command {
	return []*command{
		{id: "help", words: "Keys and commands", menu: menuHelp, keys: []key{{fyne.KeyF1, 0}},
			help: "Every command with its key.",
			run:  (*Window).helpSheet},
		{id: "search", words: "Find a command…", menu: menuHelp, keys: []key{{fyne.KeyK, ctrl}},
			help: "Type a few letters of what you want to do.",
			run:  (*Window).searchCommands},
		{id: "user-guide", words: "User guide", menu: menuHelp, keys: []key{{fyne.KeyF1, alt}},
			help: "The whole work in chapters, from the first scan to the report; opens at what is shown.",
			run:  (*Window).userGuide},
		{id: "print-guide", words: "Print the user guide…", menu: menuHelp, keys: []key{{fyne.KeyF1, alt | shift}},
			help: "Write the user guide as a PDF and open it for printing.",
			run:  (*Window).printGuide},
		{id: "guide", words: "First mend, step by step", menu: menuHelp, keys: []key{{fyne.KeyF1, ctrl}},
			help:    "A short walk from scan to cut list; it goes on where it was left.",
			checked: func(w *Window) bool { return w.guide.open() },
			run:     (*Window).toggleGuide},
		{id: "guide-next", words: "Next step of the guide", menu: menuHelp, keys: []key{{fyne.KeyPageDown, ctrl}},
			help: "Go on to the next step of the first mend.", enabled: func(w *Window) bool { return w.guide.open() },
			run: func(w *Window) { w.guide.step(1) }},
		{id: "guide-back", words: "Previous step of the guide", menu: menuHelp, keys: []key{{fyne.KeyPageUp, ctrl}},
			help: "Go back to the step before.", enabled: func(w *Window) bool { return w.guide.open() },
			run: func(w *Window) { w.guide.step(-1) }},
		{id: "cautions", words: "Cautions", menu: menuHelp, keys: []key{{fyne.KeyF1, shift}}, newPart: true,
			help: "Mould, blades, solvents, inks that run: what to heed before the brush.",
			run:  func(w *Window) { w.showHelpPage("cautions", t("Cautions")) }},
		{id: "about", words: "About Leafmend", menu: menuHelp, keys: []key{{fyne.KeyF1, ctrl | shift}},
			help: "What the program is and does not claim to be.",
			run:  (*Window).about},
		{id: "licences", words: "Licences", menu: menuHelp, keys: []key{{fyne.KeyF9, ctrl | shift}},
			help: "What the program is made of, and the licence of each part.",
			run:  (*Window).licences},
	}
}
