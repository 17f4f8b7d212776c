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
