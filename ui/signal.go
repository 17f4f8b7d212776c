package ui

// signal tells whoever listens that something has changed; what it is now is
// read from its owner. All calls are made on the toolkit's goroutine.
type signal struct{ listeners []func() }

// listen calls f whenever the signal is emitted.
func (s *signal) listen(f func()) { s.listeners = append(s.listeners, f) }

func (s *signal) emit() {
	for _, f := range s.listeners {
		f()
	}
}
