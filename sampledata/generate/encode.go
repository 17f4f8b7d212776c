package main

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"
	"slices"
)

type pixels = image.RGBA

// encode puts a scan into its file's format with its true resolution.
func encode(img *pixels, name string, ppi float64) ([]byte, error) {
	switch formats[name] {
	case ".png":
		return pngWith(fewColours(img), ppi)
	case ".tif":
		return tiffWith(fewColours(img), ppi)
	}
	if name == turned {
		return jpegWith(upsideDown(img), ppi, 3, 88)
	}
	return jpegWith(img, ppi, 1, 88)
}

// jpegWith writes JPEG with the resolution in the JFIF header and, if the
// orientation is not 1, an Exif header that tells it. Go's encoder writes
// neither. JFIF 1.02 and ITU-T T.871, clause 10; Exif is a TIFF in APP1.
func jpegWith(img image.Image, ppi float64, orientation uint16, quality int) ([]byte, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: quality}); err != nil {
		return nil, fmt.Errorf("encoding JPEG: %w", err)
	}
	density := uint16(math.Round(ppi))
	head := []byte{0xFF, 0xD8, 0xFF, 0xE0, 0, 16, 'J', 'F', 'I', 'F', 0, 1, 2, 1}
	head = binary.BigEndian.AppendUint16(head, density)
	head = binary.BigEndian.AppendUint16(head, density)
	head = append(head, 0, 0)
	if orientation != 1 {
		exif := directory(binary.LittleEndian, []entry{
			{274, short, []uint32{uint32(orientation)}},
			{282, rational, []uint32{uint32(density), 1}},
			{283, rational, []uint32{uint32(density), 1}},
			{296, short, []uint32{2}},
		})
		head = append(head, 0xFF, 0xE1)
		head = binary.BigEndian.AppendUint16(head, uint16(2+6+len(exif)))
		head = append(append(head, "Exif\x00\x00"...), exif...)
	}
	return append(head, b.Bytes()[2:]...), nil
}

// pngWith writes PNG with a pHYs chunk, pixels per metre, after IHDR.
func pngWith(img image.Image, ppi float64) ([]byte, error) {
	var b bytes.Buffer
	enc := png.Encoder{CompressionLevel: png.BestCompression}
	if err := enc.Encode(&b, img); err != nil {
		return nil, fmt.Errorf("encoding PNG: %w", err)
	}
	const afterHeader = 8 + 25 // signature and IHDR
	perMetre := uint32(math.Round(ppi / 0.0254))
	chunk := binary.BigEndian.AppendUint32(nil, 9)
	chunk = append(chunk, "pHYs"...)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(chunk[4:]))
	return slices.Insert(b.Bytes(), afterHeader, chunk...), nil
}

// tiffWith writes a palette TIFF of one strip, packed with Deflate, after
// TIFF 6.0 (1992) and its Technical Note 2.
func tiffWith(img *image.Paletted, ppi float64) ([]byte, error) {
	var packed bytes.Buffer
	z, err := zlib.NewWriterLevel(&packed, zlib.BestCompression)
	if err == nil {
		if _, err = z.Write(img.Pix); err == nil {
			err = z.Close()
		}
	}
	if err != nil {
		return nil, fmt.Errorf("packing TIFF: %w", err)
	}
	w, h := uint32(img.Rect.Dx()), uint32(img.Rect.Dy())
	entries := []entry{
		{256, long, []uint32{w}}, {257, long, []uint32{h}}, {258, short, []uint32{8}},
		{259, short, []uint32{8}}, {262, short, []uint32{3}},
		{273, long, []uint32{0}}, {274, short, []uint32{1}}, {277, short, []uint32{1}},
		{278, long, []uint32{h}}, {279, long, []uint32{uint32(packed.Len())}},
		{282, rational, []uint32{uint32(math.Round(ppi)), 1}},
		{283, rational, []uint32{uint32(math.Round(ppi)), 1}},
		{296, short, []uint32{2}}, {320, short, colourMap(img.Palette)},
	}
	for i := range entries {
		if entries[i].tag == 273 { // the strip follows the directory
			entries[i].values[0] = uint32(len(directory(binary.LittleEndian, entries)))
		}
	}
	return append(directory(binary.LittleEndian, entries), packed.Bytes()...), nil
}

// colourMap lists all reds, then greens, then blues, of 256 colours.
func colourMap(p color.Palette) []uint32 {
	out := make([]uint32, 3*256)
	for i, c := range p {
		r, g, b, _ := c.RGBA()
		out[i], out[256+i], out[512+i] = r, g, b
	}
	return out
}

// Types of TIFF fields.
const (
	short    = 3
	long     = 4
	rational = 5
)

type entry struct {
	tag, kind uint16
	values    []uint32 // of a rational: numerator, denominator
}

// directory writes a TIFF header and one directory with its values after it.
func directory(order binary.AppendByteOrder, entries []entry) []byte {
	out := append([]byte("II"), 42, 0, 8, 0, 0, 0)
	out = order.AppendUint16(out, uint16(len(entries)))
	far := uint32(8 + 2 + 12*len(entries) + 4)
	var tail []byte
	for _, e := range entries {
		var data []byte
		count := uint32(len(e.values))
		for _, v := range e.values {
			if e.kind == short {
				data = order.AppendUint16(data, uint16(v))
			} else {
				data = order.AppendUint32(data, v)
			}
		}
		if e.kind == rational {
			count /= 2
		}
		out = order.AppendUint16(out, e.tag)
		out = order.AppendUint16(out, e.kind)
		out = order.AppendUint32(out, count)
		if len(data) <= 4 {
			out = append(out, append(data, make([]byte, 4-len(data))...)...)
			continue
		}
		out = order.AppendUint32(out, far+uint32(len(tail)))
		tail = append(tail, data...)
	}
	out = append(out, 0, 0, 0, 0)
	return append(out, tail...)
}

// upsideDown turns a picture by half a turn.
func upsideDown(img *pixels) *pixels {
	out := image.NewRGBA(img.Rect)
	n := len(img.Pix) / 4
	for i := range n {
		copy(out.Pix[4*(n-1-i):4*(n-i)], img.Pix[4*i:4*i+4])
	}
	return out
}
