package scan

// Turning a picture upright by its orientation (TIFF 6.0, tag 274). Planes are
// turned as they are kept, so a JPEG stays luma and chroma.
//
// With s(x, y) the stored and d(x, y) the shown picture of w × h pixels:
//
//	1 d(x,y) = s(x, y)          5 d(x,y) = s(y, x)
//	2 d(x,y) = s(w−1−x, y)      6 d(x,y) = s(y, w−1−x)
//	3 d(x,y) = s(w−1−x, h−1−y)  7 d(x,y) = s(h−1−y, w−1−x)
//	4 d(x,y) = s(x, h−1−y)      8 d(x,y) = s(h−1−y, x)

// turn returns r upright. Orientation 1 returns r itself.
func (r *raster) turn(orientation int) *raster {
	if orientation < 2 || orientation > 8 {
		return r
	}
	swap := orientation >= 5
	// Which stored axis runs backward.
	backX := orientation == 2 || orientation == 3 || orientation == 7 || orientation == 8
	backY := orientation == 3 || orientation == 4 || orientation == 6 || orientation == 7
	t := &raster{w: r.w, h: r.h, sx: r.sx, sy: r.sy, px: r.px, py: r.py}
	if backX {
		t.px = phase(r.w, r.px, r.sx)
	}
	if backY {
		t.py = phase(r.h, r.py, r.sy)
	}
	if swap {
		t.w, t.h, t.sx, t.sy, t.px, t.py = t.h, t.w, t.sy, t.sx, t.py, t.px
	}
	move := mover{swap, backX, backY}
	if r.rgba != nil {
		t.rgba = make([]byte, len(r.rgba))
		move.plane4(t.rgba, r.rgba, r.w, r.h)
		return t
	}
	t.y, t.yStride = move.plane(r.y, r.yStride, r.w, r.h)
	if r.cb != nil {
		cw, ch := (r.w+r.px-1)>>r.sx+1, (r.h+r.py-1)>>r.sy+1
		t.cb, t.cSpan = move.plane(r.cb, r.cSpan, cw, ch)
		t.cr, _ = move.plane(r.cr, r.cSpan, cw, ch)
	}
	return t
}

// phase is where the first pixel stands in its chroma cell after an axis of n
// pixels is reversed.
func phase(n, p int, s uint) int {
	cell := 1 << s
	return (cell - (n+p)%cell) % cell
}

// mover copies a plane with its axes exchanged or reversed.
type mover struct{ swap, backX, backY bool }

// tile is the side of the squares a plane is copied in when its axes are
// exchanged: small enough that both sides stay in the cache.
const tile = 128

func (m mover) plane(src []byte, stride, w, h int) ([]byte, int) {
	dst := make([]byte, w*h)
	if !m.swap {
		bands(h, func(y0, y1 int) {
			for y := y0; y < y1; y++ {
				s := src[m.storedY(y, h)*stride:][:w]
				d := dst[y*w : (y+1)*w]
				copy(d, s)
				if m.backX {
					reverse(d)
				}
			}
		})
		return dst, w
	}
	step := stride // from one pixel of a new row to the next
	if m.backY {
		step = -stride
	}
	bands(w, func(y0, y1 int) { // the new rows are the old columns
		for x0 := 0; x0 < h; x0 += tile {
			for y := y0; y < y1; y++ {
				s := m.storedY(x0, h)*stride + m.storedX(y, w)
				d := dst[y*h+x0 : y*h+min(x0+tile, h)]
				for i := range d {
					d[i] = src[s]
					s += step
				}
			}
		}
	})
	return dst, h
}

// plane4 is plane for pixels of four bytes without padding.
func (m mover) plane4(dst, src []byte, w, h int) {
	dw, dh := w, h
	step := 1 // in stored pixels, from one pixel of a new row to the next
	if m.backX {
		step = -1
	}
	if m.swap {
		dw, dh, step = h, w, w
		if m.backY {
			step = -w
		}
	}
	bands(dh, func(y0, y1 int) {
		for x0 := 0; x0 < dw; x0 += tile {
			for y := y0; y < y1; y++ {
				i, k := x0, y
				if m.swap {
					i, k = y, x0
				}
				s := 4 * (m.storedY(k, h)*w + m.storedX(i, w))
				for d := 4 * (y*dw + x0); d < 4*(y*dw+min(x0+tile, dw)); d += 4 {
					*(*[4]byte)(dst[d:]) = *(*[4]byte)(src[s:])
					s += 4 * step
				}
			}
		}
	})
}

func (m mover) storedX(x, w int) int {
	if m.backX {
		return w - 1 - x
	}
	return x
}

func (m mover) storedY(y, h int) int {
	if m.backY {
		return h - 1 - y
	}
	return y
}

func reverse(p []byte) {
	for i, k := 0, len(p)-1; i < k; i, k = i+1, k-1 {
		p[i], p[k] = p[k], p[i]
	}
}
