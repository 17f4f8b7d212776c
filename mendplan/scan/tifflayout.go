package scan

import (
	"math"

	"leafmend/mendplan/phrase"
)

// tiffLayout says how the pixels of one directory are stored.
type tiffLayout struct {
	w, h        int
	samples     int // per pixel
	bits        int // per sample
	compression int
	photometric int
	predictor   int
	planar      bool // each sample in a plane of its own
	reversed    bool // bits of each byte stand the other way round
	faxOptions  int
	bigEndian   bool // of samples of 16 bits
	alpha       int  // 0 none, 1 associated, 2 unassociated; the sample behind the colours
	subX, subY  int  // chroma subsampling of YCbCr
	map16       []uint64
	tables      []byte     // shared JPEG tables
	white       [3]float64 // of CIELAB

	chunkW, chunkH int // a strip or tile
	across, down   int // chunks of a plane
	at, size       []uint64
}

// colours is the number of samples the colour itself takes.
func (l *tiffLayout) colours() int {
	switch l.photometric {
	case 2, 6, 8, 9:
		return 3
	case 5:
		return 4
	}
	return 1
}

// layout reads the layout of a directory and refuses in words what is not
// read or does not hold together.
func (t *tiffFile) layout(d tiffDir) (*tiffLayout, error) {
	l := &tiffLayout{
		w: t.number(d, tagWidth, 0), h: t.number(d, tagHeight, 0),
		samples: t.number(d, tagSamples, 1), bits: t.number(d, tagBits, 1),
		compression: t.number(d, tagCompression, 1), photometric: t.number(d, tagPhotometric, -1),
		predictor: t.number(d, tagPredictor, 1), planar: t.number(d, tagPlanar, 1) == 2,
		reversed: t.number(d, tagFillOrder, 1) == 2, faxOptions: t.number(d, tagT4Options, 0),
		subX: 1, subY: 1, bigEndian: t.order == be,
	}
	if l.w < 1 || l.h < 1 || l.w > maxSide || l.h > maxSide {
		return nil, damaged("the TIFF directory gives a size of %d × %d pixels", l.w, l.h)
	}
	if l.photometric < 0 && l.compression >= 2 && l.compression <= 4 {
		l.photometric = 0
	}
	if l.compression == 32946 {
		l.compression = 8
	}
	if err := l.checkKind(); err != nil {
		return nil, err
	}
	if err := t.checkSamples(d, l); err != nil {
		return nil, err
	}
	return l, t.chunks(d, l)
}

// checkKind refuses compressions and colour kinds that are not read.
func (l *tiffLayout) checkKind() error {
	switch l.compression {
	case 1, 2, 3, 4, 5, 7, 8, 32773:
	default:
		if l.compression == 6 {
			return notRead("TIFF with JPEG in the old manner is not read")
		}
		if name := compressionNames[l.compression]; name != "" && l.compression != 32771 {
			return notRead("TIFF with %s compression is not read", name)
		}
		return notRead("TIFF with compression %d is not read", l.compression)
	}
	switch l.photometric {
	case 0, 1, 2, 3, 5, 6, 8, 9:
	case -1:
		return damaged("the TIFF directory does not say what its samples mean")
	case 32803, 34892:
		return &Refusal{What: phrase.Of("this TIFF holds raw sensor data"), Remedy: developRaw}
	default:
		if name, ok := photometricNames[l.photometric]; ok && l.photometric != 4 {
			return notRead("TIFF with %s samples is not read", name)
		}
		return notRead("TIFF with samples of colour kind %d is not read", l.photometric)
	}
	fax := l.compression >= 2 && l.compression <= 4
	switch {
	case fax && (l.bits != 1 || l.samples != 1):
		return damaged("the TIFF is fax coded and yet has %d samples of %d bits", l.samples, l.bits)
	case l.compression == 7 && l.bits != 8:
		return notRead("TIFF with JPEG of %d bits is not read", l.bits)
	case l.predictor == 3:
		return notRead("TIFF with floating-point samples is not read")
	case l.predictor != 1 && l.predictor != 2:
		return damaged("the TIFF uses predictor %d, which does not exist", l.predictor)
	case l.predictor == 2 && l.bits != 8 && l.bits != 16 && (l.compression == 5 || l.compression == 8):
		return notRead("TIFF with a predictor on samples of %d bits is not read", l.bits)
	}
	return nil
}

