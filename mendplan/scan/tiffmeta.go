package scan

import (
	"fmt"
	"math"

	"leafmend/mendplan/phrase"
)

// readTIFFHeader reads the directory of the page asked for and names what is
// in it. Whether its kind can be decoded is found by tiffLayout.
func readTIFFHeader(h *header, b blob) ([]claim, error) {
	t, err := openTIFF(b)
	if err != nil {
		return nil, err
	}
	if err := t.readDirs(); err != nil {
		return nil, err
	}
	h.tiff = t
	t.findPages()
	h.Pages = len(t.pages)
	if h.Page < 0 || h.Page >= h.Pages {
		h.rawW, h.rawH = 1, 1 // the caller refuses the page itself
		return nil, nil
	}
	d := t.dirs[t.pages[h.Page]]
	if _, raw := t.dirs[0].entries[tagDNGVersion]; raw {
		return nil, &Refusal{What: phrase.Of("this is a raw camera picture"), Remedy: developRaw}
	}
	h.rawW, h.rawH = t.number(d, tagWidth, 0), t.number(d, tagHeight, 0)
	h.Orientation = t.number(d, tagOrientation, 1)
	h.Depth = t.number(d, tagBits, 1)
	h.Compression = compressionName(t.number(d, tagCompression, 1))
	h.Colour = t.colourName(d)
	h.icc = t.bytes(d, tagICC, maxICC)
	if at := t.number(d, tagExif, 0); at > 0 {
		if e, err := t.readDir(int64(at)); err == nil {
			h.readCamera(t, e, phrase.Phrase{})
		}
	}
	if c, ok := t.claim(d, "TIFF tags"); ok {
		return []claim{c}, nil
	}
	return nil, nil
}

// findPages lists the directories a person would call pages: those that are
// not marked as a smaller copy or a mask of another (TIFF 6.0, tag 254).
func (t *tiffFile) findPages() {
	for i, d := range t.dirs {
		if t.number(d, tagSubfile, 0)&(1|4) == 0 && t.number(d, tagOldSubfile, 1) != 2 {
			t.pages = append(t.pages, i)
		}
	}
	if len(t.pages) == 0 {
		t.pages = []int{0}
	}
}

// compressionNames name compressions by their own names, the same in every
// language.
var compressionNames = map[int]string{1: "none", 2: "CCITT modified Huffman", 3: "CCITT Group 3", 4: "CCITT Group 4", 5: "LZW",
	6: "old-style JPEG", 7: "JPEG", 8: "Deflate", 32946: "Deflate", 32773: "PackBits", 9: "JBIG", 10: "JBIG", 34661: "JBIG",
	32809: "ThunderScan", 32766: "NeXT", 34676: "SGI log", 34677: "SGI log", 34712: "JPEG 2000", 33003: "JPEG 2000",
	33005: "JPEG 2000", 34887: "LERC", 34925: "LZMA", 50000: "Zstandard", 50001: "WebP", 50002: "JPEG XL", 34934: "JPEG XR", 22610: "JPEG XR",
	32895: "IT8", 32771: "word-aligned Huffman"}

func compressionName(code int) string {
	if name := compressionNames[code]; name != "" {
		return name
	}
	return fmt.Sprintf("compression %d", code)
}

var photometricNames = map[int]string{0: "grey", 1: "grey", 2: "RGB", 3: "palette", 4: "mask", 5: "CMYK", 6: "YCbCr", 8: "CIELAB",
	9: "ICCLAB", 10: "ITULAB", 32803: "raw sensor", 34892: "raw sensor", 32844: "LogL", 32845: "LogLuv"}

// colourName names the colour kind of a directory.
func (t *tiffFile) colourName(d tiffDir) string {
	code := t.number(d, tagPhotometric, -1)
	name, ok := photometricNames[code]
	if !ok {
		return fmt.Sprintf("colour kind %d", code)
	}
	plain := map[int]int{0: 1, 1: 1, 2: 3, 5: 4}[code]
	if n := t.number(d, tagSamples, 1); plain > 0 && n > plain && n < math.MaxInt16 {
		name += " with alpha"
	}
	return name
}
