package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/assets"
	"leafmend/ui/leafview"
)

// helpSheet shows every command with its key, made from the command table,
// and the keys that the tracing surface itself takes.
func (w *Window) helpSheet() {
	var columns [2]*fyne.Container
	for i := range columns {
		columns[i] = tight()
	}
	for _, name := range menuOrder {
		column := columns[0]
		if name == menuView || name == menuTools || name == menuHelp {
			column = columns[1]
		}
		column.Add(heading(t(string(name))))
		for _, c := range w.commands {
			if c.menu == name {
				column.Add(helpLine(keysOf(c), strings.TrimSuffix(t(c.words), "…"), t(c.help)))
			}
		}
	}
	columns[0].Add(heading(t("On the leaf")))
	for _, k := range leafview.KeysHelp() {
		columns[0].Add(helpLine(k.Keys, t(k.Does), ""))
	}
	w.showSheet(t("Keys and commands"), container.NewVScroll(container.NewGridWithColumns(2, columns[0], columns[1])))
}

func keysOf(c *command) string {
	var keys []string
	for _, k := range c.keys {
		keys = append(keys, k.String())
	}
	return strings.Join(keys, ", ")
}

func helpLine(keys, words, help string) fyne.CanvasObject {
	k := widget.NewLabel(keys)
	k.TextStyle.Bold, k.Wrapping = true, fyne.TextWrapWord
	body := tight()
	l := widget.NewLabel(words)
	l.Wrapping = fyne.TextWrapWord
	body.Add(l)
	if help != "" {
		body.Add(small(help))
	}
	return container.New(&labelledLayout{}, k, body)
}

// showSheet shows something large that only needs to be closed.
func (w *Window) showSheet(title string, body fyne.CanvasObject) {
	d := dialog.NewCustom(title, t("Close"), body, w.win)
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(900, size.Width-40), size.Height-40))
	d.SetOnClosed(w.focusSurface)
	d.Show()
}

// showHelpPage shows a page of the help.
func (w *Window) showHelpPage(name, title string) {
	text := widget.NewRichTextFromMarkdown(assets.Help(name, w.settings.Language()))
	text.Wrapping = fyne.TextWrapWord
	w.showSheet(title, container.NewVScroll(text))
}

func (w *Window) about() {
	version := w.opt.Version
	if version == "" {
		version = t("a build of your own")
	}
	text := widget.NewRichTextFromMarkdown(assets.Help("about", w.settings.Language()) + "\n\n" + t("Version: %s", version))
	text.Wrapping = fyne.TextWrapWord
	w.showSheet(t("About Leafmend"), container.NewVScroll(text))
}

// searchCommands lets the user type what is wanted and run it.
func (w *Window) searchCommands() {
	var found []*command
	var d *dialog.CustomDialog
	run := func(c *command) {
		d.Hide()
		w.Run(c.id)
	}
	list := widget.NewList(func() int { return len(found) },
		func() fyne.CanvasObject {
			return container.NewBorder(nil, nil, nil, widget.NewLabel(""), container.NewHBox(widget.NewLabel(""), small("")))
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			row := o.(*fyne.Container)
			c := found[i]
			text := row.Objects[0].(*fyne.Container)
			text.Objects[0].(*widget.Label).SetText(strings.TrimSuffix(t(c.words), "…"))
			help := text.Objects[1].(*widget.Label)
			help.Wrapping = fyne.TextWrapOff
			help.SetText(t(c.help))
			row.Objects[1].(*widget.Label).SetText(keysOf(c))
		})
	list.OnSelected = func(i widget.ListItemID) { run(found[i]) }
	entry := newSearchEntry()
	search := func(text string) {
		found = w.matching(text)
		list.UnselectAll()
		list.Refresh()
		list.ScrollToTop()
	}
	entry.OnChanged = search
	entry.OnSubmitted = func(string) {
		if len(found) > 0 {
			run(found[0])
		}
	}
	entry.escape = func() { d.Hide() }
	entry.SetPlaceHolder(t("What do you want to do? Enter takes the first."))
	d = dialog.NewCustomWithoutButtons(t("Find a command"), container.NewBorder(entry, nil, nil, nil, list), w.win)
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(640, size.Width-40), min(420, size.Height-40)))
	d.SetOnClosed(w.focusSurface)
	search("")
	d.Show()
	w.win.Canvas().Focus(entry)
}

// matching returns the commands that can be done now and whose words or help
// hold all that was typed; those whose words do come first.
func (w *Window) matching(text string) []*command {
	wanted := strings.Fields(strings.ToLower(text))
	holds := func(in string) bool {
		in = strings.ToLower(in)
		return !slices.ContainsFunc(wanted, func(p string) bool { return !strings.Contains(in, p) })
	}
	var first, second []*command
	for _, c := range w.commands {
		switch {
		case c.id == "search" || !c.can(w):
		case holds(t(c.words)):
			first = append(first, c)
		case holds(t(c.words) + " " + t(c.help)):
			second = append(second, c)
		}
	}
	return append(first, second...)
}

// searchEntry is an entry that Escape leaves.
type searchEntry struct {
	widget.Entry
	escape func()
}

func newSearchEntry() *searchEntry {
	e := &searchEntry{}
	e.ExtendBaseWidget(e)
	return e
}

// TypedKey implements [fyne.Focusable].
func (e *searchEntry) TypedKey(k *fyne.KeyEvent) {
	if k.Name == fyne.KeyEscape && e.escape != nil {
		e.escape()
		return
	}
	e.Entry.TypedKey(k)
}