// checkSamples reads what the samples are and refuses kinds not read.
func (t *tiffFile) checkSamples(d tiffDir, l *tiffLayout) error {
	if format := t.number(d, tagSampleFormat, 1); format == 3 {
		return notRead("TIFF with floating-point samples is not read")
	} else if format == 2 && l.photometric != 8 || format > 4 {
		return notRead("TIFF with signed samples is not read")
	}
	all, ok := t.uints(d, tagBits)
	for _, b := range all {
		if int(min(b, 1000)) != l.bits {
			return notRead("TIFF with samples of different sizes is not read")
		}
	}
	switch {
	case !ok || l.bits < 1 || l.samples < 1:
		return damaged("the TIFF has %d samples of %d bits", l.samples, l.bits)
	case l.bits > 16:
		return notRead("TIFF with %d bits per sample is not read", l.bits)
	case l.samples < l.colours():
		return damaged("the TIFF has %d samples a pixel where its colours take %d", l.samples, l.colours())
	case l.samples > 32:
		return notRead("TIFF with %d samples a pixel is not read", l.samples)
	case (l.photometric == 6 || l.photometric == 8 || l.photometric == 9) && l.bits != 8 && l.bits != 16:
		return notRead("TIFF with %s of %d bits is not read", photometricNames[l.photometric], l.bits)
	case l.photometric == 3 && l.bits > 8:
		return notRead("TIFF with a palette of %d bits is not read", l.bits)
	case t.number(d, tagInkSet, 1) != 1 && l.photometric == 5:
		return notRead("TIFF with inks other than CMYK is not read")
	}
	if l.samples > l.colours() {
		if extra := t.number(d, tagExtraSamples, 0); extra == 1 || extra == 2 {
			l.alpha = extra
		}
	}
	return t.colourTables(d, l)
}

// colourTables reads the palette, chroma subsampling and JPEG tables.
func (t *tiffFile) colourTables(d tiffDir, l *tiffLayout) error {
	if l.photometric == 3 {
		m, ok := t.uints(d, tagColourMap)
		if !ok || len(m) < 3<<l.bits {
			return damaged("the TIFF palette has %d of %d values", len(m), 3<<l.bits)
		}
		l.map16 = m
	}
	l.white = t.white(d)
	if l.photometric == 6 {
		sub, ok := t.uints(d, tagYCbCrSub)
		if l.subX, l.subY = 2, 2; ok && len(sub) == 2 {
			l.subX, l.subY = int(min(sub[0], 99)), int(min(sub[1], 99))
		}
		if l.planar {
			return notRead("TIFF with YCbCr in separate planes is not read")
		}
		for _, s := range []int{l.subX, l.subY} {
			if s != 1 && s != 2 && s != 4 {
				return damaged("the TIFF halves its colours %d × %d, which cannot be", l.subX, l.subY)
			}
		}
		if l.compression != 7 && (l.subX > 1 || l.subY > 1) && (l.bits != 8 || l.samples != 3) {
			return notRead("TIFF with subsampled YCbCr of %d × %d bits is not read", l.samples, l.bits)
		}
	}
	if l.compression == 7 {
		l.tables = t.bytes(d, tagJPEGTables, 1<<16)
		if _, there := d.entries[tagJPEGTables]; there && l.tables == nil {
			return damaged("the TIFF's JPEG tables cannot be read")
		}
	}
	return nil
}

// chunks reads where strips or tiles are.
func (t *tiffFile) chunks(d tiffDir, l *tiffLayout) error {
	at, size := uint16(tagStripOffsets), uint16(tagStripCounts)
	l.chunkW, l.chunkH = l.w, t.number(d, tagRowsPerStrip, math.MaxInt32)
	if _, tiled := d.entries[tagTileWidth]; tiled {
		at, size = tagTileOffsets, tagTileCounts
		l.chunkW, l.chunkH = t.number(d, tagTileWidth, 0), t.number(d, tagTileHeight, 0)
		if l.chunkW > (l.w+4096)&^15 || l.chunkH > (l.h+4096)&^15 {
			return damaged("the TIFF has tiles of %d × %d pixels for a picture of %d × %d", l.chunkW, l.chunkH, l.w, l.h)
		}
	} else {
		l.chunkH = min(l.chunkH, l.h)
	}
	if l.chunkW < 1 || l.chunkH < 1 {
		return damaged("the TIFF has strips or tiles of %d × %d pixels", l.chunkW, l.chunkH)
	}
	l.across, l.down = (l.w+l.chunkW-1)/l.chunkW, (l.h+l.chunkH-1)/l.chunkH
	n := l.across * l.down
	if l.planar {
		n *= l.samples
	}
	var ok, okSize bool
	l.at, ok = t.uints(d, at)
	l.size, okSize = t.uints(d, size)
	if !ok || len(l.at) < n {
		return damaged("the TIFF names %d of its %d strips or tiles", len(l.at), n)
	}
	if !okSize || len(l.size) < n {
		l.size = make([]uint64, n) // 0 stands for all that is there
	}
	return nil
}

// white returns the white that CIELAB is relative to (tag 318), D50 when the
// file gives none.
func (t *tiffFile) white(d tiffDir) [3]float64 {
	p := t.bytes(d, tagWhitePoint, 16)
	if len(p) != 16 || d.entries[tagWhitePoint].kind != 5 {
		return d50
	}
	fraction := func(q []byte) float64 { return float64(t.order.Uint32(q)) / float64(t.order.Uint32(q[4:])) }
	w, _ := whiteOf(fraction(p), fraction(p[8:]))
	return w
}
