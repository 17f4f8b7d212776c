package leafview

import (
	"encoding/binary"
	"image"
	"image/color"
	"math"

	"leafmend/mendplan/geom"
)

// mask is a picture of coverage, one byte a pixel, into which lines and areas
// of one colour are drawn before the colour is laid on once. Coverage is the
// greatest drawn, not the sum, so joints and crossings of translucent lines
// do not darken. Drawing costs the pixels touched; laying on looks only at
// the touched span of each touched row.
type mask struct {
	w, h     int
	pix      []uint8
	lo, hi   []int           // touched span of each row, hi exclusive; lo ≥ hi when clean
	top, end int             // touched rows, end exclusive
	clip     image.Rectangle // what is drawn outside is left out
	seen     Rect            // the same
	edges    []edge
	cross    []float64
	sum      []int32
}

// resize makes the mask w×h and clean, with nothing clipped.
func (m *mask) resize(w, h int) {
	m.clipTo(image.Rect(0, 0, w, h))
	if m.w == w && m.h == h {
		return
	}
	*m = mask{w: w, h: h, clip: m.clip, seen: m.seen, pix: make([]uint8, w*h), lo: make([]int, h), hi: make([]int, h), top: h,
		sum: make([]int32, w+2)}
	for y := range m.lo {
		m.lo[y] = w
	}
}

// touch notes that pixels x0…x1−1 of row y may be covered.
func (m *mask) touch(y, x0, x1 int) {
	m.lo[y], m.hi[y] = min(m.lo[y], x0), max(m.hi[y], x1)
	m.top, m.end = min(m.top, y), max(m.end, y+1)
}

// clipTo leaves out what is drawn outside r from now on.
func (m *mask) clipTo(r image.Rectangle) {
	m.clip = r
	m.seen = Rect{geom.Pt{X: float64(r.Min.X), Y: float64(r.Min.Y)}, geom.Pt{X: float64(r.Max.X), Y: float64(r.Max.Y)}}
}

// outside reports whether nothing within reach of the box can be seen.
func (m *mask) outside(b Rect, reach float64) bool { return !m.seen.Grow(reach).Meets(b) }

// put raises the coverage of one pixel, which may lie outside.
func (m *mask) put(x, y int, c uint8) {
	if x < m.clip.Min.X || x >= m.clip.Max.X || y < m.clip.Min.Y || y >= m.clip.Max.Y {
		return
	}
	if i := y*m.w + x; c > m.pix[i] {
		m.pix[i] = c
		m.lo[y], m.hi[y] = min(m.lo[y], x), max(m.hi[y], x+1)
		m.top, m.end = min(m.top, y), max(m.end, y+1)
	}
}

// line covers the segment a–b, width pixels wide, with blunt ends. It walks
// along the longer axis and lays a span across: the cost is its own ink.
func (m *mask) line(a, b geom.Pt, width float64) {
	if s, w := m.seen, width+1; a.X < s.Min.X-w && b.X < s.Min.X-w || a.X > s.Max.X+w && b.X > s.Max.X+w ||
		a.Y < s.Min.Y-w && b.Y < s.Min.Y-w || a.Y > s.Max.Y+w && b.Y > s.Max.Y+w {
		return
	}
	// Cut to the whole mask, not to the clip, so that a part drawn anew has
	// the very pixels of the whole.
	a, b, ok := clip(a, b, Rect{Max: geom.Pt{X: float64(m.w), Y: float64(m.h)}}.Grow(width+1))
	if !ok {
		return
	}
	d := b.Sub(a)
	n := d.Norm()
	if n < 1e-9 {
		return
	}
	if math.Abs(d.X) >= math.Abs(d.Y) {
		if d.X < 0 {
			a, b, d = b, a, d.Mul(-1)
		}
		m.walk(a.X, b.X, a.Y, d.Y/d.X, width/2*n/d.X, false)
		return
	}
	if d.Y < 0 {
		a, b, d = b, a, d.Mul(-1)
	}
	m.walk(a.Y, b.Y, a.X, d.X/d.Y, width/2*n/d.Y, true)
}

// walk steps from u0 to u1 along the major axis; the line's middle starts at
// v0 and rises by slope, half of it is reach wide. With swap, u is y.
func (m *mask) walk(u0, u1, v0, slope, reach float64, swap bool) {
	lowest, end := m.clip.Min.X, m.clip.Max.X
	if swap {
		lowest, end = m.clip.Min.Y, m.clip.Max.Y
	}
	for u := max(int(math.Floor(u0)), lowest); float64(u) < u1 && u < end; u++ {
		share := min(float64(u)+1, u1) - max(float64(u), u0)
		mid := v0 + (float64(u)+0.5-u0)*slope
		lo, hi := mid-reach, mid+reach
		for v := int(math.Floor(lo)); float64(v) < hi; v++ {
			c := uint8(255 * share * (min(float64(v)+1, hi) - max(float64(v), lo)))
			if swap {
				m.put(v, u, c)
			} else {
				m.put(u, v, c)
			}
		}
	}
}

// disc covers a disc of radius r about c.
func (m *mask) disc(c geom.Pt, r float64) { m.ring(c, r, r+1) }

