package ui

import (
	"fmt"
	"runtime/debug"
	"time"

	"fyne.io/fyne/v2"
)

// worker runs long work aside: work on a goroutine of its own, then done on
// the toolkit's. A panic in work does not end the program; it comes back as
// the error. The zero value works; tests set inPlace and need not wait.
type worker struct {
	inPlace bool // run both at once, on the caller's goroutine
}

// start runs work aside and then done with what went wrong.
func (w worker) start(work func() error, done func(error)) {
	if w.inPlace {
		done(guarded(work))
		return
	}
	go func() {
		err := guarded(work)
		fyne.Do(func() { done(err) })
	}()
}

// report runs f on the toolkit's goroutine, called from inside work.
func (w worker) report(f func()) {
	if w.inPlace {
		f()
		return
	}
	fyne.Do(f)
}

// soon runs f on the toolkit's goroutine after the event in hand has been
// dealt with: the toolkit takes the focus away once more when a press ends.
func (w worker) soon(f func()) {
	if w.inPlace {
		f()
		return
	}
	time.AfterFunc(80*time.Millisecond, func() { fyne.Do(f) })
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
