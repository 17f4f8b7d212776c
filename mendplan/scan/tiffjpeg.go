package scan

import (
	"bytes"
	"image"
	"image/jpeg"
	"io"
)

// JPEG in TIFF (TIFF Technical Note 2): each strip or tile is a JPEG stream
// whose tables may stand once for all in tag 347. The colour meaning is the
// TIFF's, so the stream's own hints are replaced: an Adobe segment tells the
// standard decoder to leave the components alone.

// plainAdobe is an Adobe segment with transform 0: components as they are.
var plainAdobe = []byte{0xff, 0xee, 0, 14, 'A', 'd', 'o', 'b', 'e', 0, 100, 0, 0, 0, 0, 0}

// jpegSource decodes one chunk. samples is the number a pixel of the plane has.
func (l *tiffLayout) jpegSource(b blob, samples int) (rowSource, error) {
	// A JPEG is seldom larger than its pixels; tiles that claim the whole file
	// each would have it read as often.
	p, err := b.read(0, min(b.size, int64(4*l.chunkW*l.chunkH*samples)+1<<16))
	if err != nil {
		return nil, err
	}
	if len(p) < 4 || p[0] != 0xff || p[1] != 0xd8 {
		return nil, damaged("a strip or tile of the TIFF is not the JPEG it should be")
	}
	var tables []byte
	if n := len(l.tables); n >= 4 && l.tables[0] == 0xff && l.tables[1] == 0xd8 {
		tables = l.tables[2:]
		if bytes.HasSuffix(tables, []byte{0xff, 0xd9}) {
			tables = tables[:len(tables)-2]
		}
	}
	head := &header{}
	if _, err := readJPEGHeader(head, blob{bytes.NewReader(p), int64(len(p))}); err != nil {
		return nil, err
	}
	if head.jpeg.components != samples {
		return nil, damaged("a strip or tile has %d colours where the TIFF says %d", head.jpeg.components, samples)
	}
	if head.rawW > l.chunkW+16 || head.rawH > l.chunkH+16 || head.rawW < l.chunkW {
		return nil, damaged("a strip or tile of %d × %d pixels holds a JPEG of %d × %d", l.chunkW, l.chunkH, head.rawW, head.rawH)
	}
	m, err := jpeg.Decode(l.marked(p[2:], tables, samples))
	if err != nil {
		return nil, err
	}
	return l.jpegRows(m, samples), nil
}

// marked puts tables, and the Adobe segment where one is needed, before the
// stream's own segments. An Adobe segment the stream brings itself comes later
// and would win, so its transform is overwritten.
func (l *tiffLayout) marked(p, tables []byte, samples int) io.Reader {
	if samples == 1 || l.photometric == 6 && samples == 3 {
		return withMarkers(bytes.NewReader(p), tables)
	}
	p = bytes.Clone(p)
	if i := bytes.Index(p, []byte("Adobe")); i >= 4 && i < 64 && i+12 <= len(p) && p[i-3] == 0xee {
		p[i+11] = 0
	}
	return withMarkers(bytes.NewReader(dropJFIF(p)), plainAdobe, tables)
}

// dropJFIF takes off a JFIF segment at the start, which would make RGB pass
// for YCbCr.
func dropJFIF(p []byte) []byte {
	if len(p) > 4 && p[0] == 0xff && p[1] == 0xe0 {
		if n := 2 + int(be.Uint16(p[2:])); n <= len(p) {
			return p[n:]
		}
	}
	return p
}

// jpegRows hands a decoded chunk over as rows of interleaved samples in the
// TIFF's own colours.
func (l *tiffLayout) jpegRows(m image.Image, samples int) rowSource {
	w, h := l.chunkW, m.Bounds().Dy()
	pix := make([]byte, 0, w*h*samples)
	switch m := m.(type) {
	case *image.Gray:
		for y := range h {
			pix = append(pix, m.Pix[y*m.Stride:][:w]...)
		}
	case *image.YCbCr:
		for y := range h {
			for x := range w {
				c := m.COffset(x, y)
				pix = append(pix, m.Y[m.YOffset(x, y)], m.Cb[c], m.Cr[c])
			}
		}
	case *image.RGBA:
		for y := range h {
			for x := range w {
				pix = append(pix, m.Pix[y*m.Stride+4*x:][:3]...)
			}
		}
	case *image.CMYK: // the decoder has turned the values round, as Adobe does
		for y := range h {
			for x := range w {
				for _, v := range m.Pix[y*m.Stride+4*x:][:4] {
					pix = append(pix, 255-v)
				}
			}
		}
	}
	return &imageRows{pix, w * samples}
}
