package scan

import (
	"context"
	"sync"
)

// Shelf keeps the pictures in use, up to a bound of memory, and closes those
// not looked at for longest. The pictures of a shelf are closed by it alone.
type Shelf struct {
	limit int64
	mu    sync.Mutex
	kept  []onShelf // the longest unused first
}

type onShelf struct {
	path string
	page int
	p    *Picture
}

// DefaultShelfBytes holds two leaves of 70 megapixels.
const DefaultShelfBytes = 400 << 20

// NewShelf returns a shelf that holds pictures of at most limit bytes
// together, but always the latest.
func NewShelf(limit int64) *Shelf { return &Shelf{limit: limit} }

// Open returns the picture of a page, from the shelf when it is there. Others
// are closed before a new one is decoded, so that both never stand side by
// side. A picture returned earlier may thereby be closed: it paints nothing
// and must be asked for again.
func (s *Shelf) Open(ctx context.Context, path string, opt OpenOptions) (*Picture, error) {
	if p := s.Peek(path, opt.Page); p != nil {
		return p, nil
	}
	if info, err := InspectPage(path, opt.Page); err == nil {
		s.makeRoom(int64(info.Width) * int64(info.Height) * 4)
	}
	p, err := Open(ctx, path, opt)
	if err != nil {
		return nil, err
	}
	s.mu.Lock()
	s.kept = append(s.kept, onShelf{path, opt.Page, p})
	s.mu.Unlock()
	s.makeRoom(0)
	return p, nil
}

// Peek returns the picture of a page when it is on the shelf, else nil.
func (s *Shelf) Peek(path string, page int) *Picture {
	s.mu.Lock()
	defer s.mu.Unlock()
	for i, k := range s.kept {
		if k.path == path && k.page == page {
			s.kept = append(append(s.kept[:i:i], s.kept[i+1:]...), k)
			return k.p
		}
	}
	return nil
}

// makeRoom closes the longest unused pictures until those kept and coming
// bytes more are within the limit. With nothing coming the latest stays.
func (s *Shelf) makeRoom(coming int64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	least := 1
	if coming > 0 {
		least = 0
	}
	for len(s.kept) > least && s.bytes()+coming > s.limit {
		s.kept[0].p.Close()
		s.kept = s.kept[1:]
	}
}

// bytes counts a picture whose finer levels are still to come as a whole.
func (s *Shelf) bytes() (n int64) {
	for _, k := range s.kept {
		n += max(k.p.Bytes(), 2*int64(k.p.info.Width)*int64(k.p.info.Height))
	}
	return n
}

// Drop closes the pictures of a file, all pages.
func (s *Shelf) Drop(path string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	var rest []onShelf
	for _, k := range s.kept {
		if k.path == path {
			k.p.Close()
		} else {
			rest = append(rest, k)
		}
	}
	s.kept = rest
}

// Close closes all pictures of the shelf; it can be used again.
func (s *Shelf) Close() {
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, k := range s.kept {
		k.p.Close()
	}
	s.kept = nil
}
