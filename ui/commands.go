package ui

import (
	"runtime"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// menuName names a menu of the menu bar, in their order.
type menuName string

const (
	menuFile  menuName = "File"
	menuEdit  menuName = "Edit"
	menuView  menuName = "View"
	menuLeaf  menuName = "Leaf"
	menuMend  menuName = "Mend"
	menuWork  menuName = "Work"
	menuTools menuName = "Tools"
	menuHelp  menuName = "Help"
)

var menuOrder = []menuName{menuFile, menuEdit, menuView, menuLeaf, menuMend, menuWork, menuTools, menuHelp}

// key is one way to reach a command from the keyboard. A key without modifier
// works while nothing is being typed into a field.
type key struct {
	name fyne.KeyName
	mod  fyne.KeyModifier
}

// ctrl is Control, or Command where that is the custom.
var ctrl = func() fyne.KeyModifier {
	if runtime.GOOS == "darwin" {
		return fyne.KeyModifierSuper
	}
	return fyne.KeyModifierControl
}()

const shift = fyne.KeyModifierShift

// command is one act of the user.
type command struct {
	id      string // never changes: tests and settings name it
	words   string // for menus, in English; an ellipsis when a question follows
	help    string // one sentence, in English
	menu    menuName
	keys    []key // the first is shown
	newPart bool  // a line is drawn above it in its menu
	surface bool  // its plain key is taken by the tracing surface itself
	enabled func(*Window) bool
	checked func(*Window) bool // nil for what is not on or off
	run     func(*Window)
}

// can reports whether the command would do something now.
func (c *command) can(w *Window) bool { return c.enabled == nil || c.enabled(w) }

// commandTable lists every command, menu by menu, in the order shown.
func commandTable() []*command {
	var all []*command
	for _, part := range [][]*command{fileCommands(), editCommands(), viewCommands(), pictureCommands(),
		leafCommands(), mendCommands(), cutCommands(), orderCommands(), workCommands(), toolCommands(), helpCommands(), supportCommands()} {
		all = append(all, part...)
	}
	return all
}

// String writes a key as on the keyboard: "Ctrl+Shift+S".
func (k key) String() string {
	var parts []string
	for _, m := range []struct {
		mod  fyne.KeyModifier
		word string
	}{{fyne.KeyModifierControl, "Ctrl"}, {fyne.KeyModifierSuper, "Cmd"}, {fyne.KeyModifierAlt, "Alt"}, {shift, "Shift"}} {
		if k.mod&m.mod != 0 {
			parts = append(parts, t(m.word))
		}
	}
	name := string(k.name)
	switch k.name {
	case fyne.KeyPageUp:
		name = t("Page up")
	case fyne.KeyPageDown:
		name = t("Page down")
	case fyne.KeyDelete:
		name = t("Delete")
	case fyne.KeyUp:
		name = t("Arrow up")
	case fyne.KeyDown:
		name = t("Arrow down")
	}
	return strings.Join(append(parts, name), "+")
}

// shortcut returns the toolkit's form of the key. Some keys have forms of
// their own there, and only those are sent.
func (k key) shortcut() fyne.Shortcut {
	if k.mod == ctrl {
		switch k.name {
		case fyne.KeyZ:
			return &fyne.ShortcutUndo{}
		case fyne.KeyY:
			return &fyne.ShortcutRedo{}
		case fyne.KeyA:
			return &fyne.ShortcutSelectAll{}
		case fyne.KeyC:
			return &fyne.ShortcutCopy{}
		case fyne.KeyX:
			return &fyne.ShortcutCut{}
		case fyne.KeyV:
			return &fyne.ShortcutPaste{}
		}
	}
	return &desktop.CustomShortcut{KeyName: k.name, Modifier: k.mod}
}

// command returns the row with that id; nil if there is none.
func (w *Window) command(id string) *command {
	for _, c := range w.commands {
		if c.id == id {
			return c
		}
	}
	return nil
}

// Run does the command with that id, if it can be done now and nothing waits
// for an answer. It reports whether it did.
func (w *Window) Run(id string) bool {
	c := w.command(id)
	if c == nil || !c.can(w) || w.asking() {
		return false
	}
	w.act(c.id, func() { c.run(w) })
	w.refreshCommands()
	return true
}

// hasLeaf and the like say when a command makes sense.
func hasLeaf(w *Window) bool   { _, ok := w.session.Leaf(); return ok }
func hasDamage(w *Window) bool { _, ok := w.session.Damage(); return ok }
func hasPieces(w *Window) bool { return len(w.session.Plan().Pieces) > 0 }

func tracing(w *Window) bool { return hasLeaf(w) && w.stage == stageTrace }
