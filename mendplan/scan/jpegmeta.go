package scan

import "bytes"

// jpegHead is what the segments before the pixels of a JPEG file say. The
// layout is that of ITU-T T.81; JFIF density is that of ITU-T T.871.
type jpegHead struct {
	components int
	ids        [4]byte
	adobe      int // transform of the Adobe segment, -1 when there is none
	jfif       bool
	process    byte // second byte of the frame's marker
}

// maxICC bounds the bytes of a profile.
const maxICC = 8 << 20

// jpegWalk is the state of one pass over the segments.
type jpegWalk struct {
	h          *header
	j          *jpegHead
	exif, jfif *claim
	resources  *claim
	exifBlob   blob
	icc        map[byte][]byte
	iccBytes   int
}

// readJPEGHeader walks the segments up to the first scan.
func readJPEGHeader(h *header, b blob) ([]claim, error) {
	w := &jpegWalk{h: h, j: &jpegHead{adobe: -1}, icc: map[byte][]byte{}}
	h.jpeg = w.j
	at, err := w.walk(b)
	if err != nil {
		return nil, err
	}
	if h.rawW == 0 {
		return nil, damaged("the JPEG file has no frame header before its pixels")
	}
	h.data = b.size - at
	if w.exifBlob.size > 0 {
		if c, ok := h.readExif(w.exifBlob); ok {
			w.exif = &c
		}
	}
	h.icc = w.profile()
	h.Colour = w.j.colour()
	var cs []claim
	for _, c := range []*claim{w.exif, w.jfif, w.resources} {
		if c != nil {
			cs = append(cs, *c)
		}
	}
	return cs, nil
}

// walk visits the segments and returns where the first scan's data begins.
func (w *jpegWalk) walk(b blob) (int64, error) {
	at := int64(2)
	for range 4096 {
		p := b.head(at, 4)
		if len(p) < 4 {
			return 0, damaged("the JPEG file is cut short before its pixels")
		}
		switch {
		case p[0] != 0xff:
			return 0, damaged("the JPEG file is damaged at byte %d: a marker was expected", at)
		case p[1] == 0xff: // fill byte
			at++
			continue
		case p[1] == 0x01 || p[1] >= 0xd0 && p[1] <= 0xd8: // stand alone
			at += 2
			continue
		case p[1] == 0xd9:
			return 0, damaged("the JPEG file ends before its pixels")
		}
		n := int64(be.Uint16(p[2:]))
		if n < 2 {
			return 0, damaged("the JPEG file is damaged at byte %d: a segment of length %d", at, n)
		}
		if p[1] == 0xda {
			return at + 2 + n, nil
		}
		if err := w.segment(p[1], b.part(at+4, n-2)); err != nil {
			return 0, err
		}
		at += 2 + n
	}
	return 0, damaged("the JPEG file has too many segments before its pixels")
}

// segment takes what matters from one segment's body.
func (w *jpegWalk) segment(marker byte, body blob) error {
	frame := marker >= 0xc0 && marker <= 0xcf && marker != 0xc4 && marker != 0xc8 && marker != 0xcc
	if !frame && marker != 0xe0 && marker != 0xe1 && marker != 0xe2 && marker != 0xed && marker != 0xee {
		return nil
	}
	p := body.head(0, body.size)
	switch {
	case frame && w.h.rawW == 0:
		return w.frame(marker, p)
	case marker == 0xe0 && bytes.HasPrefix(p, []byte("JFIF\x00")) && len(p) >= 12 && w.jfif == nil:
		w.j.jfif = true
		unit := map[byte]string{1: "inch", 2: "centimetre"}[p[7]]
		w.jfif = &claim{x: float64(be.Uint16(p[8:])), y: float64(be.Uint16(p[10:])), unit: unit, source: "JFIF", step: 1}
	case marker == 0xe1 && bytes.HasPrefix(p, []byte("Exif\x00")) && w.exifBlob.size == 0:
		w.exifBlob = body.part(6, body.size)
	case marker == 0xe2 && bytes.HasPrefix(p, []byte("ICC_PROFILE\x00")) && len(p) > 14 && w.iccBytes < maxICC:
		if _, twice := w.icc[p[12]]; !twice {
			w.icc[p[12]] = p[14:]
			w.iccBytes += len(p) - 14
		}
	case marker == 0xed && bytes.HasPrefix(p, []byte("Photoshop 3.0\x00")) && w.resources == nil:
		w.resources = resourceClaim(p[14:])
	case marker == 0xee && bytes.HasPrefix(p, []byte("Adobe")) && len(p) >= 12:
		w.j.adobe = int(p[11])
	}
	return nil
}

