package scan

import (
	"bytes"
	"testing"
)

// kindOfTIFF is a TIFF with its directory first, all of whose tags the fuzzer
// may choose: a file from an encoder seldom survives a change of its bytes.
type kindOfTIFF struct {
	w, h, compression, photometric, bits, samples, planar, predictor uint16
	fill, fax, rows, tileW, tileH, subX, subY, extra                 uint16
}

func (k kindOfTIFF) file(data []byte) []byte {
	type field struct{ tag, value uint16 }
	fields := []field{{256, k.w}, {257, k.h}, {258, k.bits}, {259, k.compression}, {262, k.photometric}, {266, k.fill},
		{277, k.samples}, {284, k.planar}, {292, k.fax}, {317, k.predictor}, {332, 1}, {338, k.extra}}
	if k.tileW > 0 {
		fields = append(fields, field{322, k.tileW}, field{323, k.tileH})
	} else {
		fields = append(fields, field{278, k.rows})
	}
	const chunks = 64 // all at the same place: enough for any small picture
	n := len(fields) + 3
	at := 8 + 2 + 12*n + 4
	p := le.AppendUint16([]byte("II*\x00\x08\x00\x00\x00"), uint16(n))
	for _, f := range fields {
		p = le.AppendUint16(p, f.tag)
		p = append(p, 3, 0, 1, 0, 0, 0)
		p = append(le.AppendUint16(p, f.value), 0, 0)
	}
	offsets := uint16(273)
	if k.tileW > 0 {
		offsets = 324
	}
	p = append(le.AppendUint16(p, offsets), 4, 0, chunks, 0, 0, 0)
	p = le.AppendUint32(p, uint32(at))
	p = append(le.AppendUint16(p, 530), 3, 0, 2, 0, 0, 0)
	p = le.AppendUint16(le.AppendUint16(p, k.subX), k.subY)
	p = append(le.AppendUint16(p, 320), 3, 0, 0, 3, 0, 0)
	p = le.AppendUint32(p, uint32(at)) // a palette of 256 out of whatever is there
	p = append(p, 0, 0, 0, 0)
	for range chunks {
		p = le.AppendUint32(p, uint32(at+4*chunks))
	}
	return append(p, data...)
}

func FuzzTIFFKinds(f *testing.F) {
	noise := make([]byte, 3000)
	for i := range noise {
		noise[i] = byte(i * i >> 3)
	}
	var packed bytes.Buffer
	packed.Write([]byte{0x80, 0x0b, 0x60, 0x50, 0x22, 0x0c, 0x0c, 0x85, 0x01})
	add := func(k kindOfTIFF, data []byte) {
		f.Add(k.w, k.h, k.compression, k.photometric, k.bits, k.samples, k.planar, k.predictor, k.fill, k.fax, k.rows, k.tileW, k.tileH, k.subX, k.subY, k.extra, data)
	}
	for _, photometric := range []uint16{0, 1, 2, 3, 5, 6, 8, 9} {
		colours := uint16((&tiffLayout{photometric: int(photometric)}).colours())
		for _, bits := range []uint16{1, 4, 8, 12, 16} {
			add(kindOfTIFF{9, 7, 1, photometric, bits, colours, 1, 1, 1, 0, 3, 0, 0, 2, 2, 0}, noise)
			add(kindOfTIFF{9, 7, 1, photometric, bits, colours + 1, 2, 1, 2, 0, 3, 16, 16, 1, 1, 2}, noise)
		}
	}
	for _, compression := range []uint16{2, 3, 4, 5, 7, 8, 32773} {
		add(kindOfTIFF{9, 7, compression, 1, 1, 1, 1, 1, 1, 1, 7, 0, 0, 1, 1, 0}, packed.Bytes())
		add(kindOfTIFF{9, 7, compression, 2, 16, 3, 1, 2, 1, 0, 7, 0, 0, 1, 1, 0}, noise)
	}
	f.Fuzz(func(t *testing.T, w, h, compression, photometric, bits, samples, planar, predictor, fill, fax, rows, tileW, tileH, subX, subY, extra uint16, data []byte) {
		tryFile(t, kindOfTIFF{w, h, compression, photometric, bits, samples, planar, predictor, fill, fax, rows, tileW, tileH, subX, subY, extra}.file(data))
	})
}
