package ui

import (
	"fmt"
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
	var columns [2]strings.Builder
	for _, name := range menuOrder {
		column := &columns[0]
		if name == menuView || name == menuWork || name == menuHelp {
			column = &columns[1]
		}
		fmt.Fprintf(column, "\n## %s\n\n", t(string(name)))
		for _, c := range w.commands {
			if c.menu == name {
				fmt.Fprintf(column, "**%s** — **%s.** %s\n\n", keysOf(c), strings.TrimSuffix(t(c.words), "…"), t(c.help))
			}
		}
	}
	fmt.Fprintf(&columns[0], "\n## %s\n\n", t("On the leaf"))
	for _, k := range leafview.KeysHelp() {
		fmt.Fprintf(&columns[0], "**%s** — %s.\n\n", k.Keys, sentenceCase(t(k.Does)))
	}
	grid := container.NewGridWithColumns(2)
	for i := range columns {
		text := widget.NewRichTextFromMarkdown(columns[i].String())
		text.Wrapping = fyne.TextWrapWord
		grid.Add(text)
	}
	w.showSheet(t("Keys and commands"), container.NewVScroll(grid))
}

func keysOf(c *command) string {
	var keys []string
	for _, k := range c.keys {
		keys = append(keys, k.String())
	}
	return strings.Join(keys, ", ")
}

// showSheet shows something large that only needs to be closed.
func (w *Window) showSheet(title string, body fyne.CanvasObject) {
	w.showSized(title, body, fyne.NewSize(900, 2000))
}

// showSized shows something that only needs to be closed, as large as asked
// for or as there is room.
func (w *Window) showSized(title string, body fyne.CanvasObject, wanted fyne.Size) {
	d := dialog.NewCustomWithoutButtons(title, body, w.win)
	end := w.answerButton(t("Close"), widget.MediumImportance, d.Hide)
	d.SetButtons([]fyne.CanvasObject{end})
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(wanted.Width, size.Width-40), min(wanted.Height, size.Height-40)))
	w.present(d, nil)
	w.win.Canvas().Focus(end)
}

// showHelpPage shows a page of the help.
func (w *Window) showHelpPage(name, title string) {
	text := widget.NewRichTextFromMarkdown(assets.Help(name, w.language()))
	text.Wrapping = fyne.TextWrapWord
	w.showSheet(title, container.NewVScroll(text))
}

func (w *Window) about() {
	version := w.opt.Version
	if version == "" {
		version = t("a build of your own")
	}
	text := widget.NewRichTextFromMarkdown(assets.Help("about", w.language()) + "\n\n" + t("Version: %s", version))
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
	list := newList(func() int { return len(found) },
		func() fyne.CanvasObject {
			help := small("")
			help.Wrapping, help.Truncation = fyne.TextWrapOff, fyne.TextTruncateEllipsis
			return container.NewBorder(nil, nil, widget.NewLabel(""), widget.NewLabel(""), help)
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			row := o.(*fyne.Container)
			c := found[i]
			row.Objects[0].(*widget.Label).SetText(t(c.help))
			row.Objects[1].(*widget.Label).SetText(strings.TrimSuffix(t(c.words), "…"))
			row.Objects[2].(*widget.Label).SetText(keysOf(c))
		})
	list.OnSelected = func(i widget.ListItemID) { run(found[i]) }
	nothing := small(t("No command says that; try another word, or F1 for all of them."))
	entry := w.newEntry()
	search := func(text string) {
		found = w.matching(text)
		list.UnselectAll()
		list.Refresh()
		list.ScrollToTop()
		show(nothing, len(found) == 0)
	}
	entry.OnChanged = search
	entry.OnSubmitted = func(string) {
		if len(found) > 0 {
			run(found[0])
		}
	}
	entry.SetPlaceHolder(t("What do you want to do? Enter takes the first."))
	d = dialog.NewCustomWithoutButtons(t("Find a command"), container.NewBorder(tight(entry, nothing), nil, nil, nil, list), w.win)
	size := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(640, size.Width-40), min(420, size.Height-40)))
	search("")
	w.present(d, nil)
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
