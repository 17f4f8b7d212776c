package scan

import "sync"

// buffers lends the memory of large levels again when a picture is closed.
// Fresh memory costs several times what writing to it costs, and the garbage
// of sixty leaves would pile up between collections.
var buffers shelf

// shelf keeps a few byte slices that nobody uses. The zero value is ready.
type shelf struct {
	mu   sync.Mutex
	free [][]byte
}

// Only slices worth keeping are kept, and few.
const (
	leastKept = 1 << 20
	mostKept  = 4
)

// get returns n bytes of undefined content.
func (s *shelf) get(n int) []byte {
	s.mu.Lock()
	defer s.mu.Unlock()
	best := -1
	for i, p := range s.free {
		if cap(p) >= n && cap(p) <= n+n/4 && (best < 0 || cap(p) < cap(s.free[best])) {
			best = i
		}
	}
	if best < 0 {
		return make([]byte, n)
	}
	p := s.free[best]
	s.free = append(s.free[:best], s.free[best+1:]...)
	return p[:n]
}

// put takes a slice back; the caller must not use it again. The longest
// unused is dropped when there are too many.
func (s *shelf) put(p []byte) {
	if cap(p) < leastKept {
		return
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.free = append(s.free, p)
	if len(s.free) > mostKept {
		s.free = append(s.free[:0], s.free[1:]...)
	}
}

// free gives the levels above the first back. The first may have been handed
// out as Grey, so it is left to the garbage collector.
func (l *levels) free() {
	for i, r := range l.at {
		if i > 0 && r != nil {
			buffers.put(r.rgba)
			buffers.put(r.y)
		}
	}
}