// ring covers a circle of radius r about c whose line reaches width inward.
func (m *mask) ring(c geom.Pt, r, width float64) {
	if m.outside(Rect{c, c}, r+1) {
		return
	}
	for y := int(math.Floor(c.Y - r - 1)); float64(y) <= c.Y+r; y++ {
		for x := int(math.Floor(c.X - r - 1)); float64(x) <= c.X+r; x++ {
			d := math.Hypot(float64(x)+0.5-c.X, float64(y)+0.5-c.Y)
			cov := math.Min(r-d, d-(r-width)) + 0.5
			if cov > 0 {
				m.put(x, y, uint8(255*math.Min(cov, 1)))
			}
		}
	}
}

// polyline covers a line through pts, round at sharp turns and ends.
func (m *mask) polyline(pts []geom.Pt, closed bool, width float64) {
	n := segments(pts, closed)
	for i := range n {
		a, b := pts[i], pts[(i+1)%len(pts)]
		m.line(a, b, width)
		if width < 1.5 {
			continue // a joint would not be seen
		}
		if i+1 < n || closed {
			next := pts[(i+2)%len(pts)]
			if turnsSharply(a, b, next) {
				m.disc(b, width/2)
			}
		}
	}
	if n > 0 && !closed && width >= 1.5 {
		m.disc(pts[0], width/2)
		m.disc(pts[len(pts)-1], width/2)
	}
}

// turnsSharply reports whether a gap would open at b: above some 20 degrees.
func turnsSharply(a, b, c geom.Pt) bool {
	p, q := b.Sub(a), c.Sub(b)
	return p.Dot(q) < 0.94*p.Norm()*q.Norm()
}

// lay blends the colour over dst where the mask covers, times opacity and, if
// there is one, the pattern; then the mask is clean.
func (m *mask) lay(dst *image.RGBA, c color.RGBA, opacity float64, pat pattern) {
	m.layKeep(dst, c, opacity, pat)
	for y := m.top; y < m.end; y++ {
		if m.lo[y] < m.hi[y] {
			clear(m.pix[y*m.w+m.lo[y] : y*m.w+m.hi[y]])
		}
		m.lo[y], m.hi[y] = m.w, 0
	}
	m.top, m.end = m.h, 0
}

// layKeep is lay that keeps the mask for a second colour.
func (m *mask) layKeep(dst *image.RGBA, c color.RGBA, opacity float64, pat pattern) {
	alpha := uint32(math.Round(float64(c.A) * math.Max(0, math.Min(1, opacity))))
	if alpha == 0 {
		return
	}
	for y := m.top; y < m.end; y++ {
		if lo, hi := m.lo[y], m.hi[y]; lo < hi {
			m.layRow(dst, m.pix[y*m.w+lo:y*m.w+hi], lo, y, c, alpha, pat)
		}
	}
}

// layRow blends one row that starts at x; clear stretches are skipped eight
// pixels at a time.
func (m *mask) layRow(dst *image.RGBA, row []uint8, x, y int, c color.RGBA, alpha uint32, pat pattern) {
	out := dst.Pix[dst.PixOffset(x, y):]
	for i := 0; i < len(row); i++ {
		if row[i] == 0 {
			for i+8 <= len(row) && binary.LittleEndian.Uint64(row[i:]) == 0 {
				i += 8
			}
			if i >= len(row) || row[i] == 0 {
				continue
			}
		}
		a := uint32(row[i])
		if pat != nil {
			p := uint32(pat(x+i, y))
			if p == 0 {
				continue
			}
			a = a * p / 255
		}
		a = a * alpha / 255
		blend(out[4*i:4*i+3:4*i+3], c, a)
	}
}

// blend mixes the colour into an opaque pixel; a is 0…255.
func blend(p []uint8, c color.RGBA, a uint32) {
	_ = p[2]
	k := int32(a + a>>7) // 0…256, so that a full share gives the colour itself
	p[0] = uint8(int32(p[0]) + (int32(c.R)-int32(p[0]))*k>>8)
	p[1] = uint8(int32(p[1]) + (int32(c.G)-int32(p[1]))*k>>8)
	p[2] = uint8(int32(p[2]) + (int32(c.B)-int32(p[2]))*k>>8)
}

// clip cuts the segment a–b to r; ok is false when nothing is left. (The
// method of parametric cutting by the four sides, Liang and Barsky, 1984.)
func clip(a, b geom.Pt, r Rect) (p, q geom.Pt, ok bool) {
	d := b.Sub(a)
	t0, t1 := 0.0, 1.0
	for _, side := range [4][2]float64{
		{-d.X, a.X - r.Min.X}, {d.X, r.Max.X - a.X}, {-d.Y, a.Y - r.Min.Y}, {d.Y, r.Max.Y - a.Y},
	} {
		switch run, gap := side[0], side[1]; {
		case run == 0 && gap < 0:
			return a, b, false
		case run < 0:
			t0 = math.Max(t0, gap/run)
		case run > 0:
			t1 = math.Min(t1, gap/run)
		}
	}
	// Written so that a segment that is not a number is cut away whole.
	if !(t0 <= t1) || !d.Finite() {
		return a, b, false
	}
	return a.Lerp(b, t0), a.Lerp(b, t1), true
}
