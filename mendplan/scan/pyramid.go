package scan

// A pyramid is the picture at full size, half, quarter and so on. Level n has
// ceil(w/2ⁿ) × ceil(h/2ⁿ) pixels, each the mean of up to four of the level
// before; its pixel i covers scan pixels i·2ⁿ to (i+1)·2ⁿ.

// topSide is the longest side at which a pyramid ends.
const topSide = 256

// levelCount is the number of levels of a w × h picture.
func levelCount(w, h int) int {
	n := 1
	for max(w, h) > topSide {
		w, h, n = (w+1)/2, (h+1)/2, n+1
	}
	return n
}

// pyramid returns the levels above base, base first. buffer gives memory for
// a level's pixels.
func pyramid(base *raster, buffer func(n int) []byte) []*raster {
	levels := []*raster{base}
	for n := levelCount(base.w, base.h); len(levels) < n; {
		levels = append(levels, halve(levels[len(levels)-1], buffer))
	}
	return levels
}

// halve returns r at half size. Grey stays grey, everything else is RGBA.
func halve(r *raster, buffer func(n int) []byte) *raster {
	w, h := (r.w+1)/2, (r.h+1)/2
	if r.rgba == nil && r.cb == nil {
		half := &raster{w: w, h: h, y: buffer(w * h), yStride: w}
		bands(h, func(y0, y1 int) { halveGrey(half, r, y0, y1) })
		return half
	}
	half := newRGBA(w, h, buffer(4*w*h))
	switch {
	case r.rgba != nil:
		bands(h, func(y0, y1 int) { halveRGBA(half, r, y0, y1) })
	case r.sx == 1 && r.sy == 1 && r.px == 0 && r.py == 0:
		bands(h, func(y0, y1 int) { halve420(half, r, y0, y1) })
	default:
		bands(h, func(y0, y1 int) { halveRows(half, r, y0, y1) })
	}
	return half
}

func halveGrey(dst, src *raster, y0, y1 int) {
	for y := y0; y < y1; y++ {
		a, b := src.greyRows(y)
		d := dst.y[y*dst.yStride:][:dst.w]
		for x := range src.w / 2 {
			d[x] = byte((uint32(a[2*x]) + uint32(a[2*x+1]) + uint32(b[2*x]) + uint32(b[2*x+1]) + 2) >> 2)
		}
		if src.w&1 != 0 {
			d[dst.w-1] = byte((uint32(a[src.w-1]) + uint32(b[src.w-1]) + 1) >> 1)
		}
	}
}

// greyRows returns the two rows of luma under row y of the level above; at an
// odd end both are the last.
func (r *raster) greyRows(y int) (a, b []byte) {
	second := min(2*y+1, r.h-1)
	return r.y[2*y*r.yStride:][:r.w], r.y[second*r.yStride:][:r.w]
}

func halveRGBA(dst, src *raster, y0, y1 int) {
	for y := y0; y < y1; y++ {
		a := src.rgba[4*2*y*src.w:][:4*src.w]
		b := src.rgba[4*min(2*y+1, src.h-1)*src.w:][:4*src.w]
		meanRows(dst.rgba[4*y*dst.w:][:4*dst.w], a, b)
	}
}

// meanRows averages two rows of RGBA into one of half the length.
func meanRows(d, a, b []byte) {
	n := len(a) / 8 // whole pairs
	for x := range n {
		p, q := le.Uint64(a[8*x:]), le.Uint64(b[8*x:])
		le.PutUint32(d[4*x:], mean4(p, q))
	}
	if len(d) > 4*n { // odd column
		p, q := uint64(le.Uint32(a[8*n:])), uint64(le.Uint32(b[8*n:]))
		le.PutUint32(d[4*n:], mean4(p|p<<32, q|q<<32))
	}
}

// mean4 averages four RGBA pixels, two in each word, all channels at once:
// even and odd bytes are added in lanes of 16 bits.
func mean4(p, q uint64) uint32 {
	const lanes = 0x00ff00ff00ff00ff
	even := p&lanes + q&lanes
	odd := p>>8&lanes + q>>8&lanes
	e := uint32(even) + uint32(even>>32) + 0x00020002
	o := uint32(odd) + uint32(odd>>32) + 0x00020002
	return e>>2&0x00ff00ff | o<<6&0xff00ff00
}

// halve420 goes from 4:2:0 luma and chroma to RGBA in one step: four luma
// samples and their one chroma pair make a pixel. A level's memory begins at a
// word's bound.
func halve420(dst, src *raster, y0, y1 int) {
	for y := y0; y < y1; y++ {
		a, b := src.greyRows(y)
		cb, cr := src.cb[y*src.cSpan:][:dst.w], src.cr[y*src.cSpan:][:dst.w]
		d := words(dst.rgba[4*y*dst.w:][:4*dst.w])
		for x := range src.w / 2 {
			p, q := (*[2]byte)(a[2*x:]), (*[2]byte)(b[2*x:])
			l := int32(p[0]) + int32(p[1]) + int32(q[0]) + int32(q[1])
			d[x] = yccPixel((l+2)>>2, cb[x], cr[x])
		}
		if x := dst.w - 1; src.w&1 != 0 {
			l := int32(a[src.w-1]) + int32(b[src.w-1])
			d[x] = yccPixel((l+1)>>1, cb[x], cr[x])
		}
	}
}

// halveRows serves every other layout through rows of RGBA.
func halveRows(dst, src *raster, y0, y1 int) {
	a, b := make([]byte, 4*src.w), make([]byte, 4*src.w)
	for y := y0; y < y1; y++ {
		src.row(a, 0, 2*y, src.w)
		src.row(b, 0, min(2*y+1, src.h-1), src.w)
		meanRows(dst.rgba[4*y*dst.w:][:4*dst.w], a, b)
	}
}
