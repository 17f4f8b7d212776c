package scan

// Conversion of JPEG's luma and chroma to RGB (ITU-T T.871, section 7) by
// tables: per chroma value its share of each colour, then one look-up that
// clamps. It is exact to one step of 255 and serves every frame painted, so
// its speed is what counts.

// crShares and cbShares hold what a chroma value adds: Cr to red (offset for
// clampTable) and to green (in 1/65536), Cb to green and to blue.
var crShares, cbShares [256]struct{ a, b int32 }

// clampTable maps i−384 to 0 … 255. The other three do so too and put the
// value in its place in an RGBA word; blue brings alpha along.
var (
	clampTable                      [1024]byte
	redTable, greenTable, blueTable [1024]uint32
)

func init() {
	for i := range 256 {
		c := int32(i) - 128
		crShares[i].a, crShares[i].b = (91881*c+1<<15)>>16+384, -46802*c
		cbShares[i].a, cbShares[i].b = -22554*c+1<<15, (116130*c+1<<15)>>16+384
	}
	for i := range clampTable {
		v := max(0, min(255, i-384))
		clampTable[i] = byte(v)
		black := pixel(0, 0, 0)
		redTable[i], greenTable[i], blueTable[i] = pixel(uint32(v), 0, 0)^black, pixel(0, uint32(v), 0)^black, pixel(0, 0, uint32(v))
	}
}

// shares returns what a chroma pair adds to red, green and blue, offset for
// clampTable.
func shares(cb, cr byte) (r, g, b int32) {
	x, y := &crShares[cr], &cbShares[cb]
	return x.a, (x.b+y.a)>>16 + 384, y.b
}

// row writes n pixels of row y from x on as RGBA.
func (r *raster) row(dst []byte, x, y, n int) {
	switch {
	case r.rgba != nil:
		copy(dst[:4*n], r.rgba[4*(y*r.w+x):])
	case r.cb == nil:
		greyRow(dst[:4*n], r.y[y*r.yStride+x:])
	default:
		r.yccRow(dst[:4*n], x, y, n)
	}
}

func greyRow(dst, src []byte) {
	for i := 0; i+3 < len(dst); i += 4 {
		v := src[i>>2]
		d := dst[i : i+4 : i+4]
		d[0], d[1], d[2], d[3] = v, v, v, 255
	}
}

// yccRow converts a run of pixels, looking chroma up once per cell. Pixels
// that share a pair of chroma are written together.
func (r *raster) yccRow(dst []byte, x, y, n int) {
	out := words(dst)
	if out == nil {
		out = make([]uint32, n)
		defer func() { copyWords(dst, out) }()
	}
	c := (y + r.py) >> r.sy * r.cSpan
	luma := r.y[y*r.yStride+x:][:n]
	first := x + r.px
	if r.sx != 1 {
		r.yccCells(out, luma, c, first)
		return
	}
	if first&1 != 0 { // half a cell at the start
		r.yccCells(out, luma[:1], c, first)
		out, luma, first = out[1:], luma[1:], first+1
	}
	cell, pairs := c+first>>1, len(luma)/2
	yccPairs(out, luma, r.cb[cell:][:pairs], r.cr[cell:][:pairs])
	r.yccCells(out[2*pairs:], luma[2*pairs:], c, first+2*pairs)
}

// yccPairs converts two pixels for each pair of chroma.
func yccPairs(dst []uint32, luma, cb, cr []byte) {
	cr, luma, dst = cr[:len(cb)], luma[:2*len(cb)], dst[:2*len(cb)]
	for i := range cb {
		ra, ga, ba := shares(cb[i], cr[i])
		p, q := int32(luma[2*i]), int32(luma[2*i+1])
		dst[2*i] = redTable[(p+ra)&1023] | greenTable[(p+ga)&1023] | blueTable[(p+ba)&1023]
		dst[2*i+1] = redTable[(q+ra)&1023] | greenTable[(q+ga)&1023] | blueTable[(q+ba)&1023]
	}
}

// yccCells converts pixel by pixel; c is where the row of chroma begins and
// first the place of the first pixel in it.
func (r *raster) yccCells(dst []uint32, luma []byte, c, first int) {
	for i, v := range luma {
		k := c + (first+i)>>r.sx
		dst[i] = yccPixel(int32(v), r.cb[k], r.cr[k])
	}
}

// yccPixel is one pixel as a word.
func yccPixel(l int32, cb, cr byte) uint32 {
	r, g, b := shares(cb, cr)
	return redTable[(l+r)&1023] | greenTable[(l+g)&1023] | blueTable[(l+b)&1023]
}

// at returns one pixel.
func (r *raster) at(x, y int) (red, green, blue byte) {
	switch {
	case r.rgba != nil:
		p := r.rgba[4*(y*r.w+x):]
		return p[0], p[1], p[2]
	case r.cb == nil:
		v := r.y[y*r.yStride+x]
		return v, v, v
	}
	c := (y+r.py)>>r.sy*r.cSpan + (x+r.px)>>r.sx
	return yccRGB(int32(r.y[y*r.yStride+x]), r.cb[c], r.cr[c])
}

// yccRGB is one pixel as its colours.
func yccRGB(l int32, cb, cr byte) (red, green, blue byte) {
	r, g, b := shares(cb, cr)
	return clampTable[(l+r)&1023], clampTable[(l+g)&1023], clampTable[(l+b)&1023]
}