// frame reads a frame header: process, precision, size and components.
func (w *jpegWalk) frame(marker byte, p []byte) error {
	if len(p) < 6 || len(p) < 6+3*int(p[5]) {
		return damaged("the JPEG frame header is cut short")
	}
	w.j.process = marker
	words := map[byte]string{0xc0: "baseline", 0xc1: "extended", 0xc2: "progressive"}[marker]
	switch {
	case marker >= 0xc9:
		return notRead("JPEG with arithmetic coding is not read")
	case marker == 0xc3:
		return notRead("lossless JPEG is not read")
	case words == "":
		return notRead("hierarchical JPEG is not read")
	case p[0] != 8:
		return notRead("JPEG with %d bits per sample is not read", p[0])
	}
	w.h.Depth, w.h.Compression = int(p[0]), words
	w.h.rawH, w.h.rawW = int(be.Uint16(p[1:])), int(be.Uint16(p[3:]))
	w.j.components = int(p[5])
	if n := w.j.components; n != 1 && n != 3 && n != 4 {
		return notRead("JPEG with %d colour components is not read", n)
	}
	for i := range w.j.components {
		w.j.ids[i] = p[6+3*i]
	}
	if w.h.rawH == 0 {
		return notRead("this JPEG leaves its height to be told later (DNL), which is not read")
	}
	if w.h.rawW == 0 {
		return damaged("the JPEG frame header gives a width of 0")
	}
	return nil
}

// profile joins the parts of an ICC profile in their order.
func (w *jpegWalk) profile() []byte {
	var p []byte
	for i := 1; i <= len(w.icc); i++ {
		part, ok := w.icc[byte(i)]
		if !ok {
			w.h.problem("a part of the ICC profile is missing")
			return nil
		}
		p = append(p, part...)
	}
	return p
}

// colour names the colour model by the conventions of JFIF and Adobe.
func (j *jpegHead) colour() string {
	switch {
	case j.components == 1:
		return "grey"
	case j.components == 4 && j.adobe == 2:
		return "YCCK"
	case j.components == 4:
		return "CMYK"
	case j.rgb():
		return "RGB"
	}
	return "YCbCr"
}

// rgb tells whether three components are red, green and blue.
func (j *jpegHead) rgb() bool {
	return !j.jfif && (j.adobe == 0 || j.adobe < 0 && j.ids == [4]byte{'R', 'G', 'B'})
}

// resourceClaim reads resource 0x03ED, the resolution, from a block of image
// resources: fixed-point pixels per inch whatever unit is displayed.
func resourceClaim(p []byte) *claim {
	for len(p) >= 12 && string(p[:4]) == "8BIM" {
		id := be.Uint16(p[4:])
		name := (int(p[6]) + 2) &^ 1
		if len(p) < 6+name+4 {
			return nil
		}
		n := int(be.Uint32(p[6+name:]))
		body := p[10+name:]
		if n < 0 || n > len(body) {
			return nil
		}
		if id == 0x03ed && n >= 16 {
			fixed := func(q []byte) float64 { return float64(be.Uint32(q)) / 65536 }
			return &claim{x: fixed(body), y: fixed(body[8:]), unit: "inch", source: "image resources"}
		}
		p = body[min((n+1)&^1, len(body)):]
	}
	return nil
}
