package scan

// readBMPHeader reads the header of a bitmap. Its resolution
// is in pixels per metre.
func readBMPHeader(h *header, b blob) ([]claim, error) {
	p := b.head(14, 40)
	if len(p) < 16 {
		return nil, damaged("the BMP header is cut short")
	}
	size := le.Uint32(p)
	if size == 12 {
		return nil, notRead("this old kind of BMP is not read")
	}
	if size < 40 || len(p) < 40 {
		return nil, damaged("the BMP header claims %d bytes", size)
	}
	rawW, rawH := int64(int32(le.Uint32(p[4:]))), int64(int32(le.Uint32(p[8:])))
	if rawH < 0 {
		rawH = -rawH // rows stand top down
	}
	h.rawW, h.rawH = int(rawW), int(rawH)
	h.Depth, h.Colour = int(le.Uint16(p[14:])), "RGB"
	if h.Depth <= 8 {
		h.Colour, h.Depth = "palette", 8
	} else {
		h.Depth = 8
	}
	bits := int(le.Uint16(p[14:]))
	switch code := le.Uint32(p[16:]); {
	case code == 1 || code == 2:
		return nil, notRead("run-length packed BMP is not read")
	case code == 4 || code == 5:
		return nil, notRead("JPEG or PNG inside a BMP is not read")
	case bits != 1 && bits != 2 && bits != 4 && bits != 8 && bits != 24 && bits != 32:
		return nil, notRead("BMP with %d bits a pixel is not read", bits)
	}
	h.Compression = "none"
	h.bits = bits
	x, y := le.Uint32(p[24:]), le.Uint32(p[28:])
	if x == 0 && y == 0 {
		return nil, nil
	}
	return []claim{{x: float64(x), y: float64(y), unit: "metre", source: "BMP header", step: 1}}, nil
}

// readWebPHeader walks the chunks of a WebP file for its size, profile and
// Exif data.
func readWebPHeader(h *header, b blob) ([]claim, error) {
	h.Depth, h.Colour = 8, "YCbCr"
	var claims []claim
	var exif blob
	at := int64(12)
	for range 1024 {
		p := b.head(at, 8)
		if len(p) < 8 {
			break
		}
		name, n := string(p[:4]), int64(le.Uint32(p[4:]))
		body := b.part(at+8, n)
		switch q := body.head(0, 10); {
		case name == "VP8X" && len(q) == 10:
			if q[0]&2 != 0 {
				return nil, notRead("moving WebP pictures are not read")
			}
			h.rawW, h.rawH = 1+int(uint24(q[4:])), 1+int(uint24(q[7:]))
		case name == "VP8 " && len(q) == 10:
			h.Compression = "lossy"
			h.inner(int(le.Uint16(q[6:]))&0x3fff, int(le.Uint16(q[8:]))&0x3fff)
		case name == "VP8L" && len(q) >= 5:
			h.Compression, h.Colour = "lossless", "RGB"
			v := le.Uint32(q[1:])
			h.inner(1+int(v&0x3fff), 1+int(v>>14&0x3fff))
		case name == "ICCP" && n <= maxICC:
			h.icc = body.head(0, body.size)
		case name == "EXIF":
			exif = body
			if string(body.head(0, 6)) == "Exif\x00\x00" {
				exif = body.part(6, body.size)
			}
		}
		at += 8 + n + n&1
	}
	if h.Compression == "" || h.rawW == 0 {
		return nil, damaged("the WebP file is cut short before its pixels")
	}
	if exif.size > 0 {
		if c, ok := h.readExif(exif); ok {
			claims = append(claims, c)
		}
	}
	return claims, nil
}

// inner takes the size of the coded picture unless the canvas gave one.
func (h *header) inner(w, ht int) {
	if h.rawW == 0 {
		h.rawW, h.rawH = w, ht
	}
}

func uint24(p []byte) uint32 { return uint32(p[0]) | uint32(p[1])<<8 | uint32(p[2])<<16 }
