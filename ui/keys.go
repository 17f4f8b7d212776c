package ui

import (
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// listenForKeys connects the keyboard: keys with Ctrl go through the menu bar,
// which hears them first whatever has the focus; second keys of a command go
// to the canvas; plain keys arrive here when neither a field nor a list has
// the focus, or through the tracing surface when that has it.
func (w *Window) listenForKeys() {
	c := w.win.Canvas()
	c.SetOnTypedRune(w.typedRune)
	c.SetOnTypedKey(func(e *fyne.KeyEvent) {
		if e.Name != fyne.KeyEscape || !w.closeDialog() {
			w.typedKey(e.Name, currentModifiers())
		}
	})
	for _, cmd := range w.commands {
		for i, k := range cmd.keys {
			if k.mod&^shift != 0 && i > 0 {
				c.AddShortcut(k.shortcut(), func(fyne.Shortcut) {
					if !w.forText(cmd) {
						w.Run(cmd.id)
					}
				})
			}
		}
	}
	w.surface.OnRune = w.typedRune
	w.surface.OnKey = w.typedKey
	w.surface.OnShortcut = w.shortcut
}

// shortcut runs the command of a shortcut that reached the surface.
func (w *Window) shortcut(s fyne.Shortcut) {
	for _, cmd := range w.commands {
		for _, k := range cmd.keys {
			if k.mod&^shift != 0 && k.shortcut().ShortcutName() == s.ShortcutName() {
				w.Run(cmd.id)
				return
			}
		}
	}
}

// typedRune runs the command of a letter typed where nothing is being
// written. A capital is the letter with Shift.
func (w *Window) typedRune(r rune) {
	k := key{name: fyne.KeyName(unicode.ToUpper(r))}
	if unicode.IsUpper(r) {
		k.mod = shift
	}
	w.plainKey(k, true)
}

// typedKey runs the command of a key that writes nothing, such as Page down.
func (w *Window) typedKey(name fyne.KeyName, mods fyne.KeyModifier) {
	if len(name) == 1 || name == fyne.KeySpace {
		return // came, or will come, as a rune
	}
	w.plainKey(key{name, mods & shift}, false)
}

func (w *Window) plainKey(k key, runes bool) {
	if w.inDialog(k.name) {
		return
	}
	for _, cmd := range w.commands {
		for _, have := range cmd.keys {
			if have == k && (len(k.name) == 1) == runes {
				w.Run(cmd.id)
				return
			}
		}
	}
}

// inDialog reports whether a dialog or menu lies over the window; then keys
// are for it alone, and Escape takes it away unanswered.
func (w *Window) inDialog(name fyne.KeyName) bool {
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		return false
	}
	if name == fyne.KeyEscape {
		top.Hide()
	}
	return true
}

// currentModifiers asks the driver which modifiers are held.
func currentModifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}
