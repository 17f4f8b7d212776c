package scan

import (
	"context"

	"leafmend/mendplan/phrase"
)

// DefaultMaxPixels bounds the size of a picture unless told otherwise.
const DefaultMaxPixels = 250_000_000

// OpenOptions say how a picture is opened. The zero value is useful.
type OpenOptions struct {
	Page      int                // of a file with several, counted from 0
	Progress  func(done float64) // told now and then how far the reading is, 0 to 1; may be nil
	MaxPixels int64              // larger pictures are refused; 0 means DefaultMaxPixels
	Cache     *Cache             // where levels are kept for the next opening; nil for nowhere
	Lazy      bool               // with levels from the cache: read the pixels themselves only when asked for
}

// Open reads and decodes the picture at path, turns it upright and builds its
// smaller levels. When the cache knows the picture, Open returns at once with
// its coarse levels, and the finer ones follow; see [Picture.Sharp]. Open stops
// with the context's error when ctx ends. What the file causes is a [*Refusal]
// that names the file and a remedy. Progress is called from the goroutine that
// called Open.
func Open(ctx context.Context, path string, opt OpenOptions) (*Picture, error) {
	f, err := openFile(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	h, err := readHeader(f.blob, opt.Page)
	if err == nil {
		err = h.admit(opt.MaxPixels)
	}
	if err != nil {
		return nil, refuse(path, err)
	}
	h.Path = path
	key := ""
	if opt.Cache != nil && h.Width*h.Height >= leastToCache {
		key, _ = opt.Cache.key(path, opt.Page) // without a key nothing is kept
	}
	if key != "" {
		if coarse := opt.Cache.load(key, coarseExt, h.Width, h.Height); coarse != nil {
			return openCoarse(h.Info, coarse, key, opt), nil
		}
	}
	base, err := h.decode(ctx, f.blob, opt)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return nil, refuse(path, err)
	}
	p := newPicture(h.Info, pyramid(base, buffers.get))
	p.fine.Do(func() { close(p.sharp) })
	if key != "" {
		l := p.hold()
		opt.Cache.store(key, l.at, true, func() { p.release(l) })
	}
	return p, nil
}

// admit refuses pictures too large to open, before memory is asked for.
func (h *header) admit(maxPixels int64) error {
	if maxPixels <= 0 {
		maxPixels = DefaultMaxPixels
	}
	if n := int64(h.rawW) * int64(h.rawH); n > maxPixels {
		return &Refusal{What: phrase.Of("the picture has %d × %d pixels, %.0f million; the limit is %.0f million",
			h.rawW, h.rawH, float64(n)/1e6, float64(maxPixels)/1e6), Remedy: raiseLimit}
	}
	return nil
}
