package scan

import (
	"bytes"
	"compress/zlib"
	"io"
	"strconv"
	"strings"
)

// readPNGHeader walks the chunks up to the pixels (W3C PNG, Third Edition).
// Checksums are left to the decoder.
func readPNGHeader(h *header, b blob) ([]claim, error) {
	w := &pngWalk{h: h}
	if err := w.walk(b); err != nil {
		return nil, err
	}
	if w.exif != nil {
		if c, ok := h.readExif(*w.exif); ok {
			w.claims = append(w.claims, c)
		}
	}
	return w.claims, nil
}

type pngWalk struct {
	h      *header
	claims []claim
	exif   *blob
	srgb   bool
}

// walk visits chunks until the first of pixels.
func (w *pngWalk) walk(b blob) error {
	at := int64(8)
	for range 65536 {
		p := b.head(at, 8)
		if len(p) < 8 {
			return damaged("the PNG file is cut short before its pixels")
		}
		n, name := int64(be.Uint32(p)), string(p[4:])
		switch {
		case w.h.rawW == 0 && name != "IHDR":
			return damaged("the PNG file does not begin with its header")
		case n > 1<<31-1:
			return damaged("the PNG file is damaged at byte %d: a chunk of %d bytes", at, n)
		case name == "IDAT":
			w.h.data = b.size - at - 8
			w.behind(b, at)
			return nil
		case name == "IEND":
			return damaged("the PNG file ends before its pixels")
		}
		if err := w.chunk(name, b.part(at+8, n)); err != nil {
			return err
		}
		at += 12 + n
	}
	return damaged("the PNG file has too many chunks before its pixels")
}

// behind looks for Exif data behind the pixels, where some programs put it.
// A file cut short there is the decoder's to find.
func (w *pngWalk) behind(b blob, at int64) {
	for range 65536 {
		p := b.head(at, 8)
		if w.exif != nil || len(p) < 8 || string(p[4:]) == "IEND" {
			return
		}
		n := int64(be.Uint32(p))
		if string(p[4:]) == "eXIf" {
			body := b.part(at+8, n)
			w.exif = &body
		}
		at += 12 + n
	}
}

// chunk takes what matters from one chunk.
func (w *pngWalk) chunk(name string, body blob) error {
	switch name {
	case "IHDR":
		return w.size(body.head(0, 13))
	case "pHYs":
		if p := body.head(0, 9); len(p) == 9 {
			unit := map[byte]string{1: "metre"}[p[8]]
			w.claims = append(w.claims, claim{x: float64(be.Uint32(p)), y: float64(be.Uint32(p[4:])),
				unit: unit, source: "PNG pHYs", step: 1})
		}
	case "sCAL":
		if c, ok := scaleChunk(body.head(0, 256)); ok {
			w.claims = append([]claim{c}, w.claims...)
		}
	case "eXIf":
		if w.exif == nil && body.size > 0 {
			w.exif = &body
		}
	case "iCCP":
		if w.h.icc == nil && !w.srgb {
			w.h.icc = inflateProfile(body)
		}
	case "sRGB":
		w.srgb, w.h.icc = true, nil
	}
	return nil
}

// size reads IHDR and refuses what the specification does not allow.
func (w *pngWalk) size(p []byte) error {
	if len(p) < 13 {
		return damaged("the PNG header is cut short")
	}
	names := map[byte]string{0: "grey", 2: "RGB", 3: "palette", 4: "grey with alpha", 6: "RGB with alpha"}
	rawW, rawH := be.Uint32(p), be.Uint32(p[4:])
	if rawW == 0 || rawH == 0 || rawW > maxSide || rawH > maxSide {
		return damaged("the PNG header gives a size of %d × %d pixels", rawW, rawH)
	}
	if names[p[9]] == "" {
		return damaged("the PNG header gives colour type %d, which does not exist", p[9])
	}
	w.h.rawW, w.h.rawH = int(rawW), int(rawH)
	w.h.Depth, w.h.Colour, w.h.Compression = int(p[8]), names[p[9]], "Deflate"
	if p[12] == 1 {
		w.h.Compression = "Deflate, interlaced"
	}
	return nil
}

// scaleChunk reads sCAL: the size of the subject per pixel, as text (PNG
// extensions 1.6.0, section 4.3). Unit 1 is the metre, 2 the radian.
func scaleChunk(p []byte) (claim, bool) {
	if len(p) < 4 || p[0] != 1 {
		return claim{}, false
	}
	ws, hs, ok := strings.Cut(string(p[1:]), "\x00")
	if !ok {
		return claim{}, false
	}
	x, errX := strconv.ParseFloat(ws, 64)
	y, errY := strconv.ParseFloat(strings.TrimRight(hs, "\x00"), 64)
	if errX != nil || errY != nil || x <= 0 || y <= 0 {
		return claim{}, false
	}
	return claim{x: 1 / x, y: 1 / y, unit: "metre", source: "PNG sCAL", subject: true}, true
}

// inflateProfile unpacks iCCP, bounded; nil when it cannot be read.
func inflateProfile(body blob) []byte {
	p := body.head(0, min(body.size, maxICC))
	i := bytes.IndexByte(p, 0)
	if i < 0 || i > 79 || len(p) < i+2 {
		return nil
	}
	z, err := zlib.NewReader(bytes.NewReader(p[i+2:]))
	if err != nil {
		return nil
	}
	defer z.Close()
	icc, err := io.ReadAll(io.LimitReader(z, maxICC))
	if err != nil {
		return nil
	}
	return icc
}
