package scan

import "math"

// refineLeaf follows the edge of the leaf on the working plane. Near the
// rough edge every pixel is compared with the colours seen just outside and
// just inside there, so that the backing may differ from side to side.
func refineLeaf(work, coarse *labPlane, rough *bitmap) *bitmap {
	const reach = 4.0 // rough pixels by which the rough edge may be wrong
	out := rough.not()
	dOut, dIn := rough.sqDist(), out.sqDist() // distance to the leaf, to the outside
	side := func(d []float32, lo, hi float64) []int {
		var px []int
		for i, v := range d {
			if s := math.Sqrt(float64(v)); s > lo && s <= hi {
				px = append(px, i)
			}
		}
		return px
	}
	ringW := max(6, float64(max(coarse.w, coarse.h))/40)
	bg := localHues(coarse, side(dOut, 2, 2+ringW))
	fg := localHues(coarse, side(dIn, 2, 2+ringW))
	ratio := likeBacking(work, coarse, dOut, dIn, reach, bg, fg)
	ratio = boxBlurIn(ratio, work.w, work.h, 1)
	k := work.step / coarse.step
	behind := newBitmap(work.w, work.h)
	for i, q := range ratio {
		behind.on[i] = q > 0.5
	}
	behind = behind.flood(outsideSeeds(work, coarse, dOut, k, reach))
	leaf := behind.not()
	return leaf.keepLargest().fillHoles()
}

// outsideSeeds lists pixels of work that surely show the backing.
func outsideSeeds(work, coarse *labPlane, dOut []float32, k, reach float64) []int {
	var s []int
	for y := 0; y < work.h; y++ {
		for x := 0; x < work.w; x++ {
			j := coarseIndex(coarse, x, y, k)
			if float64(dOut[j]) > reach*reach {
				s = append(s, y*work.w+x)
			}
		}
	}
	if len(s) == 0 {
		s = newBitmap(work.w, work.h).rim()
	}
	return s
}

func coarseIndex(c *labPlane, x, y int, k float64) int {
	cx := min(int((float64(x)+0.5)*k), c.w-1)
	cy := min(int((float64(y)+0.5)*k), c.h-1)
	return cy*c.w + cx
}

// keepLargest returns the largest part of m.
func (m *bitmap) keepLargest() *bitmap {
	lab, parts := m.parts()
	best := part{}
	for _, b := range parts {
		if b.n > best.n {
			best = b
		}
	}
	if best.n == 0 {
		return m
	}
	return only(lab, m.w, m.h, best.id)
}

// likeBacking gives each pixel of work how much more it looks like what lies
// outside than like the leaf: 0 leaf, 1 backing, 0.5 undecided.
func likeBacking(work, coarse *labPlane, dOut, dIn []float32, reach float64, bg, fg []localHue) []float32 {
	k := work.step / coarse.step
	ratio := make([]float32, work.w*work.h)
	for y := 0; y < work.h; y++ {
		for x := 0; x < work.w; x++ {
			i, j := y*work.w+x, coarseIndex(coarse, x, y, k)
			switch {
			case float64(dOut[j]) > reach*reach:
				ratio[i] = 1
			case float64(dIn[j]) > reach*reach:
				ratio[i] = 0
			default:
				ratio[i] = lean(work.at(i), j, bg, fg)
			}
		}
	}
	return ratio
}

// lean weighs colour c at coarse pixel j between outside and leaf.
func lean(c lab, j int, bg, fg []localHue) float32 {
	db, which := float32(math.Inf(1)), -1
	df := float32(math.Inf(1))
	for k := range fg {
		if fg[k].weight[j] > 0.04 {
			df = min(df, c.dist(fg[k].at(j)))
		}
	}
	for k := range bg {
		if bg[k].weight[j] <= 0.04 {
			continue
		}
		m := bg[k].at(j)
		d := c.dist(m)
		// shadow is forgiven only where it could not be the leaf itself
		if v := veiled(c, m, 30); v < d && shadowTells(m, j, fg) {
			d = v
		}
		if d < db {
			db, which = d, k
		}
	}
	switch {
	case which < 0 && math.IsInf(float64(df), 1):
		return 0.5
	case which < 0:
		return 0
	case math.IsInf(float64(df), 1):
		return 1
	}
	return df / (db + df + 1e-6)
}

