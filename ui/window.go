package ui

import (
	"image/color"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/theme"

	"leafmend/mendplan"
	"leafmend/mendplan/scan"
	"leafmend/ui/journal"
	"leafmend/ui/leafview"
)

// Options say how the window begins.
type Options struct {
	Version string   // shown in "About" and printed; "" for a build without one
	Sample  bool     // open the sample job
	Files   []string // a job, or scans; both may be given
	// Recovery is the folder for copies of unsaved work; "" keeps none.
	Recovery string
	// Locale is the language of the system, such as "de_DE.UTF-8", taken when
	// the settings name none; "" is English.
	Locale string
	// Journal and Watched keep what helps support; nil keeps nothing.
	Journal *journal.Journal
	Watched *journal.Watched
}

// Window holds the panels together and answers commands.
type Window struct {
	app      fyne.App
	win      fyne.Window
	opt      Options
	settings settings
	session  *Session
	pictures *pictures
	looks    looks
	work     worker
	files    lanes              // what touches files, in order for each folder
	mark     fileMark           // of the job file, as last read or written here
	saves    map[string]*saving // under way, by path
	opening  int                // counts jobs asked for, so that the last one wins
	commands []*command
	menus    menus

	surface  *leafview.Surface
	stage    stage
	bar      *stageBar
	status   *statusBar
	trace    *tracePanel
	leaves   *leafList
	side     *sidePanel
	beside   *beside
	body     *fyne.Container
	panels   map[stage]panel // made when first shown
	guide    *guide
	recover  *recovery
	bench    *benchView // the window for the bench; nil until it was opened
	previews previews

	proposals    []leafview.Proposal   // of losses, waiting for a word
	asked        int                   // proposals gone to by key
	found        map[int]scan.Proposal // what the proposals say, by their numbers
	printShown   bool                  // where there is print is marked
	pictureFault error                 // why the scan of the side shown cannot be seen
	awaited      *awaited              // the place kept for a scan that is being read
	followed     followState
	lock         *mendplan.JobLock      // of the job in hand; nil for a new one
	lockTimer    *time.Timer            // renews it
	renewing     bool                   // it is being renewed
	copied       *mendplan.Damage       // whose mend "mend in the same way" gives
	next         func()                 // to be done once the form in front has closed
	dialogs      []*dialog.CustomDialog // open, the one in front last
	showing      string                 // leaf and side the surface shows
	printing     printWish
	remedies     remedyFinder
	problem      int    // index of the problem last gone to
	doing        string // id of the command given last, for the log
	ended        bool   // the user has left; nothing is to be rescued
	troubled     bool   // a mistake of the program has been told
	reported     bool   // there are reports of runs that did not end well

	relinkOffered string // path of the job whose missing scans were offered to be looked for
}

// stage is one of the large views that share the middle of the window.
type stage int

const (
	stageTrace stage = iota
	stageMends
	stageCuts
	stageEstimate
	stageStock
	stageJob
	stageOrder
	stageWork
)

// panel is a stage's content.
type panel interface {
	content() fyne.CanvasObject
	refresh() // read the session again; called only while it is shown
}

// Open builds the window's content in win and shows what the options name.
// The caller shows the window and runs the app.
func Open(app fyne.App, win fyne.Window, opt Options) *Window {
	w := build(app, win, opt, worker{})
	w.begin()
	return w
}

// build makes the window without opening anything.
func build(app fyne.App, win fyne.Window, opt Options, work worker) *Window {
	w := &Window{app: app, win: win, opt: opt, settings: settings{app.Preferences()}, work: work, problem: -1}
	w.work.watch = &workWatch{mishap: w.mishap, took: w.tookLong}
	work = w.work
	w.reported = len(opt.Watched.Reports()) > 0
	useLanguage(w.language())
	app.Settings().SetTheme(w.settings.theme())
	w.session = newSession(work, &w.looks)
	w.pictures = newPictures(work)
	w.commands = commandTable()
	w.remedies.w = w
	w.surface = leafview.New()
	w.status = newStatusBar(w)
	w.bar = newStageBar(w)
	w.guide = newGuide(w)
	w.leaves = newLeafList(w)
	w.side = newSidePanel(w)
	w.beside = newBeside(w)
	w.trace = newTracePanel(w)
	w.panels = map[stage]panel{stageTrace: w.trace}
	w.body = container.NewStack(w.trace.content())
	w.makeMenus()
	w.connectSurface()
	w.listenForKeys()
	w.listen()
	w.recover = newRecovery(w)
	win.SetContent(container.NewBorder(w.bar.content(), container.NewVBox(w.guide.content(), w.status.content()), nil, nil, w.body))
	win.SetOnDropped(w.dropped)
	win.SetCloseIntercept(func() { w.leaving(w.quit) })
	w.titled()
	w.refreshAll()
	return w
}

