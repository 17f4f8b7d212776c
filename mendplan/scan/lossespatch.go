package scan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// patch is one thick spot on the leaf of another colour than its paper.
type patch struct {
	part
	m        *bitmap       // its pixels, on the whole working plane's window
	x0, y0   int           // of the window
	first    int           // its first pixel in the window
	n        int           // pixels
	colour   lab           // of its middle
	step     float32       // colour difference from the paper about it
	even     float32       // spread of colour within its middle
	hard     float64       // how sudden its edge is: 1 cut, 0 washed out
	radius   float64       // of the largest disc inside, mm
	round    float64       // share of it that the largest disc inside takes
	match    float64       // colour difference from what lies behind the leaf
	what     phrase.Phrase // in words, what that is
	nearEdge bool          // its core comes near the edge of the leaf
	touch    int           // of its pixels, those at the edge of the leaf
	alone    float64       // its share of what stands out from the paper there and hangs together with it
	crowd    float64       // share of its surroundings that is not bare paper
	tail     float64       // what hangs together with it though fainter, such as the rest of a stroke, for its own size
}

// patches finds the spots of set too thick to be strokes of a pen, and looks
// closer at those that want accepts by their place, colour, step and evenness.
func (s *lossScene) patches(set *bitmap, want func(*patch) bool) []patch {
	core := set.open(max(1.2, 0.35*s.mm))
	lab, parts := core.parts()
	var out []patch
	for _, b := range parts {
		if float64(b.n) < 0.7*s.mm*s.mm {
			continue
		}
		q := patch{part: b, nearEdge: s.reachesEdge(lab, b)}
		if s.middle(&q, lab) && want(&q) && s.regrow(&q, lab) {
			out = append(out, q)
		}
	}
	return out
}

// regrow settles the extent of the patch whose core is b: whatever about it is
// nearer its colour than the paper's.
func (s *lossScene) regrow(q *patch, labels []int32) bool {
	p, w, b := s.work, s.work.w, q.part
	pad := int(1.2*s.mm) + 4
	x0, y0 := max(0, b.x0-pad), max(0, b.y0-pad)
	x1, y1 := min(p.w-1, b.x1+pad), min(p.h-1, b.y1+pad)
	q.x0, q.y0 = x0, y0
	m := newBitmap(x1-x0+1, y1-y0+1)
	var seeds []int
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			i, j := y*w+x, (y-y0)*m.w+x-x0
			c := s.paper.smooth.at(i)
			m.on[j] = s.leaf.on[i] && c.dist(q.colour) < c.dist(s.paper.at(x, y))
			if labels[i] == int32(b.id) {
				m.on[j] = true
				seeds = append(seeds, j)
			}
		}
	}
	q.m = m.flood(seeds)
	_, parts := q.m.parts()
	if len(parts) == 0 {
		return false
	}
	q.first, q.n = parts[0].first, parts[0].n
	s.measure(q)
	s.company(q, seeds)
	return true
}

// measure sets what follows from a patch's pixels.
func (s *lossScene) measure(q *patch) {
	d := q.m.not().sqDist()
	best := float32(0)
	for j, v := range q.m.on {
		if x, y := q.at(j); v {
			best = max(best, d[j])
			if s.edge[y*s.work.w+x] <= 4 {
				q.touch++
			}
		}
	}
	q.round = 3.1416 * float64(best) / float64(q.n)
	q.radius = math.Sqrt(float64(best)) / s.mm
	q.hard = s.hardness(q, d)
}

// reachesEdge reports that the part b comes within a millimetre and a half of
// the edge of the leaf.
func (s *lossScene) reachesEdge(lab []int32, b part) bool {
	near := float32(2.25 * s.mm * s.mm)
	for y := b.y0; y <= b.y1; y++ {
		for x := b.x0; x <= b.x1; x++ {
			if i := y*s.work.w + x; lab[i] == int32(b.id) && s.edge[i] <= near {
				return true
			}
		}
	}
	return false
}

// company measures what else stands out about a patch: strokes that hang
// together with it, and marks near it.
func (s *lossScene) company(q *patch, seeds []int) {
	half, foreign := newBitmap(q.m.w, q.m.h), 0
	for j := range half.on {
		x, y := q.at(j)
		i := y*s.work.w + x
		c := s.paper.smooth.at(i)
		d := c.dist(s.paper.at(x, y))
		like := c.dist(q.colour) < d // ink about a light hole does not speak against it
		half.on[j] = s.leaf.on[i] && (q.m.on[j] || like && d > 0.5*q.step)
		if s.leaf.on[i] && !q.m.on[j] && like && d > min(8, 0.5*q.step) {
			foreign++
		}
	}
	q.tail = s.tailOf(q, seeds)
	q.alone = float64(q.n) / float64(max(1, half.flood(seeds).count()))
	q.crowd = float64(foreign) / float64(max(1, len(half.on)-q.n))
}

