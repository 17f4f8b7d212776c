package scan

import (
	"bytes"
	"io"
)

// A few bytes can claim millions of pixels. Decoders believe the claim and ask
// for the memory, so it is held here against the bytes that follow it: no
// coding packs more than so much into a byte.

// maxScans bounds the passes of a JPEG over its pixels; encoders make about
// ten.
const maxScans = 64

// enough refuses a file whose data is too short for its size in pixels.
func (h *header) enough(b blob) error {
	w, ht := int64(h.rawW), int64(h.rawH)
	least := int64(0)
	switch h.Format {
	case "JPEG": // a block of 8 × 8 takes at least one bit
		least = (w + 7) / 8 * ((ht + 7) / 8) / 8
	case "PNG": // Deflate packs at most 1032 to one
		least = ht * (1 + w*int64(h.Depth)*pngSamples[h.Colour]/8) / 1032
	case "BMP":
		least = ht * (w * int64(h.bits) / 8)
	case "WebP": // common sense: not even blank paper does better
		least = w * ht / 4096
	}
	if h.data+64 < least {
		return damaged("the file is far too short for %d × %d pixels", h.rawW, h.rawH)
	}
	if h.Format == "JPEG" && countScans(b.part(b.size-h.data, h.data)) > maxScans {
		return notRead("a JPEG with more than %d scans is not read", maxScans)
	}
	return nil
}

var pngSamples = map[string]int64{"grey": 1, "palette": 1, "grey with alpha": 2, "RGB": 3, "RGB with alpha": 4}

// countScans counts the start-of-scan markers up to the end of the image. In
// coded data a marker's first byte is never followed by another's second.
func countScans(b blob) int {
	n := 1
	buf := make([]byte, 1<<16)
	r := io.NewSectionReader(b.r, 0, b.size)
	marker := false
	for n <= maxScans {
		k, err := r.Read(buf)
		for p := buf[:k]; len(p) > 0; {
			if marker {
				switch p[0] {
				case 0xda:
					n++
				case 0xd9:
					return n
				}
				marker = p[0] == 0xff
				p = p[1:]
				continue
			}
			i := bytes.IndexByte(p, 0xff)
			if i < 0 {
				break
			}
			marker, p = true, p[i+1:]
		}
		if err != nil {
			break
		}
	}
	return n
}
