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
