package ui

import "context"

// aside does what may take a while, with words and a way to stop in the status
// line. When it is stopped, the window is free at once, ctx is done, and what
// comes back later is dropped: done is called only for work that was not.
func (w *Window) aside(words string, work func(ctx context.Context) error, done func(error)) {
	ctx, cancel := context.WithCancel(context.Background())
	stopped := false
	w.status.begin(words, func() {
		stopped = true
		cancel()
		w.status.end()
		w.status.say(t("Stopped; nothing was changed."))
	})
	w.work.start(func() error { return work(ctx) }, func(err error) {
		cancel()
		if stopped {
			return
		}
		w.status.end()
		done(err)
	})
}
