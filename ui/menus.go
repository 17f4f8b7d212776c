package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
)

// menus holds the menu bar made from the command table.
type menus struct {
	bar    *fyne.MainMenu
	items  map[string]*fyne.MenuItem // by command id
	recent *fyne.MenuItem
}

// makeMenus builds the menu bar.
func (w *Window) makeMenus() {
	m := &w.menus
	m.items = map[string]*fyne.MenuItem{}
	m.bar = &fyne.MainMenu{}
	for _, name := range menuOrder {
		menu := fyne.NewMenu(t(string(name)))
		for _, c := range w.commands {
			if c.menu != name {
				continue
			}
			if c.newPart && len(menu.Items) > 0 {
				menu.Items = append(menu.Items, fyne.NewMenuItemSeparator())
			}
			menu.Items = append(menu.Items, w.menuItem(c))
			if c.id == "open" {
				m.recent = fyne.NewMenuItem(t("Open recent"), nil)
				menu.Items = append(menu.Items, m.recent)
			}
		}
		m.bar.Items = append(m.bar.Items, menu)
	}
	w.fillRecent()
	w.win.SetMainMenu(m.bar)
}

func (w *Window) menuItem(c *command) *fyne.MenuItem {
	item := fyne.NewMenuItem(t(c.words), func() {
		if !w.forText(c) {
			w.Run(c.id)
		}
	})
	if len(c.keys) > 0 {
		item.Shortcut = c.keys[0].shortcut()
	}
	if c.id == "quit" {
		item.IsQuit = true
	}
	w.menus.items[c.id] = item
	return item
}

// forText gives the keys that fields know to the field that is being typed
// in, also while a dialog waits; false when the command itself is meant.
func (w *Window) forText(c *command) bool {
	if len(c.keys) == 0 || !w.typing() {
		return false
	}
	switch sc := c.keys[0].shortcut().(type) {
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo, *fyne.ShortcutSelectAll:
		return w.textShortcut(sc)
	case *fyne.ShortcutCopy:
		sc.Clipboard = w.app.Clipboard()
		return w.textShortcut(sc)
	case *fyne.ShortcutPaste:
		sc.Clipboard = w.app.Clipboard()
		return w.textShortcut(sc)
	}
	return false
}

// fillRecent lists the jobs opened last.
func (w *Window) fillRecent() {
	var items []*fyne.MenuItem
	for _, path := range w.settings.Recent() {
		items = append(items, fyne.NewMenuItem(filepath.Base(path)+"  —  "+filepath.Dir(path), func() {
			w.leaving(func() { w.openPath(path) })
		}))
	}
	w.menus.recent.Disabled = len(items) == 0
	w.menus.recent.ChildMenu = fyne.NewMenu("", items...)
	if w.menus.bar != nil {
		w.menus.bar.Refresh()
	}
}

// refreshCommands shows in menus and tool column what can be done now.
func (w *Window) refreshCommands() {
	changed := false
	set := func(item *fyne.MenuItem, words string, off, on bool) {
		if item.Label != words || item.Disabled != off || item.Checked != on {
			item.Label, item.Disabled, item.Checked = words, off, on
			changed = true
		}
	}
	for _, c := range w.commands {
		words := t(c.words)
		switch label := ""; c.id {
		case "undo":
			if label = w.session.history.UndoLabel(); label != "" {
				words = t("Undo “%s”", t(label))
			}
		case "redo":
			if label = w.session.history.RedoLabel(); label != "" {
				words = t("Redo “%s”", t(label))
			}
		}
		set(w.menus.items[c.id], words, !c.can(w), c.checked != nil && c.checked(w))
	}
	if changed {
		w.menus.bar.Refresh()
	}
	w.refreshTools()
}