// tailOf measures what is joined to a patch by anything that stands out from
// the paper at all, beyond the soft rim any edge has.
func (s *lossScene) tailOf(q *patch, seeds []int) float64 {
	faint := newBitmap(q.m.w, q.m.h)
	least := max(0.2*q.step, 3*s.paper.noise)
	for j := range faint.on {
		x, y := q.at(j)
		i := y*s.work.w + x
		faint.on[j] = q.m.on[j] || s.leaf.on[i] && s.paper.smooth.at(i).dist(s.paper.at(x, y)) > least
	}
	far, n := q.m.sqDist(), 0
	for j, v := range faint.flood(seeds).on {
		if v && far[j] > 9 {
			n++
		}
	}
	return float64(n) / float64(q.n)
}

// middle sets colour, evenness and step from the core's pixels.
func (s *lossScene) middle(q *patch, labels []int32) bool {
	var l, a, b []float32
	var paper lab
	sm := s.paper.smooth
	stride := 1 + q.part.n/20000
	k := 0
	for y := q.part.y0; y <= q.part.y1; y++ {
		for x := q.part.x0; x <= q.part.x1; x++ {
			i := y*s.work.w + x
			if labels[i] != int32(q.id) {
				continue
			}
			if k++; k%stride == 0 {
				l, a, b = append(l, sm.l[i]), append(a, sm.a[i]), append(b, sm.b[i])
				paper = paper.add(s.paper.at(x, y))
			}
		}
	}
	if len(l) == 0 {
		return false
	}
	paper = paper.mul(1 / float32(len(l)))
	c, pl := make([]lab, len(l)), make([]float32, len(l))
	for i := range l {
		c[i] = lab{l[i], a[i], b[i]}
	}
	q.colour = lab{median(l), median(a), median(b)}
	for i := range c {
		pl[i] = c[i].dist(q.colour)
	}
	q.even = median(pl)
	q.step = q.colour.dist(paper)
	return true
}

// hardness compares narrow rings just outside and just inside the patch: at a
// cut or tear they differ by the whole step, round a stain by little of it.
// in is the squared distance of the patch's pixels to what is not patch.
func (s *lossScene) hardness(q *patch, in []float32) float64 {
	out := q.m.sqDist()
	var mi, mo [3][]float32
	put := func(to *[3][]float32, c lab) {
		to[0], to[1], to[2] = append(to[0], c.l), append(to[1], c.a), append(to[2], c.b)
	}
	for j, v := range out {
		x, y := q.at(j)
		i := y*s.work.w + x
		switch {
		case q.m.on[j] && in[j] > 1 && in[j] <= 6.3:
			put(&mi, s.work.at(i))
		case !q.m.on[j] && v > 2 && v <= 9 && s.leaf.on[i]:
			put(&mo, s.work.at(i))
		}
	}
	if len(mi[0]) == 0 || len(mo[0]) == 0 || q.step == 0 {
		return 0
	}
	mid := func(v *[3][]float32) lab { return lab{median(v[0]), median(v[1]), median(v[2])} }
	return float64(mid(&mi).dist(mid(&mo)) / q.step)
}

func (s *lossScene) patchArea(q *patch) float64 { return float64(q.n) / (s.mm * s.mm) }

// ring is the patch's outline in full scan pixels.
func (s *lossScene) patchRing(q *patch) []geom.Pt {
	ring := simplifyRing(q.m.contour(q.first), 0.6)
	for i, v := range ring {
		ring[i] = v.Add(geom.Pt{X: float64(q.x0), Y: float64(q.y0)}).Mul(s.work.step)
	}
	return ring
}

// inkColour is the colour of a leaf's writing or print.
type inkColour struct {
	c    lab
	have bool
}

// readInk takes the full colour of the strokes: the part of the thin foreign
// pixels that differs most from the paper.
func (s *lossScene) readInk() inkColour {
	f := s.foreign()
	thin := f.minus(f.open(max(1.2, 0.35*s.mm)).grow(2))
	var px []int
	var d []float32
	for i, v := range thin.on {
		if v && i%2 == 0 {
			px = append(px, i)
			d = append(d, s.paper.smooth.at(i).dist(s.paper.at(i%thin.w, i/thin.w)))
		}
	}
	if len(px) < 50 {
		return inkColour{}
	}
	t := quantile(append([]float32(nil), d...), 0.8)
	var l, a, b []float32
	for k, i := range px {
		if d[k] >= t {
			c := s.work.at(i)
			l, a, b = append(l, c.l), append(a, c.a), append(b, c.b)
		}
	}
	return inkColour{lab{median(l), median(a), median(b)}, true}
}
