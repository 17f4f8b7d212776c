package scan

import (
	"math"
	"sort"
)

// hue is one colour that a set of pixels keeps to: its mean, the spread of
// lightness and of chroma about it, and the share of the pixels it takes.
type hue struct {
	mean   lab
	share  float64
	sl, sc float32
	member []int // pixels, by index into the plane
}

// hues sorts the given pixels of p into at most k colours (k-means from
// starts furthest apart), joins colours nearer than apart to each other and
// drops those of less than least of all pixels. Largest first.
func hues(p *labPlane, px []int, k int, apart float32, least float64) []hue {
	if len(px) == 0 {
		return nil
	}
	mean := startsApart(p, px, k, apart)
	group := make([]int, len(px))
	for round := 0; round < 8; round++ {
		sum, n := make([]lab, len(mean)), make([]float32, len(mean))
		for j, i := range px {
			g := nearestLab(mean, p.at(i))
			group[j] = g
			sum[g], n[g] = sum[g].add(p.at(i)), n[g]+1
		}
		for g := range mean {
			if n[g] > 0 {
				mean[g] = sum[g].mul(1 / n[g])
			}
		}
	}
	to := joined(mean, apart)
	out := make([]hue, len(mean))
	for j, i := range px {
		g := to[group[j]]
		out[g].member = append(out[g].member, i)
	}
	var kept []hue
	for _, h := range out {
		h.share = float64(len(h.member)) / float64(len(px))
		if len(h.member) > 0 && h.share >= least {
			h.measure(p)
			kept = append(kept, h)
		}
	}
	sort.SliceStable(kept, func(i, j int) bool { return kept[i].share > kept[j].share })
	return kept
}

// startsApart picks the first pixel, then again and again the one furthest
// from all picked, while any is further than apart.
func startsApart(p *labPlane, px []int, k int, apart float32) []lab {
	mean := []lab{p.at(px[len(px)/2])}
	far := make([]float32, len(px))
	for j, i := range px {
		far[j] = mean[0].dist(p.at(i))
	}
	for len(mean) < k {
		best := 0
		for j := range far {
			if far[j] > far[best] {
				best = j
			}
		}
		if far[best] < apart {
			break
		}
		c := p.at(px[best])
		mean = append(mean, c)
		for j, i := range px {
			far[j] = min(far[j], c.dist(p.at(i)))
		}
	}
	return mean
}

func nearestLab(mean []lab, c lab) int {
	g, d := 0, float32(math.Inf(1))
	for k, m := range mean {
		if e := m.dist(c); e < d {
			g, d = k, e
		}
	}
	return g
}

// joined maps each colour to the first one it is nearer than apart to.
func joined(mean []lab, apart float32) []int {
	to := make([]int, len(mean))
	for i := range mean {
		to[i] = i
		for j := 0; j < i; j++ {
			if to[j] == j && mean[i].dist(mean[j]) < apart {
				to[i] = j
				break
			}
		}
	}
	return to
}

// measure sets mean and spreads from the members; the spreads are 1.48 times
// the median absolute deviation, at least half a unit.
func (h *hue) measure(p *labPlane) {
	l, a, b := make([]float32, len(h.member)), make([]float32, len(h.member)), make([]float32, len(h.member))
	for j, i := range h.member {
		l[j], a[j], b[j] = p.l[i], p.a[i], p.b[i]
	}
	h.mean = lab{median(l), median(a), median(b)}
	for j, i := range h.member {
		c := p.at(i).sub(h.mean)
		l[j] = max(c.l, -c.l)
		a[j] = float32(math.Hypot(float64(c.a), float64(c.b)))
	}
	h.sl, h.sc = max(0.5, 1.48*median(l)), max(0.5, median(a))
}

// median sorts v and returns its middle; 0 for none.
func median(v []float32) float32 { return quantile(v, 0.5) }

// quantile sorts v and returns the value a share q of the way up; 0 for none.
func quantile(v []float32, q float64) float32 {
	if len(v) == 0 {
		return 0
	}
	sort.Slice(v, func(i, j int) bool { return v[i] < v[j] })
	return v[int(q*float64(len(v)-1)+0.5)]
}

// borderBand lists the pixels of p within d of the border of the picture.
func borderBand(p *labPlane, d int) []int {
	var px []int
	for y := 0; y < p.h; y++ {
		for x := 0; x < p.w; x++ {
			if x < d || y < d || x >= p.w-d || y >= p.h-d {
				px = append(px, y*p.w+x)
			}
		}
	}
	return px
}

// veiled is how far c is from the backing colour m when m may lie in a soft
// shadow: being darker by up to deep counts only a third, provided the
// backing is light enough to be seen in shadow at all. A shadow takes chroma
// down with the light, so chroma is compared at the darkened backing's own.
func veiled(c, m lab, deep float32) float32 {
	drop := m.l - c.l
	if drop <= 0 || m.l < 30 || deep == 0 {
		return c.dist(m)
	}
	s := min(drop, deep)
	keep := 1 - s/m.l
	d := lab{c.l - (m.l - s), c.a - m.a*keep, c.b - m.b*keep}
	d.l += -s / 3
	return float32(math.Sqrt(float64(d.l*d.l + d.a*d.a + d.b*d.b)))
}

// colourWord names a colour as one names a backing.
func colourWord(c lab) string {
	chroma := math.Hypot(float64(c.a), float64(c.b))
	switch {
	case chroma > 14 && c.l > 12:
		return "coloured"
	case c.l < 32:
		return "dark"
	case c.l > 78:
		return "light"
	}
	return "grey"
}
