package scan

import "math"

// bitmap is a set of pixels.
type bitmap struct {
	w, h int
	on   []bool
}

func newBitmap(w, h int) *bitmap { return &bitmap{w, h, make([]bool, w*h)} }

func (m *bitmap) get(x, y int) bool {
	return x >= 0 && y >= 0 && x < m.w && y < m.h && m.on[y*m.w+x]
}

func (m *bitmap) count() int {
	n := 0
	for _, v := range m.on {
		if v {
			n++
		}
	}
	return n
}

// not returns everything m lacks.
func (m *bitmap) not() *bitmap {
	r := newBitmap(m.w, m.h)
	for i, v := range m.on {
		r.on[i] = !v
	}
	return r
}

// minus returns m without n, and returns what both have.
func (m *bitmap) minus(n *bitmap) *bitmap {
	r := newBitmap(m.w, m.h)
	for i, v := range m.on {
		r.on[i] = v && !n.on[i]
	}
	return r
}

func (m *bitmap) and(n *bitmap) *bitmap {
	r := newBitmap(m.w, m.h)
	for i, v := range m.on {
		r.on[i] = v && n.on[i]
	}
	return r
}

// sqDist returns, per pixel, the squared distance in pixels to the nearest
// pixel of m: Felzenszwalb and Huttenlocher's exact transform, in two passes.
func (m *bitmap) sqDist() []float32 {
	const far = 1e12
	d := make([]float32, m.w*m.h)
	for x := 0; x < m.w; x++ { // columns: plain counting both ways
		run := float32(-1)
		for y := 0; y < m.h; y++ {
			run = countFrom(m.on[y*m.w+x], run)
			d[y*m.w+x] = run
		}
		run = -1
		for y := m.h - 1; y >= 0; y-- {
			run = countFrom(m.on[y*m.w+x], run)
			i := y*m.w + x
			if run >= 0 && (d[i] < 0 || run < d[i]) {
				d[i] = run
			}
		}
	}
	for i, v := range d {
		if v < 0 {
			d[i] = far
		} else {
			d[i] = v * v
		}
	}
	env := newEnvelope(m.w)
	for y := 0; y < m.h; y++ {
		env.row(d[y*m.w : (y+1)*m.w])
	}
	return d
}

func countFrom(on bool, run float32) float32 {
	switch {
	case on:
		return 0
	case run < 0:
		return -1
	}
	return run + 1
}

// envelope is the lower envelope of parabolas along one row.
type envelope struct {
	f, z []float64
	v    []int
}

func newEnvelope(n int) *envelope {
	return &envelope{make([]float64, n), make([]float64, n+1), make([]int, n)}
}

func (e *envelope) row(d []float32) {
	n, k := len(d), 0
	for i, v := range d {
		e.f[i] = float64(v)
	}
	e.v[0], e.z[0], e.z[1] = 0, math.Inf(-1), math.Inf(1)
	for q := 1; q < n; q++ {
		s := e.meet(q, e.v[k])
		for s <= e.z[k] {
			k--
			s = e.meet(q, e.v[k])
		}
		k++
		e.v[k], e.z[k], e.z[k+1] = q, s, math.Inf(1)
	}
	k = 0
	for q := 0; q < n; q++ {
		for e.z[k+1] < float64(q) {
			k++
		}
		x := float64(q - e.v[k])
		d[q] = float32(x*x + e.f[e.v[k]])
	}
}

func (e *envelope) meet(q, v int) float64 {
	return (e.f[q] + float64(q*q) - e.f[v] - float64(v*v)) / float64(2*(q-v))
}

// grow returns all pixels within r of m; shrink those further than r from
// what m lacks (the border of the picture does not shrink it).
func (m *bitmap) grow(r float64) *bitmap {
	d, g := m.sqDist(), newBitmap(m.w, m.h)
	for i, v := range d {
		g.on[i] = float64(v) <= r*r
	}
	return g
}

func (m *bitmap) shrinkBy(r float64) *bitmap {
	d, g := m.not().sqDist(), newBitmap(m.w, m.h)
	for i, v := range d {
		g.on[i] = float64(v) > r*r
	}
	return g
}

// open drops what no disc of radius r inside m covers.
func (m *bitmap) open(r float64) *bitmap { return m.shrinkBy(r).grow(r).and(m) }

// flood returns the pixels of m that are joined, by sides, to seeds in m.
func (m *bitmap) flood(seeds []int) *bitmap {
	r := newBitmap(m.w, m.h)
	stack := make([]int, 0, len(seeds))
	push := func(i int) {
		if m.on[i] && !r.on[i] {
			r.on[i] = true
			stack = append(stack, i)
		}
	}
	for _, s := range seeds {
		push(s)
	}
	for len(stack) > 0 {
		i := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		x := i % m.w
		if x > 0 {
			push(i - 1)
		}
		if x < m.w-1 {
			push(i + 1)
		}
		if i >= m.w {
			push(i - m.w)
		}
		if i+m.w < len(m.on) {
			push(i + m.w)
		}
	}
	return r
}

// rim lists the pixels along the border of the picture.
func (m *bitmap) rim() []int {
	var s []int
	for x := 0; x < m.w; x++ {
		s = append(s, x, (m.h-1)*m.w+x)
	}
	for y := 1; y < m.h-1; y++ {
		s = append(s, y*m.w, y*m.w+m.w-1)
	}
	return s
}

// fillHoles adds whatever m surrounds.
func (m *bitmap) fillHoles() *bitmap {
	n := m.not()
	return n.flood(n.rim()).not()
}

// part is one connected part of a bitmap.
type part struct {
	id, n          int     // its label and number of pixels
	cx, cy         float64 // mean of the pixels' indices
	x0, y0, x1, y1 int     // box, ends included
	first          int     // its first pixel, row by row
}

// parts labels the connected parts of m (joined by sides), 1 upwards, row by
// row of their first pixels.
func (m *bitmap) parts() ([]int32, []part) {
	lab := make([]int32, len(m.on))
	var out []part
	var stack []int
	for s, v := range m.on {
		if !v || lab[s] != 0 {
			continue
		}
		b := part{id: len(out) + 1, x0: m.w, y0: m.h, x1: -1, y1: -1, first: s}
		stack = append(stack[:0], s)
		lab[s] = int32(b.id)
		for len(stack) > 0 {
			i := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			x, y := i%m.w, i/m.w
			b.note(x, y)
			for _, j := range [4]int{i - 1, i + 1, i - m.w, i + m.w} {
				if j < 0 || j >= len(m.on) || (j == i-1 && x == 0) || (j == i+1 && x == m.w-1) {
					continue
				}
				if m.on[j] && lab[j] == 0 {
					lab[j] = int32(b.id)
					stack = append(stack, j)
				}
			}
		}
		b.cx /= float64(b.n)
		b.cy /= float64(b.n)
		out = append(out, b)
	}
	return lab, out
}

func (b *part) note(x, y int) {
	b.n++
	b.cx += float64(x)
	b.cy += float64(y)
	b.x0, b.x1 = min(b.x0, x), max(b.x1, x)
	b.y0, b.y1 = min(b.y0, y), max(b.y1, y)
}

// only returns the pixels labelled id.
func only(lab []int32, w, h, id int) *bitmap {
	m := newBitmap(w, h)
	for i, v := range lab {
		m.on[i] = v == int32(id)
	}
	return m
}
