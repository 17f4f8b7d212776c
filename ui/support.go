package ui

import (
	"errors"
	"fmt"
	"log/slog"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"leafmend/ui/journal"
)

// Keep has log and reports kept in folders of root, where the program keeps
// its other files.
func (o *Options) Keep(root string) {
	o.Journal = journal.Open(filepath.Join(root, "log"))
	o.Watched = journal.Watch(filepath.Join(root, "crash"), o.Journal, o.system(), time.Now(), running)
}

// system says which program runs where, without naming the machine.
func (o *Options) system() string {
	return fmt.Sprintf("Leafmend %s, %s/%s, %s", o.Version, runtime.GOOS, runtime.GOARCH, runtime.Version())
}

func (w *Window) log() *slog.Logger { return w.opt.Journal.Log() }

// logStart begins the log of a run.
func (w *Window) logStart() {
	w.log().Info("start", "version", w.opt.Version, "system", runtime.GOOS, "machine", runtime.GOARCH, "go", runtime.Version(), "language", w.language())
}

// Started is called once the window is on the screen.
func (w *Window) Started() {
	size := w.win.Canvas().Size()
	w.log().Info("shown", "scale", w.win.Canvas().Scale(), "width", size.Width, "height", size.Height)
}

// logError logs an error with its kind.
func (w *Window) logError(err error) {
	w.noteNames()
	w.log().Error("failed", "after", w.doing, "kind", fmt.Sprintf("%T", err), "err", err)
}

// logJob logs what was done with a job, by its numbers alone.
func (w *Window) logJob(what string, begin time.Time) {
	j := w.session.Job()
	damages := 0
	for _, l := range j.Leaves {
		damages += len(l.Damages)
	}
	w.log().Info(what, "leaves", len(j.Leaves), "damages", damages, "tissues", len(j.Tissues), "ms", time.Since(begin).Milliseconds())
}

// noteNames has all that could name the user or the job kept out of log and
// reports.
func (w *Window) noteNames() {
	if w.opt.Journal == nil {
		return
	}
	noteNames(w, w.opt.Journal.Redactor)
}

func noteNames(w *Window, r *journal.Redactor) {
	j := w.session.Job()
	for _, p := range append([]string{w.session.Path(), w.session.base, w.settings.Folder(), w.opt.Recovery}, w.settings.Recent()...) {
		r.NotePath(p)
	}
	for _, n := range []string{j.Title, j.Number, j.Owner, w.settings.Person(), j.Examination.Author, j.Examination.Consent, j.Examination.Object} {
		r.NoteName(n)
	}
	for _, s := range j.Steps {
		r.NoteName(s.By)
	}
	for _, o := range j.Orders {
		r.NoteName(o.By)
	}
	for _, l := range j.Leaves {
		r.NoteName(l.Name)
		for _, s := range []string{l.Front.Scan.Path, l.Back.Scan.Path, l.Front.After.Path, l.Back.After.Path} {
			r.NotePath(s)
		}
	}
}

// details is what helps others to help, in English, without anything that
// tells who the user is or what the job is about. err may be nil.
func (w *Window) details(err error) string {
	r := journal.NewRedactor()
	if w.opt.Journal != nil {
		r = w.opt.Journal.Redactor
	}
	noteNames(w, r)
	var b strings.Builder
	fmt.Fprintf(&b, "%s\nlanguage: %s, screen scale: %.2f\nlast command: %s\n", w.opt.system(), w.language(), w.win.Canvas().Scale(), w.doing)
	j := w.session.Job()
	fmt.Fprintf(&b, "job: %d leaves, %d pieces, %d problems\n", len(j.Leaves), len(w.session.Plan().Pieces), len(w.session.Problems()))
	if err != nil {
		fmt.Fprintf(&b, "\nerror:\n%s", r.Chain(err))
		var m mishap
		if errors.As(err, &m) {
			fmt.Fprintf(&b, "%s\n", r.Stack(m.stack))
		}
	}
	if last := w.opt.Journal.Last(); len(last) > 0 {
		fmt.Fprintf(&b, "\nlast lines of the log:\n%s\n", strings.Join(last, "\n"))
	}
	return b.String()
}

// copyDetails puts the details on the clipboard.
func (w *Window) copyDetails(err error) {
	w.app.Clipboard().SetContent(w.details(err))
	w.status.say(t("Copied. It holds no names, titles or folders; paste it into your message."))
}

// showLogFolder opens the log's folder with the system's own program.
func (w *Window) showLogFolder() {
	dir := w.opt.Journal.Dir()
	if _, err := os.Stat(dir); dir == "" || err != nil {
		w.status.say(t("There is no log: its folder could not be written."))
		return
	}
	if err := w.app.OpenURL(&url.URL{Scheme: "file", Path: filepath.ToSlash(dir)}); err != nil {
		w.status.say(t("The log is in %s; open it yourself.", dir))
	}
}

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
