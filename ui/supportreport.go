package ui

import (
	"os"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// showReport shows the newest report of a run that did not end well, exactly
// as it can be copied.
func (w *Window) showReport() {
	reports := w.opt.Watched.Reports()
	if len(reports) == 0 {
		return
	}
	data, err := os.ReadFile(reports[0])
	if err != nil {
		w.tellError(err)
		return
	}
	text := widget.NewLabel(string(data))
	text.TextStyle.Monospace = true
	head := small(t("This is all that the report holds. It names neither you nor the job; nothing is sent anywhere."))
	d := dialog.NewCustomWithoutButtons(t("Report of the last crash"), container.NewBorder(head, nil, nil, nil, container.NewScroll(text)), w.win)
	end := w.answerButton(t("Close"), widget.MediumImportance, d.Hide)
	d.SetButtons([]fyne.CanvasObject{end, w.answerButton(t("Copy"), widget.HighImportance, func() {
		w.app.Clipboard().SetContent(string(data))
		w.status.say(t("Copied. It holds no names, titles or folders; paste it into your message."))
	})})
	room := w.win.Canvas().Size()
	d.Resize(fyne.NewSize(min(760, room.Width-40), min(560, room.Height-40)))
	w.present(d, nil)
	w.win.Canvas().Focus(end)
}

// tellLastRun says that the run before did not end well, where that is not
// yet known from an offer of recovered work.
func (w *Window) tellLastRun() {
	last := w.opt.Watched.LastRun()
	switch {
	case last.Report == "":
	case last.Fault && !w.asking():
		words := widget.NewLabel(t("The program made a mistake last time and had to end. A report was kept on this machine; it helps to find the fault."))
		words.Wrapping = fyne.TextWrapWord
		w.confirm(t("The program did not end well"), t("See the report"), t("Close"), words, fyne.NewSize(460, 180), func(yes bool) {
			if yes {
				w.showReport()
			}
		})
	default:
		w.status.say(t("The program did not end well last time; see “Report of the last crash” in the menu Help."))
	}
}

// tellFault is tellLastRun after work was taken up again, when that the
// program did not end well has been said, and only a fault of its own is news.
func (w *Window) tellFault() {
	if w.opt.Watched.LastRun().Fault {
		w.tellLastRun()
	}
}

// supportCommands help others to help.
func supportCommands() []*command {
	return []*command{
		{id: "copy-support", words: "Copy details for support", menu: menuHelp, keys: []key{{fyne.KeyF12, shift}}, newPart: true,
			help: "Copy version, system and the last lines of the log, without names, titles or folders.",
			run:  func(w *Window) { w.copyDetails(nil) }},
		{id: "show-log", words: "Show the log's folder", menu: menuHelp, keys: []key{{fyne.KeyF12, ctrl}},
			help: "Open the folder of the log; it is small, and names neither you nor your jobs.",
			run:  (*Window).showLogFolder},
		{id: "last-report", words: "Report of the last crash…", menu: menuHelp, keys: []key{{fyne.KeyF12, ctrl | shift}},
			help:    "See and copy what was kept of the last run that did not end well.",
			enabled: func(w *Window) bool { return w.reported },
			run:     (*Window).showReport},
	}
}
