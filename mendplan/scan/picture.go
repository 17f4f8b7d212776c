package scan

import (
	"image"
	"image/color"
	"sync"
	"sync/atomic"
)

// Picture is an open scan: its pixels at full size and, by halves, down to a
// thumbnail. It is safe for use by several goroutines at once and never
// changes, except that finer levels may arrive after [Open] returned; see
// [Picture.Sharp].
type Picture struct {
	info Info

	mu     sync.Mutex
	levels *levels // nil when closed
	err    error   // why the finer levels did not come

	sharp  chan struct{}
	fine   sync.Once // the finer levels are asked for once
	load   func()    // brings the finer levels, then closes sharp
	cancel func()    // gives that up
}

// levels are the rasters of a picture, shared by those who use them; the last
// to let go gives the memory back.
type levels struct {
	at     []*raster // by level; nil where not there yet
	from   int       // levels from here on belong to coarse
	coarse *levels   // whose levels these are a completion of, or nil
	users  atomic.Int32
}

// Level is the size of one level of a picture.
type Level struct {
	Width, Height int // pixels
	Per           int // scan pixels to one of its pixels, in either direction
}

func newPicture(info Info, at []*raster) *Picture {
	p := &Picture{info: info, levels: &levels{at: at, from: len(at)}, sharp: make(chan struct{}), cancel: func() {}}
	p.levels.users.Store(1)
	return p
}

// Info returns what the file said of itself.
func (p *Picture) Info() Info { return p.info }

// Bounds returns the picture's rectangle in scan pixels, from 0,0.
func (p *Picture) Bounds() image.Rectangle { return image.Rect(0, 0, p.info.Width, p.info.Height) }

// NumLevels returns the number of levels; the last is no longer than 256
// pixels.
func (p *Picture) NumLevels() int { return levelCount(p.info.Width, p.info.Height) }

// Level returns the size of level i: 0 is the full picture, each next half.
// i is held to the levels there are.
func (p *Picture) Level(i int) Level {
	i = max(0, min(p.NumLevels()-1, i))
	up := func(n int) int { return (n + 1<<i - 1) >> i }
	return Level{up(p.info.Width), up(p.info.Height), 1 << i}
}

// Sharp is closed when all levels are there, or will not come because the
// file can no longer be read ([Picture.Err] tells) or the picture was closed.
// Until then Paint shows the finest level there is. A lazy picture stays
// coarse until Paint, Region or Grey want more.
func (p *Picture) Sharp() <-chan struct{} { return p.sharp }

// Err returns why the finer levels are missing, nil when they are not.
func (p *Picture) Err() error {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.err
}

// Bytes returns the memory the pixels take at present.
func (p *Picture) Bytes() int64 {
	l := p.hold()
	defer p.release(l)
	return l.bytes()
}

func (l *levels) bytes() (n int64) {
	if l == nil {
		return 0
	}
	for _, r := range l.at {
		if r != nil {
			n += r.bytes()
		}
	}
	return n
}

// Close gives the picture's memory back. Painting a closed picture is allowed
// and shows nothing. Close may be called twice.
func (p *Picture) Close() {
	p.cancel()
	p.fine.Do(func() { close(p.sharp) }) // nobody asked for more
	p.mu.Lock()
	l := p.levels
	p.levels = nil
	p.mu.Unlock()
	p.release(l)
}

// hold returns the levels for a while; nil when the picture is closed.
func (p *Picture) hold() *levels {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.levels != nil {
		p.levels.users.Add(1)
	}
	return p.levels
}

func (p *Picture) release(l *levels) { l.release() }

func (l *levels) release() {
	for l != nil && l.users.Add(-1) == 0 {
		l.free()
		l = l.coarse
	}
}

