package ui

import (
	"fmt"
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
	end.leads, _ = body.(*container.Scroll)
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