// shadowTells reports that no leaf colour here could pass for the backing m
// in shadow.
func shadowTells(m lab, j int, fg []localHue) bool {
	for k := range fg {
		if fg[k].weight[j] > 0.2 {
			f := fg[k].at(j)
			if veiled(f, m, 30) < 0.6*f.dist(m) {
				return false
			}
		}
	}
	return true
}

// localHue is one colour of a ring of pixels as it varies from place to place:
// its mean near every pixel of the plane and its share of the ring there.
type localHue struct {
	w      int
	l      []float32
	a, b   []float32
	weight []float32
}

func (h *localHue) at(i int) lab { return lab{h.l[i], h.a[i], h.b[i]} }

// localHues sorts the pixels px into colours and spreads each over its
// surroundings.
func localHues(p *labPlane, px []int) []localHue {
	var out []localHue
	r := max(5, max(p.w, p.h)/24)
	all := make([]float32, p.w*p.h)
	for _, i := range px {
		all[i] = 1
	}
	all = boxBlurIn(boxBlurIn(all, p.w, p.h, r), p.w, p.h, r)
	for _, h := range hues(p, px, 4, 10, 0.02) {
		l := localHue{w: p.w}
		var pl [4][]float32
		for k := range pl {
			pl[k] = make([]float32, p.w*p.h)
		}
		for _, i := range h.member {
			pl[0][i], pl[1][i], pl[2][i], pl[3][i] = p.l[i], p.a[i], p.b[i], 1
		}
		for k := range pl {
			pl[k] = boxBlurIn(boxBlurIn(pl[k], p.w, p.h, r), p.w, p.h, r)
		}
		for i, n := range pl[3] {
			if n > 1e-4*all[i] && n > 1e-6 {
				pl[0][i], pl[1][i], pl[2][i] = pl[0][i]/n, pl[1][i]/n, pl[2][i]/n
				pl[3][i] = n / all[i]
			} else {
				pl[3][i] = 0
			}
		}
		l.l, l.a, l.b, l.weight = pl[0], pl[1], pl[2], pl[3]
		out = append(out, l)
	}
	return out
}

// boxBlurIn averages over squares of (2r+1)² pixels, those outside left out.
func boxBlurIn(v []float32, w, h, r int) []float32 {
	tmp, out := make([]float32, len(v)), make([]float32, len(v))
	for y := 0; y < h; y++ {
		row, dst := v[y*w:(y+1)*w], tmp[y*w:(y+1)*w]
		sum, n := 0.0, 0
		for x := 0; x < min(r, w); x++ {
			sum, n = sum+float64(row[x]), n+1
		}
		for x := 0; x < w; x++ {
			if x+r < w {
				sum, n = sum+float64(row[x+r]), n+1
			}
			if x-r-1 >= 0 {
				sum, n = sum-float64(row[x-r-1]), n-1
			}
			dst[x] = float32(sum / float64(n))
		}
	}
	sum, n := make([]float64, w), 0
	addRow := func(y int, s float64) {
		for x, q := range tmp[y*w : (y+1)*w] {
			sum[x] += s * float64(q)
		}
		n += int(s)
	}
	for y := 0; y < min(r, h); y++ {
		addRow(y, 1)
	}
	for y := 0; y < h; y++ {
		if y+r < h {
			addRow(y+r, 1)
		}
		if y-r-1 >= 0 {
			addRow(y-r-1, -1)
		}
		for x := 0; x < w; x++ {
			out[y*w+x] = float32(sum[x] / float64(n))
		}
	}
	return out
}
