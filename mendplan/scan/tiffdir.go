package scan

import (
	"encoding/binary"
	"math"

	"leafmend/mendplan/phrase"
)

// A TIFF file is a chain of directories of tagged values (TIFF 6.0, section
// 2); BigTIFF is the same with 64-bit counts and offsets. Exif data in other
// formats is a small TIFF file of its own, so this reader serves both.

// Tags used here, by their numbers in TIFF 6.0, its supplements and Exif.
const (
	tagSubfile      = 254
	tagOldSubfile   = 255
	tagWidth        = 256
	tagHeight       = 257
	tagBits         = 258
	tagCompression  = 259
	tagPhotometric  = 262
	tagFillOrder    = 266
	tagMake         = 271
	tagStripOffsets = 273
	tagOrientation  = 274
	tagSamples      = 277
	tagRowsPerStrip = 278
	tagStripCounts  = 279
	tagXResolution  = 282
	tagYResolution  = 283
	tagPlanar       = 284
	tagT4Options    = 292
	tagT6Options    = 293
	tagResUnit      = 296
	tagPredictor    = 317
	tagWhitePoint   = 318
	tagColourMap    = 320
	tagTileWidth    = 322
	tagTileHeight   = 323
	tagTileOffsets  = 324
	tagTileCounts   = 325
	tagInkSet       = 332
	tagExtraSamples = 338
	tagSampleFormat = 339
	tagJPEGTables   = 347
	tagThumbAt      = 513
	tagThumbLength  = 514
	tagYCbCrSub     = 530
	tagICC          = 34675
	tagExif         = 34665
	tagExposure     = 33434
	tagFNumber      = 33437
	tagFocalLength  = 37386
	tagExifWidth    = 40962
	tagExifHeight   = 40963
	tagDNGVersion   = 50706
)

// Bounds of what a directory may hold: enough for any scan, little for an
// attacker. maxValues covers the strips of a 250-megapixel file of one row each.
const (
	maxPages   = 4096
	maxEntries = 4096    // of one directory
	maxAll     = 1 << 17 // of all together
	maxValues  = 1 << 21
)

// tiffFile is an open TIFF or BigTIFF file.
type tiffFile struct {
	blob
	order binary.ByteOrder
	big   bool
	first int64 // offset of the first directory
	dirs  []tiffDir
	pages []int // indexes into dirs of what a person calls a page
}

// tiffDir is one directory: where each value is, not yet the values.
type tiffDir struct {
	entries map[uint16]tiffEntry
	next    int64
}

type tiffEntry struct {
	kind  uint16
	count uint64
	at    int64 // of the values, in the file
}

// kindSize is the size in bytes of each kind of value; 0 for unknown kinds.
var kindSize = [19]uint64{0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8, 4, 0, 0, 8, 8, 8}

// openTIFF reads a TIFF header: byte order, plain or big, first directory.
func openTIFF(b blob) (*tiffFile, error) {
	p := b.head(0, 16)
	if len(p) < 8 {
		return nil, damaged("the TIFF header is cut short")
	}
	t := &tiffFile{blob: b, order: le}
	if p[0] == 'M' {
		t.order = be
	}
	switch magic := t.order.Uint16(p[2:]); {
	case magic == 42:
		t.first = int64(t.order.Uint32(p[4:]))
	case magic == 43 && len(p) == 16 && t.order.Uint16(p[4:]) == 8:
		t.big = true
		t.first = offset(t.order.Uint64(p[8:]))
	default:
		return nil, damaged("this is not a TIFF header")
	}
	return t, nil
}

// offset makes a file offset of a number from the file; too large becomes -1,
// which no read accepts.
func offset(v uint64) int64 {
	if v > math.MaxInt64/2 {
		return -1
	}
	return int64(v)
}

// readDirs follows the chain of directories. A chain that bites its tail or
// runs out of the file ends there; the first directory must be sound.
func (t *tiffFile) readDirs() error {
	seen, entries := map[int64]bool{}, 0
	for at := t.first; at != 0 && !seen[at] && len(t.dirs) < maxPages && entries < maxAll; {
		seen[at] = true
		d, err := t.readDir(at)
		if err != nil {
			if len(t.dirs) == 0 {
				return err
			}
			break
		}
		t.dirs = append(t.dirs, d)
		entries += len(d.entries)
		at = d.next
	}
	if len(t.dirs) == 0 {
		return damaged("the TIFF file holds no picture")
	}
	return nil
}

// readDir reads one directory's entries.
func (t *tiffFile) readDir(at int64) (tiffDir, error) {
	head, size, word := int64(2), int64(12), int64(4)
	if t.big {
		head, size, word = 8, 20, 8
	}
	p, err := t.read(at, head)
	if err != nil {
		return tiffDir{}, damaged("a TIFF directory lies outside the file")
	}
	n := uint64(0)
	if t.big {
		n = t.order.Uint64(p)
	} else {
		n = uint64(t.order.Uint16(p))
	}
	if n == 0 || n > maxEntries {
		return tiffDir{}, damaged("a TIFF directory claims %d entries", n)
	}
	p, err = t.read(at+head, int64(n)*size)
	if err != nil {
		return tiffDir{}, damaged("a TIFF directory is cut short")
	}
	d := tiffDir{entries: make(map[uint16]tiffEntry, n)}
	for i := int64(0); i < int64(n); i++ {
		tag, e := t.entry(p[i*size:(i+1)*size], at+head+i*size)
		if _, twice := d.entries[tag]; !twice {
			d.entries[tag] = e
		}
	}
	d.next = t.word(t.head(at+head+int64(n)*size, word))
	return d, nil
}

