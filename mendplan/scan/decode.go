package scan

import (
	"context"
	"image"
	"image/jpeg"
	"image/png"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// decode returns the pixels, upright.
func (h *header) decode(ctx context.Context, b blob, opt OpenOptions) (*raster, error) {
	if err := h.admit(opt.MaxPixels); err != nil {
		return nil, err
	}
	m, err := h.decodeImage(ctx, b, opt.Progress)
	if err != nil {
		return nil, err
	}
	if s := m.Bounds().Size(); s.X != h.rawW || s.Y != h.rawH {
		return nil, damaged("the header gives %d × %d pixels, the data %d × %d", h.rawW, h.rawH, s.X, s.Y)
	}
	return fromImage(m).turn(h.Orientation), nil
}

func (h *header) decodeImage(ctx context.Context, b blob, progress func(float64)) (image.Image, error) {
	s := b.stream(ctx, progress)
	switch h.Format {
	case "JPEG":
		return jpeg.Decode(s)
	case "PNG":
		return png.Decode(s)
	case "BMP":
		return bmp.Decode(s)
	case "WebP":
		return webp.Decode(s)
	}
	return tiff.Decode(s)
}
