package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"

	"leafmend/ui/leafview"
)

// toolColumn shows the tools in words, each with its drawing and its key.
type toolColumn struct {
	w       *Window
	buttons map[leafview.ToolID]*pressable
	ground  *canvas.Rectangle
	box     fyne.CanvasObject
}

func newToolColumn(w *Window) *toolColumn {
	c := &toolColumn{w: w, buttons: map[leafview.ToolID]*pressable{}, ground: canvas.NewRectangle(shade(colourPanel))}
	column := container.New(layout.NewCustomPaddedVBoxLayout(0))
	group := 0
	for _, row := range toolRows() {
		if row.group != group {
			gap := canvas.NewRectangle(nil)
			gap.SetMinSize(fyne.NewSize(1, 6))
			column.Add(gap)
			group = row.group
		}
		p := newPressable(row.icon, t(row.words), func() { w.pickTool(row.id) })
		k := row.key
		if k == (key{}) {
			k = w.command("scale-points").keys[0]
		}
		p.key = k.String()
		if k.mod == shift {
			p.key, p.shift = string(k.name), true
		}
		p.onHint, p.hint = w.status.hover, t(row.help)
		c.buttons[row.id] = p
		column.Add(p)
	}
	c.box = container.NewStack(c.ground, container.NewVScroll(container.New(layout.NewCustomPaddedLayout(2, 2, 2, 2), column)))
	return c
}

func (c *toolColumn) content() fyne.CanvasObject { return c.box }

func (c *toolColumn) refresh() {
	for id, p := range c.buttons {
		p.set(p.text, id == c.w.surface.Tool(), false)
	}
	c.ground.FillColor = shade(colourPanel)
	c.ground.Refresh()
}

// refreshTools marks the tool in hand.
func (w *Window) refreshTools() {
	if w.trace != nil {
		w.trace.tools.refresh()
		w.trace.strip.refresh()
	}
}

// popUp shows commands as a small menu at a place of the window; "" draws a
// line between them.
func (w *Window) popUp(at fyne.Position, ids []string) {
	menu := fyne.NewMenu("")
	for _, id := range ids {
		if id == "" {
			menu.Items = append(menu.Items, fyne.NewMenuItemSeparator())
			continue
		}
		c := w.command(id)
		item := fyne.NewMenuItem(t(c.words), func() { w.Run(id) })
		item.Disabled = !c.can(w)
		if len(c.keys) > 0 {
			item.Shortcut = c.keys[0].shortcut()
		}
		menu.Items = append(menu.Items, item)
	}
	showMenu(menu, w.win.Canvas(), at)
}

// hintColour is for words that explain.
const hintColour = theme.ColorNamePlaceHolder
