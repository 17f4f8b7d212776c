package scan

import (
	"context"
	"image"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/bmp"
	"golang.org/x/image/webp"
)

// decode returns the pixels, upright.
func (h *header) decode(ctx context.Context, b blob, opt OpenOptions) (r *raster, err error) {
	if err := h.admit(opt.MaxPixels); err != nil {
		return nil, err
	}
	if err := h.enough(b); err != nil {
		return nil, err
	}
	err = safely(func() error {
		r, err = h.stored(ctx, b, opt.Progress)
		if err == nil && h.convert != nil {
			r = h.convert.apply(r)
		}
		return err
	})
	if err != nil {
		return nil, err
	}
	if r.w != h.rawW || r.h != h.rawH {
		return nil, damaged("the header gives %d × %d pixels, the data %d × %d", h.rawW, h.rawH, r.w, r.h)
	}
	return r.turn(h.Orientation), nil
}

// stored decodes the pixels as they are stored.
func (h *header) stored(ctx context.Context, b blob, progress func(float64)) (*raster, error) {
	if h.tiff != nil {
		return h.decodeTIFF(ctx, h.tiff.dirs[h.tiff.pages[h.Page]], progress)
	}
	s := b.stream(ctx, progress)
	var m image.Image
	var err error
	switch h.Format {
	case "JPEG":
		m, err = h.decodeJPEG(s)
	case "PNG":
		m, err = png.Decode(s)
	case "BMP":
		m, err = bmp.Decode(s)
	default:
		m, err = webp.Decode(s)
	}
	if err != nil && s.ended { // whatever words the decoder has for it
		return nil, io.ErrUnexpectedEOF
	}
	if err != nil {
		return nil, err
	}
	return fromImage(m), nil
}

// decodeJPEG decodes with the standard library. A file of four inks without
// an Adobe segment is given one, and its values are turned back, because only
// Adobe's stand inverted.
func (h *header) decodeJPEG(s io.Reader) (image.Image, error) {
	if h.jpeg.components != 4 || h.jpeg.adobe >= 0 {
		return jpeg.Decode(s)
	}
	if _, err := io.ReadFull(s, make([]byte, 2)); err != nil { // its own start marker
		return nil, err
	}
	m, err := jpeg.Decode(withMarkers(s, plainAdobe))
	if c, ok := m.(*image.CMYK); ok && err == nil {
		for i, v := range c.Pix {
			c.Pix[i] = 255 - v
		}
	}
	return m, err
}
