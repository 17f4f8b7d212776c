package ui

import (
	"errors"
	"fmt"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"
)

// worker runs long work aside: work on a goroutine of its own, then done on
// the toolkit's. A panic in work does not end the program; it comes back as
// the error. The zero value works; tests set inPlace and need not wait.
type worker struct {
	inPlace bool       // run both at once, on the caller's goroutine
	watch   *workWatch // told what goes wrong or takes long; nil for nobody
}

// workWatch is told about work, on the toolkit's goroutine.
type workWatch struct {
	mishap func(mishap)        // a panic in work, or in what came after it
	took   func(time.Duration) // how long work took
}

// finish runs what comes after work, or is to be done soon, on the toolkit's
// goroutine. A panic there does not end the program.
func (w worker) finish(f func()) {
	if w.watch == nil {
		f()
		return
	}
	if err := guarded(func() error { f(); return nil }); err != nil {
		w.watch.mishap(err.(mishap))
	}
}

// worked tells about work that has ended.
func (w worker) worked(err error, begin time.Time) {
	if w.watch == nil {
		return
	}
	w.watch.took(time.Since(begin))
	var m mishap
	if errors.As(err, &m) {
		w.watch.mishap(m)
	}
}

// start runs work aside and then done with what went wrong.
func (w worker) start(work func() error, done func(error)) {
	if w.inPlace {
		done(guarded(work))
		return
	}
	go func() {
		begin := time.Now()
		err := guarded(work)
		fyne.Do(func() {
			w.worked(err, begin)
			w.finish(func() { done(err) })
		})
	}()
}

// report runs f on the toolkit's goroutine, called from inside work.
func (w worker) report(f func()) {
	if w.inPlace {
		f()
		return
	}
	fyne.Do(func() { w.finish(f) })
}

// soon runs f on the toolkit's goroutine after the event in hand has been
// dealt with: the toolkit takes the focus away once more when a press ends.
func (w worker) soon(f func()) {
	if w.inPlace {
		f()
		return
	}
	time.AfterFunc(80*time.Millisecond, func() { fyne.Do(func() { w.finish(f) }) })
}

// mishap is a fault of the program itself, caught before it did harm.
type mishap struct {
	what  any
	stack string
}

func (m mishap) Error() string { return fmt.Sprintf("the program made a mistake: %v", m.what) }

func guarded(work func() error) (err error) {
	defer func() {
		if what := recover(); what != nil {
			err = mishap{what, string(debug.Stack())}
		}
	}()
	return work()
}
