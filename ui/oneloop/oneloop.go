// Package oneloop gives tests an app whose events are dealt with on one
// goroutine, as the desktop deals with them. The toolkit's own test app runs
// them wherever they are called, so that what work aside hands back would run
// beside the rest. Only tests import it.
package oneloop

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
)

// mostEvents may wait at once; more would hold up whoever hands them back.
const mostEvents = 1 << 14

// NewApp returns a test app, made the current one, and the events that are to
// be dealt with on the goroutine that stands for the toolkit's.
func NewApp() (fyne.App, <-chan func()) {
	events := make(chan func(), mostEvents)
	base := test.NewApp()
	a := app{base, driver{base.Driver(), events}}
	fyne.SetCurrentApp(a)
	return a, events
}

type app struct {
	fyne.App
	driver driver
}

// Driver implements [fyne.App].
func (a app) Driver() fyne.Driver { return a.driver }

type driver struct {
	fyne.Driver
	events chan<- func()
}

// DoFromGoroutine implements [fyne.Driver].
func (d driver) DoFromGoroutine(f func(), wait bool) {
	if !wait {
		d.events <- f
		return
	}
	done := make(chan struct{})
	d.events <- func() { f(); close(done) }
	<-done
}