// begin offers what a crash left, else opens what the command line named.
func (w *Window) begin() {
	w.logStart()
	w.recover.offer(func() {
		switch {
		case w.opt.Sample:
			w.openSample()
		case len(w.opt.Files) > 0:
			w.openFiles(w.opt.Files)
		default:
			w.newJob()
		}
		w.tellLastRun()
	})
}

// listen has every panel told what changes.
func (w *Window) listen() {
	s := w.session
	s.jobChanged.listen(w.refreshAll)
	s.planChanged.listen(func() {
		w.showScene()
		w.refreshPanels()
	})
	s.placeChanged.listen(w.placeChanged)
	s.selected.listen(func() {
		w.surface.Select(s.Selected()...)
		w.showScene()
		w.refreshPanels()
	})
	s.fileChanged.listen(w.titled)
}

// refreshAll reads everything again after the job changed.
func (w *Window) refreshAll() {
	w.showPlace()
	w.refreshPanels()
}

// refreshPanels has what is on show read the session again.
func (w *Window) refreshPanels() {
	w.bar.refresh()
	w.status.refresh()
	if p, ok := w.panels[w.stage]; ok {
		p.refresh()
	}
	w.refreshCommands()
}

// showStage brings one of the large views to the middle.
func (w *Window) showStage(s stage) {
	if s == w.stage {
		w.focusStage(w.panels[s])
		return
	}
	w.stage = s
	p, ok := w.panels[s]
	if !ok {
		p = w.makePanel(s)
		w.panels[s] = p
	}
	w.body.Objects = []fyne.CanvasObject{p.content()}
	w.body.Refresh()
	w.refreshPanels()
	w.letGoOfHidden()
	if s == stageTrace {
		w.focusSurface()
	}
	w.focusStage(p)
}

// focusStage gives the keyboard to the drawing of a panel that has one.
func (w *Window) focusStage(p panel) {
	if f, ok := p.(interface{ focus() }); ok {
		f.focus()
	}
}

func (w *Window) makePanel(s stage) panel {
	switch s {
	case stageMends:
		return newMendsPanel(w)
	case stageCuts:
		return newCutsPanel(w)
	case stageEstimate:
		return newEstimatePanel(w)
	case stageStock:
		return newStockPanel(w)
	case stageJob:
		return newJobPanel(w)
	case stageOrder:
		return newOrderPanel(w)
	case stageWork:
		return newWorkPanel(w)
	}
	return w.trace
}

// titled names the job and its state in the window's title.
func (w *Window) titled() {
	name := t("Unsaved job")
	if p := w.session.Path(); p != "" {
		name = filepath.Base(p)
	}
	if title := w.session.Job().Title; title != "" {
		name = title + " — " + name
	}
	if w.session.Unsaved() {
		name = "• " + name
	}
	w.win.SetTitle(name + " — Leafmend")
}

// focusSurface gives the keyboard back to the tracing surface.
func (w *Window) focusSurface() {
	if w.stage == stageTrace && hasLeaf(w) && !w.asking() {
		w.win.Canvas().Focus(w.surface)
	}
}

// quit ends the program; unsaved work has been asked for before.
func (w *Window) quit() {
	w.ended = true
	w.keepLock(nil)
	w.recover.clear()
	w.files.end(quitWait)
	leaves, surface := w.trace.shares()
	w.settings.SetLeavesWidth(leaves)
	w.settings.SetDetailsWidth(surface)
	w.win.SetCloseIntercept(nil)
	w.app.Quit()
}

// isDark reports whether the look in use is dark.
func (w *Window) isDark() bool {
	return w.settings.theme().dark(w.app.Settings().ThemeVariant())
}

func (w *Window) toggleDark() {
	if w.isDark() {
		w.settings.SetAppearance(Light)
	} else {
		w.settings.SetAppearance(Dark)
	}
	w.applyLook()
}

// applyLook shows the look of the settings everywhere.
func (w *Window) applyLook() {
	w.app.Settings().SetTheme(w.settings.theme())
	w.showLook()
}

// showLook gives the tracing surface the look of settings and job.
func (w *Window) showLook() {
	l := w.surface.Look()
	l.Dark, l.HighContrast = w.isDark(), w.settings.HighContrast()
	w.settings.lines(&l)
	l.Focus = color.RGBAModel.Convert(shade(theme.ColorNamePrimary)).(color.RGBA)
	l.Inches = unitsOf(w.session.Job()) == mendplan.Inches
	l.Comma = catalogue.Comma()
	w.surface.SetLook(l)
	w.refreshAll()
}

// applyHabits gives pointer and keys the habits of the settings.
func (w *Window) applyHabits() {
	h := w.surface.Habits()
	h.WheelScrolls, h.WheelReverse = w.settings.WheelScrolls(), w.settings.WheelReverse()
	h.SnapRadius = w.settings.SnapRadius()
	h.Snap, h.Follow, h.NavigateOnly = w.settings.Snap(), w.settings.Follow(), w.settings.TouchNavigates()
	w.surface.SetHabits(h)
}
