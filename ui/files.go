package ui

import (
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"leafmend/mendplan"
	"leafmend/sampledata"
)

// jobSuffixes chooses the files that choosers of jobs show.
var jobSuffixes = []string{mendplan.FileSuffix}

// newJob begins an empty job with the starter tissues.
func (w *Window) newJob() {
	j := mendplan.Job{Units: mendplan.Units(w.settings.Units()), Paper: mendplan.Paper(w.settings.Paper())}
	j.Tissues, j.Stock = mendplan.StarterTissues()
	w.keepLock(nil)
	w.opening++
	w.looks.startIn("")
	w.session.Take(j, "", nil)
	w.status.say(t("A new job: add scans of its leaves."))
}

func (w *Window) openDialog() {
	w.choose(choosing{title: t("Open a job"), verb: t("Open"), suffix: jobSuffixes}, func(paths []string) { w.openPath(paths[0]) })
}

// openPath reads the job at path. A job that cannot be read leaves the one in
// hand as it is.
func (w *Window) openPath(path string) { w.openThen(path, func() {}) }

// openThen reads the job at path aside; then is called when it is in hand.
// What the user does in the meantime is asked about before it is left, and
// of several jobs asked for the last is opened.
func (w *Window) openThen(path string, then func()) {
	path, err := filepath.Abs(path)
	if err != nil {
		w.tellError(err)
		return
	}
	begin := time.Now()
	w.opening++
	turn, history, mark := w.opening, w.session.history, w.session.history.Mark()
	var job mendplan.Job
	var problems []mendplan.Problem
	var hurt *salvaged
	sum := ""
	w.status.say(t("Opening %s…", filepath.Base(path)))
	w.fileWork(filepath.Dir(path), func() (err error) {
		data, err := mendplan.ReadJob(path)
		if err == nil {
			sum = mendplan.Checksum(data)
			job, problems, err = mendplan.DecodeFile(path, data)
		}
		if err != nil {
			hurt = salvage(path)
		}
		return err
	}, func(err error) {
		switch {
		case turn != w.opening:
		case err != nil && hurt != nil:
			w.offerDamaged(path, err, hurt)
		case err != nil:
			w.settings.ForgetRecent(path)
			w.fillRecent()
			w.tellError(err)
		case history != w.session.history || mark != history.Mark():
			w.leaving(func() { w.putOpen(path, job, problems, sum, begin, then) })
		default:
			w.putOpen(path, job, problems, sum, begin, then)
		}
	})
}

// putOpen puts a job that was read from path in hand, once its lock is had.
func (w *Window) putOpen(path string, job mendplan.Job, problems []mendplan.Problem, sum string, begin time.Time, then func()) {
	w.withLock(path, func() {
		w.looks.startIn(filepath.Dir(path))
		w.session.Take(job, path, problems)
		w.settings.NoteRecent(path)
		w.settings.SetFolder(filepath.Dir(path))
		w.fillRecent()
		w.showStage(stageTrace)
		w.showLook()
		w.mark = fileMark{path, sum}
		w.focusSurface()
		w.logJob("opened", begin)
		w.status.say(t("Opened: %s, %s.", filepath.Base(path), leafCount(len(job.Leaves))))
		w.checkScans()
		then()
	})
}

// checkScans looks aside whether the scans are there and unchanged.
func (w *Window) checkScans() {
	job, path, base := w.session.Job(), w.session.Path(), w.session.base
	var found []mendplan.Problem
	w.work.start(func() error {
		found = mendplan.CheckScans(job, base)
		return nil
	}, func(error) {
		if path == w.session.Path() {
			w.scansFound(found)
			w.readAllPrint()
		}
	})
}

// openFiles takes what the command line or a drop names: the first job among
// them, and all others as scans.
func (w *Window) openFiles(paths []string) {
	var scans []string
	job := ""
	for _, p := range paths {
		if strings.HasSuffix(strings.ToLower(p), mendplan.FileSuffix) && job == "" {
			job = p
			continue
		}
		scans = append(scans, p)
	}
	add := func() {
		if len(scans) > 0 {
			w.addScans(scans)
		}
	}
	if job == "" {
		add()
		return
	}
	w.openThen(job, add)
}

// dropped takes files and folders dropped on the window.
func (w *Window) dropped(_ fyne.Position, uris []fyne.URI) {
	var paths []string
	job := false
	for _, u := range uris {
		if u.Scheme() == "file" {
			paths = append(paths, u.Path())
			job = job || strings.HasSuffix(strings.ToLower(u.Path()), mendplan.FileSuffix)
		}
	}
	if w.asking() || len(paths) == 0 {
		return
	}
	if job {
		w.leaving(func() { w.openFiles(paths) })
		return
	}
	if !w.droppedForMissing(paths) {
		w.openFiles(paths)
	}
}

// saveAs asks for a file. The scans stay where they are.
func (w *Window) saveAs(then func()) {
	name := "job" + mendplan.FileSuffix
	if title := w.session.Job().Title; title != "" {
		name = fileName(title) + mendplan.FileSuffix
	}
	if w.session.proposed != "" {
		name = w.session.proposed
	}
	if p := w.session.Path(); p != "" {
		name = filepath.Base(p)
	}
	w.choose(choosing{title: t("Save the job"), verb: t("Save"), suffix: jobSuffixes, name: name}, func(paths []string) {
		w.writeJob(paths[0], then)
	})
}

// fileName makes a name for a file of a title.
func fileName(title string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < ' ' {
			return '-'
		}
		return r
	}, title)
}

// leaving asks what is to be done with unsaved work before then is done.
func (w *Window) leaving(then func()) {
	if !w.session.Unsaved() {
		then()
		return
	}
	w.question(t("Save first?"), t("The job has changes that are not saved."), fyne.NewSize(460, 150), nil,
		answer{t("Go on working"), widget.MediumImportance, nil},
		answer{t("Do not save"), widget.DangerImportance, then},
		answer{t("Save"), widget.HighImportance, func() { w.save(then) }})
}

// openSample unpacks the sample job into a folder of the user's and opens it.
// One that is there already is opened as the user left it.
func (w *Window) openSample() {
	dir := filepath.Join(w.app.Storage().RootURI().Path(), "sample")
	if err := unpack(sampledata.Files(), dir); err != nil {
		w.tellError(err)
		return
	}
	jobs, err := filepath.Glob(filepath.Join(dir, "*"+mendplan.FileSuffix))
	if err != nil || len(jobs) == 0 {
		w.status.say(t("The sample job is not there: install the program again."))
		return
	}
	w.openPath(jobs[0])
}

// asking reports whether a dialog waits for an answer.
func (w *Window) asking() bool { return w.win.Canvas().Overlays().Top() != nil }

// ensureDir makes a folder with all above it.
func ensureDir(dir string) error { return os.MkdirAll(dir, 0o755) }
