package scan

import (
	"context"
	"errors"
	"io"
	"runtime"
	"sync"
	"sync/atomic"

	"leafmend/mendplan/phrase"
)

// decodeTIFF reads the pixels of a directory as stored, not yet turned. Strips
// and tiles are shared out to as many goroutines as there are processors.
func (h *header) decodeTIFF(ctx context.Context, d tiffDir, progress func(float64)) (*raster, error) {
	l, err := h.tiff.layout(d)
	if err != nil {
		return nil, err
	}
	if err := l.enough(h.tiff.size); err != nil {
		return nil, err
	}
	r := &tiffReader{t: h.tiff, l: l, out: l.target()}
	if err := r.run(ctx, progress); err != nil {
		return nil, err
	}
	return r.out, nil
}

// enough refuses a file that cannot hold what its directory claims: no coding
// read here packs more than so many bytes into one. An uncompressed file that
// lacks only some rows is let through, so that the error can name the row.
func (l *tiffLayout) enough(size int64) error {
	bits := float64(l.w) * float64(l.h) * float64(l.samples) * float64(l.bits)
	most := map[int]float64{1: 8, 2: 1, 5: 1400, 7: 1 << 12, 8: 1040, 32773: 64}[l.compression]
	switch l.compression {
	case 2, 3:
		most = 2560 / 6 // the longest run takes a make-up code of 12 bits
	case 4:
		most = float64(l.w) // an empty row takes one bit
	}
	if bits/8/most > float64(size)+64 {
		return damaged("the file is far too short for %d × %d pixels", l.w, l.h)
	}
	return nil
}

// target makes the raster the colours end up in: grey or RGBA.
func (l *tiffLayout) target() *raster {
	if l.photometric <= 1 {
		return &raster{w: l.w, h: l.h, y: make([]byte, l.w*l.h), yStride: l.w}
	}
	return newRGBA(l.w, l.h, make([]byte, 4*l.w*l.h))
}

type tiffReader struct {
	t    *tiffFile
	l    *tiffLayout
	out  *raster
	next atomic.Int64
	rows atomic.Int64 // rows of chunks finished, for progress
	once sync.Once
	err  error
	stop atomic.Bool
}

// run reads all chunks and returns the first error.
func (r *tiffReader) run(ctx context.Context, progress func(float64)) error {
	workers := min(runtime.GOMAXPROCS(0), r.l.across*r.l.down)
	var wait sync.WaitGroup
	for range workers - 1 {
		wait.Add(1)
		go func() {
			defer wait.Done()
			r.work(ctx, nil)
		}()
	}
	r.work(ctx, progress) // progress is told from the caller's goroutine
	wait.Wait()
	return r.err
}

// work reads chunks until there are no more.
func (r *tiffReader) work(ctx context.Context, progress func(float64)) {
	n := int64(r.l.across * r.l.down)
	for !r.stop.Load() {
		i := r.next.Add(1) - 1
		if i >= n {
			return
		}
		err := safely(func() error { return r.chunk(ctx, int(i), progress) })
		if err != nil {
			r.once.Do(func() { r.err = err })
			r.stop.Store(true)
		}
	}
}

// chunk reads one strip or tile into its place.
func (r *tiffReader) chunk(ctx context.Context, i int, progress func(float64)) error {
	l := r.l
	x0, y0 := i%l.across*l.chunkW, i/l.across*l.chunkH
	w, h := min(l.chunkW, l.w-x0), min(l.chunkH, l.h-y0)
	src, err := r.rowsOf(i)
	if err != nil {
		return place(err, y0)
	}
	paint := l.painter()
	for y := y0; y < y0+h; y++ {
		row, err := src.next()
		if err != nil {
			return place(err, y)
		}
		if r.out.rgba != nil {
			paint(r.out.rgba[4*(y*l.w+x0):][:4*w], row, w)
		} else {
			paint(r.out.y[y*l.w+x0:][:w], row, w)
		}
		if done := r.rows.Add(1); y&31 == 0 {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			if progress != nil {
				progress(float64(done) / float64(l.h*l.across))
			}
		}
	}
	return nil
}

// rowsOf returns the rows of chunk i, planes joined.
func (r *tiffReader) rowsOf(i int) (rowSource, error) {
	l := r.l
	if !l.planar || l.samples == 1 {
		src, err := l.source(r.t, i, l.samples)
		if packed, ok := src.(*packedRows); ok && l.photometric == 6 && l.subX*l.subY > 1 {
			return newSubsampledRows(packed.r, l), nil
		}
		return src, err
	}
	p := &planeRows{l: l, row: make([]byte, (l.chunkW*l.samples*l.bits+7)/8)}
	for k := range l.samples {
		src, err := l.source(r.t, k*l.across*l.down+i, 1)
		if err != nil {
			return nil, err
		}
		p.planes = append(p.planes, src)
	}
	return p, nil
}

// place says where in the picture data ran out or went wrong.
func place(err error, y int) error {
	var r *Refusal
	switch {
	case errors.As(err, &r), errors.Is(err, context.Canceled), errors.Is(err, context.DeadlineExceeded):
		return err
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		return damaged("the file ends too early: pixels are missing from row %d on", y+1)
	}
	return &Refusal{What: phrase.Of("the data is damaged at row %d", y+1), Remedy: copyAgain, Detail: err.Error(), Err: err}
}
