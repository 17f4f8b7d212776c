package scan

import (
	"slices"
	"sync"
)

// buffers lends the memory of large levels again when a picture is closed.
// Fresh memory costs several times what writing to it costs, and the garbage
// of sixty leaves would pile up between collections.
var buffers shelf

// shelf keeps a few byte slices that nobody uses. The zero value is ready.
type shelf struct {
	mu   sync.Mutex
	free [][]byte
}

// Only slices worth keeping are kept, and not much of them: the levels of one
// leaf of 70 megapixels.
const (
	leastKept = 1 << 20
	mostKept  = 128 << 20
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
	s.free = slices.Delete(s.free, best, best+1)
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
	total := 0
	for _, q := range s.free {
		total += cap(q)
	}
	for total > mostKept {
		total -= cap(s.free[0])
		s.free = slices.Delete(s.free, 0, 1)
	}
}

// free gives the levels above the first back. The first may have been handed
// out as Grey, so it is left to the garbage collector.
func (l *levels) free() {
	for i, r := range l.at[:l.from] {
		if i > 0 && r != nil {
			buffers.put(r.rgba)
			buffers.put(r.y)
		}
	}
}
