package scan

import (
	"image"
	"image/color"
)

// raster is the pixels of one level as they are kept: opaque RGBA, grey, or
// the luma and chroma of a JPEG, which take a third of the room. It is never
// written to once a picture is open.
type raster struct {
	w, h int

	rgba []byte // 4 bytes a pixel, rows of 4·w bytes; nil for the other kinds

	y, cb, cr      []byte // y alone is grey
	yStride, cSpan int    // bytes a row of y and of cb, cr
	sx, sy         uint   // chroma is halved that often across and down
	px, py         int    // where pixel 0,0 stands in its chroma cell
}

// newRGBA returns a raster of opaque pixels over pix.
func newRGBA(w, h int, pix []byte) *raster { return &raster{w: w, h: h, rgba: pix[:4*w*h]} }

// bytes is the memory the raster holds.
func (r *raster) bytes() int64 { return int64(len(r.rgba) + len(r.y) + len(r.cb) + len(r.cr)) }

// fromImage takes over a decoded image without copying where its layout
// serves, and turns everything else into opaque RGBA on white.
func fromImage(m image.Image) *raster {
	b := m.Bounds()
	w, h := b.Dx(), b.Dy()
	switch m := m.(type) {
	case *image.YCbCr:
		if s, ok := subsampling[m.SubsampleRatio]; ok && b.Min == (image.Point{}) {
			return &raster{w: w, h: h, y: m.Y, cb: m.Cb, cr: m.Cr, yStride: m.YStride, cSpan: m.CStride, sx: s[0], sy: s[1]}
		}
	case *image.Gray:
		return &raster{w: w, h: h, y: m.Pix, yStride: m.Stride}
	case *image.RGBA:
		if m.Stride == 4*w && m.Opaque() {
			return newRGBA(w, h, m.Pix)
		}
	case *image.Gray16:
		return fromGray16(m)
	}
	return flatten(m)
}

var subsampling = map[image.YCbCrSubsampleRatio][2]uint{
	image.YCbCrSubsampleRatio444: {0, 0}, image.YCbCrSubsampleRatio422: {1, 0}, image.YCbCrSubsampleRatio420: {1, 1},
	image.YCbCrSubsampleRatio440: {0, 1}, image.YCbCrSubsampleRatio411: {2, 0}, image.YCbCrSubsampleRatio410: {2, 1},
}

// fromGray16 keeps the upper byte, rounded.
func fromGray16(m *image.Gray16) *raster {
	w, h := m.Rect.Dx(), m.Rect.Dy()
	r := &raster{w: w, h: h, y: make([]byte, w*h), yStride: w}
	bands(h, func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			src, dst := m.Pix[y*m.Stride:], r.y[y*w:(y+1)*w]
			for x := range dst {
				dst[x] = down16(uint32(src[2*x])<<8 | uint32(src[2*x+1]))
			}
		}
	})
	return r
}

// down16 brings a 16-bit sample to 8 bits, rounded.
func down16(v uint32) byte { return byte((v*255 + 32768) / 65535) }

// flatten draws any image on white paper as 8-bit RGBA.
func flatten(m image.Image) *raster {
	b := m.Bounds()
	w, h := b.Dx(), b.Dy()
	pix := make([]byte, 4*w*h)
	row := rowReader(m)
	bands(h, func(y0, y1 int) {
		for y := y0; y < y1; y++ {
			row(pix[4*w*y:4*w*(y+1)], b.Min.X, b.Min.Y+y)
		}
	})
	return newRGBA(w, h, pix)
}

// rowReader returns a function that writes one row of m as opaque RGBA.
func rowReader(m image.Image) func(dst []byte, x, y int) {
	switch m := m.(type) {
	case *image.Paletted:
		return palettedRow(m)
	case *image.NRGBA:
		return func(dst []byte, x, y int) {
			src := m.Pix[m.PixOffset(x, y):]
			for i := 0; i < len(dst); i += 4 {
				onWhite(dst[i:i+4], uint32(src[i]), uint32(src[i+1]), uint32(src[i+2]), uint32(src[i+3]))
			}
		}
	case *image.RGBA64:
		return func(dst []byte, x, y int) {
			src := m.Pix[m.PixOffset(x, y):]
			for i := 0; i < len(dst); i += 4 {
				at := func(k int) uint32 { return uint32(src[2*i+k])<<8 | uint32(src[2*i+k+1]) }
				under := 65535 - at(6)
				dst[i], dst[i+1], dst[i+2], dst[i+3] = down16(at(0)+under), down16(at(2)+under), down16(at(4)+under), 255
			}
		}
	case *image.CMYK:
		return func(dst []byte, x, y int) {
			src := m.Pix[m.PixOffset(x, y):]
			for i := 0; i < len(dst); i += 4 {
				dst[i], dst[i+1], dst[i+2] = color.CMYKToRGB(src[i], src[i+1], src[i+2], src[i+3])
				dst[i+3] = 255
			}
		}
	}
	return anyRow(m)
}

// anyRow serves the rare kinds through the image interface.
func anyRow(m image.Image) func(dst []byte, x, y int) {
	return func(dst []byte, x, y int) {
		for i := 0; i < len(dst); i += 4 {
			r, g, b, a := m.At(x+i/4, y).RGBA()
			under := 65535 - a
			dst[i], dst[i+1], dst[i+2], dst[i+3] = down16(r+under), down16(g+under), down16(b+under), 255
		}
	}
}

// palettedRow looks colours up in a table of all 256, so that an index past
// the end of a damaged palette is black and no panic.
func palettedRow(m *image.Paletted) func(dst []byte, x, y int) {
	var table [256][4]byte
	for i := range table {
		table[i] = [4]byte{0, 0, 0, 255}
		if i < len(m.Palette) && m.Palette[i] != nil {
			r, g, b, a := m.Palette[i].RGBA()
			under := 65535 - a
			table[i] = [4]byte{down16(r + under), down16(g + under), down16(b + under), 255}
		}
	}
	return func(dst []byte, x, y int) {
		src := m.Pix[m.PixOffset(x, y):]
		for i := 0; i < len(dst); i += 4 {
			copy(dst[i:i+4], table[src[i/4]][:])
		}
	}
}

// onWhite lays a colour with alpha on white paper.
func onWhite(dst []byte, r, g, b, a uint32) {
	under := 255 * (255 - a)
	dst[0], dst[1], dst[2], dst[3] = byte((r*a+under+127)/255), byte((g*a+under+127)/255), byte((b*a+under+127)/255), 255
}
