package scan

import "unsafe"

// words sees bytes of RGBA as whole pixels, one word each, so that copying
// and writing a pixel is one step. Every frame passes through here: it halves
// the time of one. Bytes that do not begin at a word's bound, which no image
// made by Go has, are refused with nil; callers then go byte by byte.
func words(p []byte) []uint32 {
	if len(p) < 4 || uintptr(unsafe.Pointer(&p[0]))%4 != 0 {
		return nil
	}
	return unsafe.Slice((*uint32)(unsafe.Pointer(&p[0])), len(p)/4)
}

// gather copies the pixels of src at the given columns.
func gather(dst, src []byte, columns []int32) {
	d, s := words(dst), words(src)
	if d == nil || s == nil {
		for i, c := range columns {
			copy(dst[4*i:4*i+4], src[4*c:])
		}
		return
	}
	d = d[:len(columns)]
	for i, c := range columns {
		d[i] = s[c]
	}
}

// pixel puts red, green and blue into the word whose bytes they are in order;
// the tables of ycc.go are laid out the same way.
func pixel(r, g, b uint32) uint32 {
	if littleEndian {
		return r | g<<8 | b<<16 | 0xff<<24
	}
	return r<<24 | g<<16 | b<<8 | 0xff
}

// littleEndian tells this machine's order of bytes.
var littleEndian = func() bool {
	one := [4]byte{1}
	return *(*uint32)(unsafe.Pointer(&one)) == 1
}()

// copyWords writes words as the bytes they stand for.
func copyWords(dst []byte, src []uint32) {
	for i, v := range src {
		*(*[4]byte)(dst[4*i:]) = *(*[4]byte)(unsafe.Pointer(&v))
	}
}
