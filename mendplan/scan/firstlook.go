package scan

import (
	"context"
	"image"
	"image/jpeg"
	"io"
)

// maxThumb bounds the bytes and the side of a thumbnail inside a file.
const maxThumb, maxThumbSide = 1 << 20, 2048

// FirstLook returns a small picture of the scan at once, upright, without
// decoding the scan itself: from the cache, from the thumbnail in the file's
// Exif data, or from the smaller copy a TIFF may carry. ok is false when there
// is none; that is no error. It is meant to be shown, stretched to the scan's
// bounds, until [Open] is done.
func FirstLook(path string, opt OpenOptions) (look *image.RGBA, ok bool) {
	f, err := openFile(path)
	if err != nil {
		return nil, false
	}
	defer f.Close()
	h, err := readHeader(f.blob, opt.Page)
	if err != nil || h.admit(opt.MaxPixels) != nil {
		return nil, false
	}
	if opt.Cache != nil {
		if key, err := opt.Cache.key(path, opt.Page); err == nil {
			if levels := opt.Cache.load(key, coarseExt, h.Width, h.Height); levels != nil {
				return toRGBA(levels[len(levels)-1]), true
			}
		}
	}
	var r *raster
	_ = safely(func() error {
		if r = h.exifThumb(); r == nil {
			r = h.smallCopy()
		}
		return nil
	})
	if r == nil {
		return nil, false
	}
	return toRGBA(h.cutBars(r).turn(h.Orientation)), true
}

// exifThumb decodes the thumbnail of the Exif data; nil when there is none.
func (h *header) exifThumb() *raster {
	if h.thumb.size == 0 || h.thumb.size > maxThumb {
		return nil
	}
	read := func() io.Reader { return io.NewSectionReader(h.thumb.r, 0, h.thumb.size) }
	c, err := jpeg.DecodeConfig(read())
	if err != nil || c.Width > maxThumbSide || c.Height > maxThumbSide || c.Width < 8 || c.Height < 8 {
		return nil
	}
	m, err := jpeg.Decode(read())
	if err != nil {
		return nil
	}
	return flatten(m)
}

// smallCopy decodes the reduced picture that may follow a TIFF's page.
func (h *header) smallCopy() *raster {
	if h.tiff == nil {
		return nil
	}
	for i := h.tiff.pages[h.Page] + 1; i < len(h.tiff.dirs); i++ {
		d := h.tiff.dirs[i]
		if h.tiff.number(d, tagSubfile, 0)&1 == 0 {
			return nil // the next page
		}
		w, ht := h.tiff.number(d, tagWidth, 0), h.tiff.number(d, tagHeight, 0)
		if w < 8 || ht < 8 || w > maxThumbSide || ht > maxThumbSide || !sameShape(w, ht, h.rawW, h.rawH) {
			continue
		}
		if r, err := h.decodeTIFF(context.Background(), d, nil); err == nil {
			return r
		}
	}
	return nil
}

// cutBars cuts a thumbnail to the picture's proportions: cameras put bars
// beside or above to make it 4 : 3.
func (h *header) cutBars(r *raster) *raster {
	if r.rgba == nil || sameShape(r.w, r.h, h.rawW, h.rawH) {
		return r
	}
	w, ht := r.w, r.h
	if r.w*h.rawH > r.h*h.rawW {
		w = max(1, (r.h*h.rawW+h.rawH/2)/h.rawH)
	} else {
		ht = max(1, (r.w*h.rawH+h.rawW/2)/h.rawW)
	}
	cut := newRGBA(w, ht, make([]byte, 4*w*ht))
	for y := range ht {
		r.row(cut.rgba[4*w*y:], (r.w-w)/2, (r.h-ht)/2+y, w)
	}
	return cut
}

// toRGBA copies a level into an image.
func toRGBA(r *raster) *image.RGBA {
	m := image.NewRGBA(image.Rect(0, 0, r.w, r.h))
	for y := range r.h {
		r.row(m.Pix[y*m.Stride:], 0, y, r.w)
	}
	return m
}
