package scan

import "math"

// paperColour is the colour of the leaf's paper as it varies over the leaf,
// kept on a coarse plane.
type paperColour struct {
	coarse   *labPlane
	hue      localHue
	share    float64 // of the leaf that is bare paper
	mean     lab     // over the whole leaf
	noise    float32 // usual colour difference of bare paper from its surroundings
	offNoise float32 // the same for offHue
	k        float64 // working pixel in coarse pixels
	smooth   *labPlane
}

func (q *paperColour) at(x, y int) lab {
	return q.hue.at(coarseIndex(q.coarse, x, y, q.k))
}

// readPaper learns the paper's colour from the leaf. Where no one colour takes
// a third of it, as on a printed cover, the mean of whatever is near stands
// for the paper, its share is nought and what is seen inside is less sure. It
// reports false when nothing of the leaf can be read.
func (s *lossScene) readPaper() bool {
	c := s.work.shrink(coarseLongest)
	q := &paperColour{coarse: c, k: s.work.step / c.step}
	inside := s.leaf.shrinkBy(1.5 * s.mm)
	var px []int
	for y := 0; y < c.h; y++ {
		for x := 0; x < c.w; x++ {
			wx, wy := int((float64(x)+0.5)/q.k), int((float64(y)+0.5)/q.k)
			if inside.get(wx, wy) {
				px = append(px, y*c.w+x)
			}
		}
	}
	hs := hues(c, px, 5, 9, 0.02)
	if len(hs) == 0 {
		return false
	}
	if q.share = hs[0].share; q.share < 0.33 {
		q.share = 0
		hs = []hue{{member: s.notBehind(c, px, q.k)}}
	}
	q.hue = spread(c, hs[0].member, max(5, max(c.w, c.h)/16))
	q.smooth, q.mean = smoothed(s.work), hs[0].mean
	var dev, off []float32
	for _, i := range hs[0].member {
		wx, wy := int((float64(i%c.w)+0.5)/q.k), int((float64(i/c.w)+0.5)/q.k)
		if j := wy*s.work.w + wx; j < len(s.work.l) && wx < s.work.w {
			dev = append(dev, q.smooth.at(j).dist(q.at(wx, wy)))
			off = append(off, offHue(q.smooth.at(j), q.at(wx, wy)))
		}
	}
	q.noise, q.offNoise = median(dev), median(off)
	if q.share == 0 {
		q.noise, q.offNoise = min(q.noise, 2), min(q.offNoise, 1) // a picture's changes are no noise
	}
	s.paper = q
	s.backing = s.unlikePaper(s.backing, 0.1)
	return true
}

// unlikePaper is those of the backing's colours that are not the paper's own, or
// that take more than a share most of what lies about the leaf: a little of
// the paper's colour there is rather a strip of another sheet, and would make
// holes of the leaf's stains.
func (s *lossScene) unlikePaper(all []backHue, most float64) []backHue {
	var out []backHue
	for _, h := range all {
		if h.share > most || s.paper.share == 0 || h.mean.dist(s.paper.mean) > 15 {
			out = append(out, h)
		}
	}
	return out
}

// notBehind is px, pixels of the coarse plane, without those that may be
// backing seen through the leaf.
func (s *lossScene) notBehind(c *labPlane, px []int, k float64) []int {
	var out []int
	for _, i := range px {
		if d, _ := s.behind(c.at(i), float64(i%c.w)/k, float64(i/c.w)/k); d > mostUnlike {
			out = append(out, i)
		}
	}
	if len(out) == 0 {
		return px
	}
	return out
}

// spread takes the mean of members near every pixel; where there is none
// near, the mean of all.
func spread(p *labPlane, members []int, r int) localHue {
	var pl [4][]float32
	for k := range pl {
		pl[k] = make([]float32, p.w*p.h)
	}
	var all lab
	for _, i := range members {
		pl[0][i], pl[1][i], pl[2][i], pl[3][i] = p.l[i], p.a[i], p.b[i], 1
		all = all.add(p.at(i))
	}
	all = all.mul(1 / float32(max(1, len(members))))
	for k := range pl {
		pl[k] = boxBlurIn(boxBlurIn(pl[k], p.w, p.h, r), p.w, p.h, r)
	}
	for i, n := range pl[3] {
		// a faint pull to the mean of all carries over places without members
		n += 1e-3
		pl[0][i] = (pl[0][i] + 1e-3*all.l) / n
		pl[1][i] = (pl[1][i] + 1e-3*all.a) / n
		pl[2][i] = (pl[2][i] + 1e-3*all.b) / n
	}
	return localHue{w: p.w, l: pl[0], a: pl[1], b: pl[2], weight: pl[3]}
}

// smoothed averages p over 3×3 pixels.
func smoothed(p *labPlane) *labPlane {
	return &labPlane{p.w, p.h, p.step, boxBlurIn(p.l, p.w, p.h, 1), boxBlurIn(p.a, p.w, p.h, 1), boxBlurIn(p.b, p.w, p.h, 1)}
}

// foreign returns the pixels of the leaf that are clearly not bare paper.
func (s *lossScene) foreign() *bitmap {
	q := s.paper
	t := max(8, 4*q.noise)
	m := newBitmap(s.work.w, s.work.h)
	for i, in := range s.leaf.on {
		if in {
			m.on[i] = q.smooth.at(i).dist(q.at(i%m.w, i/m.w)) > t
		}
	}
	return m
}

// offHue is how far the chroma of c is from that of the paper p in weaker
// light. Shadow, dirt and black ink keep to the paper's hue and have little
// of it; so do browning and stains, whose extra chroma along the paper's own
// warm direction is not counted.
func offHue(c, p lab) float32 {
	k := min(1, max(0, c.l/max(1, p.l)))
	da, db := c.a-p.a*k, c.b-p.b*k
	const wa, wb = 0.35, 0.94 // the direction in which paper browns
	if along := da*wa + db*wb; along > 0 {
		da, db = da-along*wa, db-along*wb
	}
	return float32(hypot32(da, db))
}

// strange returns the pixels of the leaf whose hue is not the paper's, and
// those much lighter than it.
func (s *lossScene) strange() *bitmap {
	q := s.paper
	t := max(5.5, 4*q.offNoise)
	up := max(8, 4*q.noise)
	m := newBitmap(s.work.w, s.work.h)
	for i, in := range s.leaf.on {
		if in {
			c, p := q.smooth.at(i), q.at(i%m.w, i/m.w)
			m.on[i] = offHue(c, p) > t || c.l-p.l > up
		}
	}
	return m
}

// likeBehind returns the pixels of the leaf that have the colour of the
// backing and are further from the paper's than from it, as seen on p: the
// working plane or its smoothed copy.
func (s *lossScene) likeBehind(p *labPlane) *bitmap { return s.likeAny(p, s.backing) }

// likeAny is likeBehind for some of the backing's colours.
func (s *lossScene) likeAny(p *labPlane, backing []backHue) *bitmap {
	q := s.paper
	m := newBitmap(s.work.w, s.work.h)
	for i, in := range s.leaf.on {
		if !in {
			continue
		}
		c, own := p.at(i), q.at(i%m.w, i/m.w)
		dp := c.dist(own)
		if dp < max(6, 3*q.noise) {
			continue
		}
		for k := range backing {
			h := &backing[k]
			d := veiled(c, h.at(float64(i%m.w), float64(i/m.w)), 22)
			if d < 0.5*dp && d < max(8, 2.5*h.sl) {
				m.on[i] = true
			}
		}
	}
	return m
}

func hypot32(a, b float32) float64 { return math.Hypot(float64(a), float64(b)) }
