package scan

import "image/color"

// painter returns the function that turns one packed row into grey bytes or
// RGBA. A painter has scratch memory of its own: one a goroutine.
func (l *tiffLayout) painter() func(dst, row []byte, w int) {
	if l.photometric == 3 {
		return l.palettePainter()
	}
	if l.photometric == 8 || l.photometric == 9 {
		return l.labPainter()
	}
	if l.bits == 8 && l.photometric == 2 && l.alpha == 0 {
		return l.plainRGB
	}
	samples := make([]byte, l.chunkW*l.samples)
	unpack := l.unpackerTo8()
	colour := l.colourPainter()
	return func(dst, row []byte, w int) {
		s := samples[:w*l.samples]
		unpack(s, row)
		colour(dst, s)
	}
}

// plainRGB is the common case, kept short.
func (l *tiffLayout) plainRGB(dst, row []byte, w int) {
	n := l.samples
	for i := range w {
		d, s := dst[4*i:4*i+4:4*i+4], row[n*i:n*i+3:n*i+3]
		d[0], d[1], d[2], d[3] = s[0], s[1], s[2], 255
	}
}

// unpackerTo8 returns a function that brings packed samples to 8 bits each,
// rounded. Little-endian files store 16-bit samples in their own order; all
// other widths are packed from the most significant bit on in either.
func (l *tiffLayout) unpackerTo8() func(dst, row []byte) {
	switch {
	case l.bits == 8:
		return func(dst, row []byte) { copy(dst, row) }
	case l.bits == 16:
		return func(dst, row []byte) {
			for i := range dst {
				dst[i] = down16(l.wide(row[2*i:]))
			}
		}
	}
	most := uint32(1)<<l.bits - 1
	return func(dst, row []byte) {
		for i := range dst {
			dst[i] = byte((getBits(row, i, l.bits)*255 + most/2) / most)
		}
	}
}

func (l *tiffLayout) wide(p []byte) uint32 {
	if l.bigEndian {
		return uint32(be.Uint16(p))
	}
	return uint32(le.Uint16(p))
}

// colourPainter turns rows of 8-bit samples into the target's pixels.
func (l *tiffLayout) colourPainter() func(dst, s []byte) {
	n, k := l.samples, l.colours()
	one := map[int]func(d, p []byte){
		2: func(d, p []byte) { d[0], d[1], d[2] = p[0], p[1], p[2] },
		5: func(d, p []byte) { d[0], d[1], d[2] = color.CMYKToRGB(p[0], p[1], p[2], p[3]) },
		6: func(d, p []byte) { d[0], d[1], d[2] = yccRGB(int32(p[0]), p[1], p[2]) },
	}[l.photometric]
	if l.photometric <= 1 {
		return l.greyPainter()
	}
	return func(dst, s []byte) {
		for i := range len(dst) / 4 {
			d, p := dst[4*i:4*i+4], s[n*i:n*i+n]
			one(d, p)
			d[3] = 255
			switch l.alpha {
			case 1:
				under := 255 - uint32(p[k])
				d[0], d[1], d[2] = add8(d[0], under), add8(d[1], under), add8(d[2], under)
			case 2:
				onWhite(d, uint32(d[0]), uint32(d[1]), uint32(d[2]), uint32(p[k]))
			}
		}
	}
}

// labPainter reads L*, a* and b*. CIELAB has a* and b* signed, ICCLAB offset
// by half their range, and counts 16-bit L* to 65280 (TIFF 6.0, section 23, and
// its Photoshop supplement).
func (l *tiffLayout) labPainter() func(dst, row []byte, w int) {
	lab, n := labToSRGB(l.white), l.samples
	full := 255.0
	get := func(row []byte, i int) int { return int(row[i]) }
	half := 128
	if l.bits == 16 {
		full, half = 65535, 32768
		get = func(row []byte, i int) int { return int(l.wide(row[2*i:])) }
		if l.photometric == 9 {
			full = 65280
		}
	}
	step := float64(half) / 128
	signed := func(v int) float64 {
		if l.photometric == 9 {
			v -= half
		} else if v >= half {
			v -= 2 * half
		}
		return float64(v) / step
	}
	return func(dst, row []byte, w int) {
		for i := range w {
			lab(dst[4*i:], float64(get(row, n*i))*100/full, signed(get(row, n*i+1)), signed(get(row, n*i+2)))
			dst[4*i+3] = 255
		}
	}
}

// greyPainter writes one byte a pixel, 0 black.
func (l *tiffLayout) greyPainter() func(dst, s []byte) {
	n := l.samples
	flip := byte(0)
	if l.photometric == 0 {
		flip = 255
	}
	return func(dst, s []byte) {
		for i := range dst {
			v := s[n*i] ^ flip
			switch l.alpha {
			case 1:
				v = add8(v, 255-uint32(s[n*i+1]))
			case 2:
				a := uint32(s[n*i+1])
				v = byte((uint32(v)*a + 255*(255-a) + 127) / 255)
			}
			dst[i] = v
		}
	}
}

func add8(v byte, more uint32) byte { return byte(min(255, uint32(v)+more)) }

// palettePainter looks colours up; the table has one for every index the
// samples can hold, so none can miss.
func (l *tiffLayout) palettePainter() func(dst, row []byte, w int) {
	size := 1 << l.bits
	table := make([][4]byte, size)
	scale := paletteScale(l.map16[:3*size])
	for i := range table {
		table[i] = [4]byte{scale(l.map16[i]), scale(l.map16[size+i]), scale(l.map16[2*size+i]), 255}
	}
	return func(dst, row []byte, w int) {
		for i := range w {
			copy(dst[4*i:4*i+4], table[getBits(row, i*l.samples, l.bits)][:])
		}
	}
}

// paletteScale brings palette values to 8 bits. They are 16-bit; some writers
// put 8-bit values there, which is seen when none exceeds 255.
func paletteScale(values []uint64) func(uint64) byte {
	for _, v := range values {
		if v > 255 {
			return func(v uint64) byte { return down16(uint32(v & 0xffff)) }
		}
	}
	return func(v uint64) byte { return byte(v) }
}
