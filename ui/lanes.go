package ui

import "time"

// quitWait is how long the program waits for its files when it ends. What is
// not done by then is of the kind the next start cleans.
const quitWait = 2 * time.Second

// lanes does what touches files aside: a disk or a network folder that does
// not answer must not hold up the window. Work of one folder is done in the
// order it was asked for; a folder that stalls holds up no other. The zero
// value works; start is called on the toolkit's goroutine.
type lanes struct {
	last map[string]chan struct{} // closed when the last work of a folder has ended
}

// start runs do aside after all earlier work of the folder, and then done on
// the toolkit's goroutine with what went wrong.
func (l *lanes) start(w worker, folder string, do func() error, done func(error)) {
	if l.last == nil {
		l.last = map[string]chan struct{}{}
	}
	before, mine := l.last[folder], make(chan struct{})
	l.last[folder] = mine
	w.start(func() error {
		defer close(mine)
		if before != nil {
			<-before
		}
		return do()
	}, done)
}

// fileWork runs work on files of a folder aside, in order; done may be nil.
func (w *Window) fileWork(folder string, do func() error, done func(error)) {
	w.files.start(w.work, folder, do, func(err error) {
		if done != nil {
			done(err)
		}
	})
}

// end waits for all work that was begun, for at most a time in all.
func (l *lanes) end(most time.Duration) {
	until := time.Now().Add(most)
	for folder := range l.last {
		l.endOf(folder, until)
	}
}

// endOf waits for the work of one folder.
func (l *lanes) endOf(folder string, until time.Time) {
	if last := l.last[folder]; last != nil {
		select {
		case <-last:
		case <-time.After(time.Until(until)):
		}
	}
}
