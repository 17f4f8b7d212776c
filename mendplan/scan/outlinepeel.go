package scan

import "leafmend/mendplan/geom"

// peel takes away another sheet that peeks out beneath the leaf: a colour just
// within the edge that takes part of the way round and, counted as backing
// too, bares a new edge that is sharp nearly everywhere and makes about as
// good a rectangle. A browned edge is not sharp, a printed picture within
// margins has its margin all the way round.
func peel(p *labPlane, c candidate, grad []float32) candidate {
	d := c.mask.not().sqDist()
	r := float64(max(p.w, p.h)) / 40
	var px []int
	for i, v := range d {
		if s := float64(v); s > 2.3 && s < r*r {
			px = append(px, i)
		}
	}
	best, top := c, 0.0
	whole, was := c.mask.count(), rate(c.mask, grad)
	with := make([]float32, len(grad))
	for _, h := range hues(p, px, 6, 3.5, 0.06) {
		if h.share > 0.6 {
			continue
		}
		h.sl = 1 // a sheet of paper is even: no allowance for a weave
		dist := distances(p, h)
		for i, in := range c.mask.on {
			with[i] = 0
			if in {
				with[i] = dist[i]
			}
		}
		for _, t := range [...]float32{2.5, 4, 6} {
			m := partLeaf(p, with, t)
			if m == nil || float64(m.count()) < 0.55*float64(whole) || float64(m.count()) > 0.99*float64(whole) {
				continue
			}
			now := rate(m, grad)
			bare, firm, straight := bared(m, d, grad)
			if now < 0.8*was || bare < 0.12 || firm < 0.8 || straight < 0.6 {
				continue
			}
			if v := now * firm; v > top {
				best, top = candidate{m, c.backing, c.score}, v
			}
		}
	}
	return best
}

// bared is the share of m's contour that lies well within the old mask, whose
// squared distances to its outside are d, and the shares of that which are
// sharp and which lie on the straight sides fitted to m: a sheet's edge does,
// the torn edge of a loss with lining behind it does not.
func bared(m *bitmap, d, grad []float32) (bare, firm, straight float64) {
	ring := leafRing(m)
	n, sharp, on := 0, 0, 0
	te := fitTrueEdge(ring, float64(m.w), float64(m.h))
	quad := geom.Ring(te.corner[:])
	for _, q := range ring {
		i := min(int(q.Y), m.h-1)*m.w + min(int(q.X), m.w-1)
		if d[i] <= 9 {
			continue
		}
		n++
		if grad[i] > 4 {
			sharp++
		}
		if geom.DistToRing(q, quad) < 1.5 {
			on++
		}
	}
	if n == 0 {
		return 0, 0, 0
	}
	k := float64(n)
	return k / float64(len(ring)), float64(sharp) / k, float64(on) / k
}
