package ui

import "time"

// slowAct is how long a command may take before the log says so: longer is
// felt as a wait.
const (
	slowAct  = 300 * time.Millisecond
	slowWork = 3 * time.Second
)

// act does what a command does: the log knows which it was, and a panic in
// it does not end the program.
func (w *Window) act(id string, f func()) {
	w.doing = id
	begin := time.Now()
	w.guard(id, f)
	if took := time.Since(begin); took > slowAct && !w.work.inPlace {
		w.log().Warn("slow", "act", id, "ms", took.Milliseconds())
	}
}

// guard does f; a panic in it is told, kept as a report, and the program goes
// on. A window that nobody watches over, as in tests, panics openly.
func (w *Window) guard(act string, f func()) {
	if w.opt.Watched == nil {
		f()
		return
	}
	if err := guarded(func() error { f(); return nil }); err != nil {
		w.log().Error("mishap", "act", act)
		w.mishap(err.(mishap))
	}
}

// tookLong logs work aside that took long.
func (w *Window) tookLong(d time.Duration) {
	if d > slowWork {
		w.log().Info("long work", "since", w.doing, "ms", d.Milliseconds())
	}
}

// mishap deals with a panic that was caught: the work is kept in a recovery
// copy, a report is written, and the user is told in words.
func (w *Window) mishap(m mishap) {
	if w.opt.Watched == nil && w.work.inPlace {
		panic(m) // a test is to see it
	}
	w.noteNames()
	w.opt.Watched.Mishap(time.Now(), m.what, m.stack)
	w.reported = true
	w.rescue()
	if len(w.dialogs) > 0 && w.troubled {
		return // it is being told
	}
	w.troubled = true
	_ = guarded(func() error { w.tellError(m); return nil }) // telling may fail for the same reason; the report is there
}

// rescue writes the recovery copy at once, if there is work to lose.
func (w *Window) rescue() {
	_ = guarded(func() error { w.recover.rescue(); return nil }) // a second fault must not hide the first
}

// Crashed is called when the toolkit's loop itself broke off with a panic:
// the work is kept, and the next start tells what happened. Nothing can be
// shown any more.
// A nil window, not yet made, has nothing to keep.
func (w *Window) Crashed(what any, stack string) {
	if w == nil {
		panic(what) // the runtime writes the report
	}
	w.noteNames()
	w.log().Error("crash")
	w.rescue()
	w.opt.Watched.Crash(what, stack)
	w.opt.Journal.Close()
}

// Ended is called when the toolkit's loop has ended. Where the user did not
// leave, as when the system asked the program to end, unsaved work stays in
// its recovery copy, and the job is free for others.
func (w *Window) Ended() {
	if w == nil {
		return
	}
	how := "left"
	if !w.ended {
		how = "asked to end"
		w.rescue()
		w.keepLock(nil)
		w.files.end(quitWait)
	}
	w.log().Info("end", "how", how)
	w.opt.Watched.Done()
	w.opt.Journal.Close()
}
