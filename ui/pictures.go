package ui

import (
	"context"
	"image"

	"fyne.io/fyne/v2"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/scan"
	"leafmend/ui/leafview"
)

const thumbSide = 128 // pixels, of thumbnails

// pictures opens scans aside and keeps some open on a shelf. Methods are
// called on the toolkit's goroutine, and answers come back there.
type pictures struct {
	work   worker
	shelf  *scan.Shelf
	cache  *scan.Cache // nil keeps nothing on the disk
	stop   context.CancelFunc
	thumbs map[string]image.Image // nil for a file that has none to show
	queue  []thumbWish
	busy   bool
}

type thumbWish struct {
	key  string
	page int
	path string
	then func()
}

// newPictures keeps levels of pictures on the disk for the next opening,
// except in tests.
func newPictures(w worker) *pictures {
	p := &pictures{work: w, shelf: scan.NewShelf(scan.DefaultShelfBytes), thumbs: map[string]image.Image{}}
	if !w.inPlace {
		p.cache, _ = scan.UserCache() // without a folder for it there is none
	}
	return p
}

// another returns pictures that share what is open but load on their own.
func (p *pictures) another() *pictures {
	return &pictures{work: p.work, shelf: p.shelf, cache: p.cache, thumbs: map[string]image.Image{}}
}

func pictureKey(path string, page int) string { return path + "#" + string(rune('0'+page)) }

// get returns a picture that is open already.
func (p *pictures) get(path string, page int) (*scan.Picture, bool) {
	pic := p.shelf.Peek(path, page)
	return pic, pic != nil
}

// load opens a picture aside. A load that is still running is given up, and
// never answers. Progress is told from 0 to 1. When finer levels arrive after
// the answer, sharper is called.
func (p *pictures) load(path string, page int, progress func(float64), then func(*scan.Picture, error), sharper func()) {
	p.cancel()
	ctx, stop := context.WithCancel(context.Background())
	p.stop = stop
	var pic *scan.Picture
	p.work.start(func() (err error) {
		pic, err = p.shelf.Open(ctx, path, scan.OpenOptions{Page: page, Cache: p.cache, Progress: func(done float64) {
			p.work.report(func() {
				if ctx.Err() == nil && progress != nil {
					progress(done)
				}
			})
		}})
		return err
	}, func(err error) {
		if ctx.Err() != nil {
			return
		}
		then(pic, err)
		if err == nil {
			p.awaitSharp(pic, sharper)
		}
	})
}

// awaitSharp calls then once all levels of a picture are there.
func (p *pictures) awaitSharp(pic *scan.Picture, then func()) {
	select {
	case <-pic.Sharp():
	default:
		p.work.start(func() error { <-pic.Sharp(); return nil }, func(error) { then() })
	}
}

// cancel gives up the load that is running.
func (p *pictures) cancel() {
	if p.stop != nil {
		p.stop()
		p.stop = nil
	}
}

// thumbnail returns the small picture of a scan, or nil and asks for it; then
// is called when it has come.
func (p *pictures) thumbnail(path string, page int, then func()) image.Image {
	key := pictureKey(path, page)
	if img, ok := p.thumbs[key]; ok {
		return img
	}
	for _, w := range p.queue {
		if w.key == key {
			return nil
		}
	}
	p.queue = append(p.queue, thumbWish{key, page, path, then})
	p.nextThumb()
	return nil
}

// nextThumb makes one thumbnail at a time, so that the leaf in hand does not
// wait for them.
func (p *pictures) nextThumb() {
	if p.busy || len(p.queue) == 0 {
		return
	}
	p.busy = true
	wish := p.queue[0]
	var img image.Image
	p.work.start(func() (err error) {
		img, err = p.makeThumb(wish)
		return err
	}, func(error) {
		p.busy = false
		p.queue = p.queue[1:]
		p.thumbs[wish.key] = img
		wish.then()
		p.nextThumb()
	})
}

// makeThumb takes the quickest way to a small picture: an open one, what the
// cache or the file holds, and only then the scan itself.
func (p *pictures) makeThumb(wish thumbWish) (image.Image, error) {
	opt := scan.OpenOptions{Page: wish.page, Cache: p.cache, Lazy: true}
	if pic := p.shelf.Peek(wish.path, wish.page); pic != nil {
		return pic.Thumbnail(thumbSide), nil
	}
	if look, ok := scan.FirstLook(wish.path, opt); ok {
		return look, nil
	}
	pic, err := scan.Open(context.Background(), wish.path, opt)
	if err != nil {
		return nil, err
	}
	defer pic.Close()
	return pic.Thumbnail(thumbSide), nil
}

// painter shows a scan on the tracing surface.
type painter struct{ pic *scan.Picture }

var _ leafview.Painter = painter{}

// Size implements [leafview.Painter].
func (p painter) Size() (w, h int) {
	b := p.pic.Bounds()
	return b.Dx(), b.Dy()
}

// Paint implements [leafview.Painter].
func (p painter) Paint(dst *image.RGBA, view leafview.View, best bool) {
	w, h := p.Size()
	a := view.ToDevice(geom.Pt{})
	z := view.ToDevice(geom.Pt{X: float64(w), Y: float64(h)})
	r := image.Rect(clampInt(a.X), clampInt(a.Y), clampInt(z.X), clampInt(z.Y)).Intersect(dst.Rect)
	if r.Empty() || view.Scale <= 0 {
		return
	}
	part := dst.SubImage(r).(*image.RGBA)
	q := scan.Moving
	if best {
		q = scan.Best
	}
	p.pic.Paint(part, scan.View{Scale: view.Scale,
		X: (float64(r.Min.X) - view.Offset.X) / view.Scale, Y: (float64(r.Min.Y) - view.Offset.Y) / view.Scale}, q)
}

// awaited keeps the place of a scan that is being read: plain paper until it
// has come.
type awaited struct {
	blank leafview.Painter
	pic   *scan.Picture
}

// fits reports whether the picture has the size that was kept for it.
func (a *awaited) fits(pic *scan.Picture) bool {
	w, h := a.blank.Size()
	return pic.Bounds().Dx() == w && pic.Bounds().Dy() == h
}

// Size implements [leafview.Painter].
func (a *awaited) Size() (w, h int) { return a.blank.Size() }

// Paint implements [leafview.Painter].
func (a *awaited) Paint(dst *image.RGBA, view leafview.View, best bool) {
	if a.pic == nil {
		a.blank.Paint(dst, view, best)
		return
	}
	painter{a.pic}.Paint(dst, view, best)
}

// clampInt rounds a device position to a number of pixels that fits.
func clampInt(v float64) int { return int(min(max(v, -1e7), 1e7) + 0.5) }

// thumbImage makes a fitting picture object for a thumbnail.
func thumbImage(size fyne.Size) *thumb {
	th := &thumb{min: size}
	th.ExtendBaseWidget(th)
	return th
}
