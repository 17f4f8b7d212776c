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
		redTable[i], greenTable[i], blueTable[i] = uint32(v), uint32(v)<<8, uint32(v)<<16|0xff<<24
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
	c := (y + r.py) >> r.sy * r.cSpan
	luma := r.y[y*r.yStride+x:][:n]
	first := x + r.px
	if r.sx == 1 && first&1 != 0 { // half a cell at the start
		r.yccCells(dst[:4], luma[:1], c+first>>1, 0)
		dst, luma, first = dst[4:], luma[1:], first+1
	}
	cell := c + first>>r.sx
	if r.sx != 1 {
		r.yccCells(dst, luma, c, first)
		return
	}
	pairs := len(luma) / 2
	yccPairs(dst[:8*pairs], luma[:2*pairs], r.cb[cell:][:pairs], r.cr[cell:][:pairs])
	if len(luma)&1 != 0 {
		r.yccCells(dst[8*pairs:], luma[2*pairs:], cell+pairs, 0)
	}
}

// yccPairs converts two pixels for each pair of chroma.
func yccPairs(dst, luma, cb, cr []byte) {
	cr = cr[:len(cb)]
	for i := range cb {
		ra, ga, ba := shares(cb[i], cr[i])
		d, y := (*[8]byte)(dst[8*i:]), (*[2]byte)(luma[2*i:])
		p, q := int32(y[0]), int32(y[1])
		le.PutUint32(d[:4], redTable[(p+ra)&1023]|greenTable[(p+ga)&1023]|blueTable[(p+ba)&1023])
		le.PutUint32(d[4:], redTable[(q+ra)&1023]|greenTable[(q+ga)&1023]|blueTable[(q+ba)&1023])
	}
}

// yccCells converts pixel by pixel; c is where the row of chroma begins and
// first the place of the first pixel in it.
func (r *raster) yccCells(dst, luma []byte, c, first int) {
	for i, v := range luma {
		k := c + (first+i)>>r.sx
		ra, ga, ba := shares(r.cb[k], r.cr[k])
		l := int32(v)
		le.PutUint32(dst[4*i:], redTable[(l+ra)&1023]|greenTable[(l+ga)&1023]|blueTable[(l+ba)&1023])
	}
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
	ra, ga, ba := shares(r.cb[c], r.cr[c])
	l := int32(r.y[y*r.yStride+x])
	return clampTable[(l+ra)&1023], clampTable[(l+ga)&1023], clampTable[(l+ba)&1023]
}
