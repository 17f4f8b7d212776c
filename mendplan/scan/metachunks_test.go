package scan_test

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
)

// withChunk puts a chunk right behind a PNG's header.
func withChunk(p []byte, name string, body []byte) []byte {
	const header = 8 + 25
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)))
	chunk = append(append(chunk, name...), body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return append(append(bytes.Clone(p[:header]), chunk...), p[header:]...)
}

// behindPixels puts a chunk before a PNG's last.
func behindPixels(p []byte, name string, body []byte) []byte {
	chunk := withChunk(make([]byte, 33), name, body)[33:]
	return append(append(bytes.Clone(p[:len(p)-12]), chunk...), p[len(p)-12:]...)
}

// deflated is the body of an iCCP chunk.
func deflated(profile []byte) []byte {
	var b bytes.Buffer
	b.WriteString("profile\x00\x00")
	z := zlib.NewWriter(&b)
	z.Write(profile)
	z.Close()
	return b.Bytes()
}

// withSegment puts a segment right behind a JPEG's start marker.
func withSegment(p []byte, marker byte, body []byte) []byte {
	seg := []byte{0xff, marker, byte((len(body) + 2) >> 8), byte(len(body) + 2)}
	return append(append(append(bytes.Clone(p[:2]), seg...), body...), p[2:]...)
}

// tag is one value of a directory written by tiffBytes.
type tag struct {
	id, kind uint16
	values   []uint32 // numerator and denominator in turn for fractions
}

// tiffBytes writes a little-endian TIFF directory, and behind it the data to
// which the offset of tag 273, if it is 0, is set.
func tiffBytes(tags []tag, data []byte) []byte {
	le := binary.LittleEndian
	p := append([]byte("II*\x00"), 8, 0, 0, 0)
	p = le.AppendUint16(p, uint16(len(tags)))
	at := 8 + 2 + 12*len(tags) + 4
	var extra []byte
	for _, t := range tags {
		size := map[uint16]int{1: 1, 3: 2, 4: 4, 5: 8}[t.kind]
		count := len(t.values)
		if t.kind == 5 {
			count /= 2
		}
		var v []byte
		for _, x := range t.values {
			switch t.kind {
			case 1:
				v = append(v, byte(x))
			case 3:
				v = le.AppendUint16(v, uint16(x))
			default:
				v = le.AppendUint32(v, x)
			}
		}
		p = le.AppendUint32(le.AppendUint16(le.AppendUint16(p, t.id), t.kind), uint32(count))
		if t.id == 273 && t.values[0] == 0 {
			p = le.AppendUint32(p, 0xfefefefe)
			continue
		}
		if size*count <= 4 {
			p = append(p, append(v, 0, 0, 0, 0)[:4]...)
		} else {
			p = le.AppendUint32(p, uint32(at+len(extra)))
			extra = append(extra, v...)
		}
	}
	p = append(append(p, 0, 0, 0, 0), extra...)
	p = bytes.Replace(p, []byte{0xfe, 0xfe, 0xfe, 0xfe}, le.AppendUint32(nil, uint32(len(p))), 1)
	return append(p, data...)
}

// joinTIFF puts a TIFF of one directory behind another as its next page.
func joinTIFF(p, q []byte) []byte {
	le := binary.LittleEndian
	p = bytes.Clone(p)
	if len(p)%2 != 0 {
		p = append(p, 0)
	}
	last := uint32(8)
	next := func(at uint32) uint32 { return at + 2 + 12*uint32(le.Uint16(p[at:])) }
	for le.Uint32(p[next(last):]) != 0 {
		last = le.Uint32(p[next(last):])
	}
	shift := uint32(len(p)) - 8
	q = bytes.Clone(q)
	n := int(le.Uint16(q[8:]))
	for i := range n {
		e := q[10+12*i:]
		size := map[uint16]uint32{1: 1, 3: 2, 4: 4, 5: 8}[le.Uint16(e[2:])]
		if le.Uint16(e) == 273 || size*le.Uint32(e[4:]) > 4 {
			le.PutUint32(e[8:], le.Uint32(e[8:])+shift)
		}
	}
	le.PutUint32(p[next(last):], uint32(len(p)))
	return append(p, q[8:]...)
}

// exifThumb is an Exif segment's body with a second directory that holds a
// thumbnail.
func exifThumb(main []tag, thumb []byte) []byte {
	if len(main) == 0 {
		main = []tag{{274, 3, []uint32{1}}}
	}
	first := tiffBytes(main, nil)
	at := len(first) + len(first)%2
	sub := []tag{{513, 4, []uint32{uint32(at + 2 + 2*12 + 4)}}, {514, 4, []uint32{uint32(len(thumb))}}}
	return append([]byte("Exif\x00\x00"), append(joinTIFF(first, tiffBytes(sub, nil)), thumb...)...)
}