// Region returns a copy of part of a level. r is in that level's pixels and
// is cut to it; so is the result's rectangle. Region waits for the level to
// arrive; when it will not, the next coarser is enlarged in its place and
// [Picture.Err] tells why.
func (p *Picture) Region(r image.Rectangle, level int) *image.RGBA {
	level = max(0, min(p.NumLevels()-1, level))
	size := p.Level(level)
	r = r.Intersect(image.Rect(0, 0, size.Width, size.Height))
	dst := image.NewRGBA(r)
	if r.Empty() {
		return dst
	}
	p.await(level)
	l := p.hold()
	defer p.release(l)
	if l == nil || l.at[level] == nil {
		per := float64(size.Per)
		p.Paint(dst, View{Scale: 1 / per, X: float64(r.Min.X) * per, Y: float64(r.Min.Y) * per}, Best)
		return dst
	}
	bands(r.Dy(), func(y0, y1 int) {
		for y := r.Min.Y + y0; y < r.Min.Y+y1; y++ {
			l.at[level].row(dst.Pix[dst.PixOffset(r.Min.X, y):], r.Min.X, y, r.Dx())
		}
	})
	return dst
}

// AnalysisSide is the longer side, in pixels, that [FindOutline] and
// [ProposeLosses] want of a picture; finer ones cost time and tell little
// more.
const AnalysisSide = 2400

// AtLeast returns the coarsest level whose longer side is no less than side,
// the full picture when all are, and how many scan pixels one of its pixels
// covers. Like Region it waits for the level.
func (p *Picture) AtLeast(side int) (*image.RGBA, float64) {
	level := 0
	for level+1 < p.NumLevels() {
		if next := p.Level(level + 1); max(next.Width, next.Height) < side {
			break
		}
		level++
	}
	size := p.Level(level)
	return p.Region(image.Rect(0, 0, size.Width, size.Height), level), float64(size.Per)
}

// await waits until a level is there or will not come.
func (p *Picture) await(level int) {
	l := p.hold()
	there := l == nil || l.at[level] != nil
	p.release(l)
	if !there {
		p.wantFine()
		<-p.sharp
	}
}

// wantFine has the finer levels brought, once.
func (p *Picture) wantFine() {
	p.fine.Do(func() { go p.load() })
}

// Grey returns a level as luma (ITU-R BT.601 weights, as in JPEG), for
// analysis. The image may share the picture's memory: do not write to it. It
// stays valid after Close. Like Region it waits for the level.
func (p *Picture) Grey(level int) *image.Gray {
	level = max(0, min(p.NumLevels()-1, level))
	p.await(level)
	l := p.hold()
	defer p.release(l)
	if l != nil && l.at[level] != nil && l.at[level].y != nil && level == 0 {
		r := l.at[0]
		return &image.Gray{Pix: r.y, Stride: r.yStride, Rect: image.Rect(0, 0, r.w, r.h)}
	}
	size := p.Level(level)
	dst := image.NewGray(image.Rect(0, 0, size.Width, size.Height))
	if l == nil {
		return dst
	}
	bands(size.Height, func(y0, y1 int) {
		part := p.Region(image.Rect(0, y0, size.Width, y1), level)
		for y := y0; y < y1; y++ {
			lumaRow(dst.Pix[y*dst.Stride:][:size.Width], part.Pix[part.PixOffset(0, y):])
		}
	})
	return dst
}

func lumaRow(dst, src []byte) {
	for i := range dst {
		p := src[4*i : 4*i+4 : 4*i+4]
		dst[i] = byte((19595*uint32(p[0]) + 38470*uint32(p[1]) + 7471*uint32(p[2]) + 1<<15) >> 16)
	}
}

// Pixel returns the colour of one scan pixel at the finest level there is;
// outside the picture it is transparent.
func (p *Picture) Pixel(x, y int) color.RGBA {
	l := p.hold()
	defer p.release(l)
	if l == nil || !(image.Point{X: x, Y: y}).In(p.Bounds()) {
		return color.RGBA{}
	}
	n, _ := l.pick(1, Best)
	if l.at[n] == nil {
		return color.RGBA{}
	}
	r, g, b := l.at[n].at(x>>n, y>>n)
	return color.RGBA{r, g, b, 255}
}

// Thumbnail returns the picture with its longer side at most side pixels.
func (p *Picture) Thumbnail(side int) *image.RGBA {
	w, h := p.info.Width, p.info.Height
	if longer := max(w, h); longer > side && longer > 0 {
		w, h = max(1, (w*side+longer/2)/longer), max(1, (h*side+longer/2)/longer)
	}
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	p.Paint(dst, View{Scale: float64(w) / float64(p.info.Width)}, Best)
	return dst
}
