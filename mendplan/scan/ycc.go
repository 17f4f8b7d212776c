package scan

// Conversion of JPEG's luma and chroma to RGB (ITU-T T.871, section 7) by
// tables: per chroma value its share of each colour, then one look-up that
// clamps. It is exact to one step of 255 and serves every frame painted, so
// its speed is what counts.

// yccRed and the others hold the shares of Cr and Cb in 1/65536.
var yccRed, yccGreenCr, yccGreenCb, yccBlue [256]int32

// clampTable maps i−256 … i+511 to 0 … 255.
var clampTable [1024]byte

func init() {
	for i := range 256 {
		c := int32(i) - 128
		yccRed[i] = (91881*c + 1<<15) >> 16
		yccGreenCr[i] = -46802 * c
		yccGreenCb[i] = -22554*c + 1<<15
		yccBlue[i] = (116130*c + 1<<15) >> 16
	}
	for i := range clampTable {
		clampTable[i] = byte(max(0, min(255, i-384)))
	}
}

// shares returns what a chroma pair adds to red, green and blue, offset for
// clampTable.
func shares(cb, cr byte) (r, g, b int32) {
	return yccRed[cr] + 384, (yccGreenCr[cr]+yccGreenCb[cb])>>16 + 384, yccBlue[cb] + 384
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

// yccRow converts a run of pixels, looking chroma up once per cell.
func (r *raster) yccRow(dst []byte, x, y, n int) {
	c := (y + r.py) >> r.sy * r.cSpan
	cb, cr := r.cb[c:], r.cr[c:]
	luma := r.y[y*r.yStride+x : y*r.yStride+x+n]
	last := -1
	var ra, ga, ba int32
	for i, v := range luma {
		if k := (x + i + r.px) >> r.sx; k != last {
			last = k
			ra, ga, ba = shares(cb[k], cr[k])
		}
		d := dst[4*i : 4*i+4 : 4*i+4]
		l := int32(v)
		d[0], d[1], d[2], d[3] = clampTable[(l+ra)&1023], clampTable[(l+ga)&1023], clampTable[(l+ba)&1023], 255
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