// word reads an offset of the file's own width; 0 when it is not all there.
func (t *tiffFile) word(p []byte) int64 {
	switch {
	case t.big && len(p) >= 8:
		return offset(t.order.Uint64(p))
	case !t.big && len(p) >= 4:
		return int64(t.order.Uint32(p))
	}
	return 0
}

// entry reads one entry that stands at the given offset. Values that fit
// stand in the entry itself.
func (t *tiffFile) entry(p []byte, at int64) (uint16, tiffEntry) {
	e := tiffEntry{kind: t.order.Uint16(p[2:])}
	field, room := int64(8), uint64(4)
	if t.big {
		field, room = 12, 8
		e.count = t.order.Uint64(p[4:])
	} else {
		e.count = uint64(t.order.Uint32(p[4:]))
	}
	e.at = at + field
	if size := e.size(); e.count > room || size > room {
		e.at = t.word(p[field:])
	}
	return t.order.Uint16(p), e
}

// size returns the bytes an entry's values take; entries of absurd counts
// return what no read grants.
func (e tiffEntry) size() uint64 {
	if int(e.kind) >= len(kindSize) || e.count > math.MaxInt32 {
		return math.MaxInt32
	}
	return e.count * kindSize[e.kind]
}

// bytes returns an entry's values as they stand in the file, nil when absent,
// outside the file, or more than limit.
func (t *tiffFile) bytes(d tiffDir, tag uint16, limit int64) []byte {
	e, ok := d.entries[tag]
	if !ok || int64(e.size()) > limit {
		return nil
	}
	p, err := t.read(e.at, int64(e.size()))
	if err != nil {
		return nil
	}
	return p
}

// uints returns an entry's whole numbers; ok is false when the entry is there
// and cannot be read. An absent entry gives nil and true.
func (t *tiffFile) uints(d tiffDir, tag uint16) (vs []uint64, ok bool) {
	e, there := d.entries[tag]
	if !there {
		return nil, true
	}
	if e.count > maxValues {
		return nil, false
	}
	p := t.bytes(d, tag, maxValues*8)
	if p == nil || e.count == 0 {
		return nil, false
	}
	vs = make([]uint64, e.count)
	for i := range vs {
		switch e.kind {
		case 1, 6, 7:
			vs[i] = uint64(p[i])
		case 3, 8:
			vs[i] = uint64(t.order.Uint16(p[i*2:]))
		case 4, 9, 13:
			vs[i] = uint64(t.order.Uint32(p[i*4:]))
		case 16, 17, 18:
			vs[i] = t.order.Uint64(p[i*8:])
		default:
			return nil, false
		}
	}
	return vs, true
}

// number returns the first whole number of an entry, or other when there is
// none that can be read.
func (t *tiffFile) number(d tiffDir, tag uint16, other int) int {
	vs, ok := t.uints(d, tag)
	if !ok || len(vs) == 0 || vs[0] > math.MaxInt32 {
		return other
	}
	return int(vs[0])
}

// fraction returns the first value of an entry as a float; ok is false when
// there is none. 0/0 gives 0, so that it is judged and not lost.
func (t *tiffFile) fraction(d tiffDir, tag uint16) (v float64, ok bool) {
	e, there := d.entries[tag]
	if !there || e.count == 0 {
		return 0, false
	}
	p := t.bytes(d, tag, 64)
	switch {
	case p == nil:
		return 0, false
	case e.kind == 5 || e.kind == 10:
		num, den := float64(t.order.Uint32(p)), float64(t.order.Uint32(p[4:]))
		if e.kind == 10 {
			num, den = float64(int32(t.order.Uint32(p))), float64(int32(t.order.Uint32(p[4:])))
		}
		if den == 0 {
			return 0, true
		}
		return num / den, true
	case e.kind == 11:
		return float64(math.Float32frombits(t.order.Uint32(p))), true
	case e.kind == 12:
		return math.Float64frombits(t.order.Uint64(p)), true
	}
	vs, ok := t.uints(d, tag)
	if !ok || len(vs) == 0 {
		return 0, false
	}
	return float64(vs[0]), true
}

// claim reads tags 282, 283 and 296 (F115): the unit is the inch by default,
// and 1 means that there is none.
func (t *tiffFile) claim(d tiffDir, source string) (claim, bool) {
	x, okX := t.fraction(d, tagXResolution)
	y, okY := t.fraction(d, tagYResolution)
	if !okX && !okY {
		return claim{}, false
	}
	c := claim{x: x, y: y, source: source, unit: "inch"}
	if !okX || !okY {
		c.x, c.y = math.Max(x, y), math.Max(x, y)
		c.note = phrase.Of("it gives the resolution of one direction only")
	}
	switch t.number(d, tagResUnit, 2) {
	case 1:
		c.unit = ""
	case 3:
		c.unit = "centimetre"
	}
	return c, true
}
