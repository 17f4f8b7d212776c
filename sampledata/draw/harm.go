package draw

import (
	"math"
	"math/rand/v2"
	"slices"
)

const (
	finestMM = 0.12 // segments of torn edges
	overMM   = 3.0  // how far cuts run out over the edge
)

// byPlace sorts edge losses along the perimeter, holes first.
func byPlace(losses []Loss) []Loss {
	out := slices.Clone(losses)
	slices.SortStableFunc(out, func(a, b Loss) int {
		switch {
		case a.From < b.From:
			return -1
		case a.From > b.From:
			return 1
		}
		return 0
	})
	return out
}

// lose settles a loss and takes it off the outline. Edge losses must come
// from the last along the perimeter to the first.
func (l *leaf) lose(spec Loss, rng *rand.Rand) {
	if spec.hole() {
		ring := rough(append(slices.Clone(spec.Via), spec.Via[0]), spec.Wander, finestMM, rng)
		l.losses = append(l.losses, loss{"hole", ring[:len(ring)-1], ring, ring})
		return
	}
	from, to := l.perimeter(spec.From), l.perimeter(spec.To)
	torn := rough(append(append([]Pt{from}, spec.Via...), to), spec.Wander, finestMM, rng)
	edge := l.edge(spec.From, spec.To)
	gone := loss{kind: "edge", torn: torn}
	if len(edge) > 2 {
		gone.kind = "corner"
	}
	gone.ring = between(torn, edge[1:len(edge)-1])
	out := make([]Pt, len(edge))
	for i, p := range edge {
		out[i] = l.outward(p, overMM)
	}
	gone.cut = between(torn, out)
	l.losses = append(l.losses, gone)
	l.splice(spec, torn)
}

// splice replaces a stretch of the outline by the torn edge.
func (l *leaf) splice(spec Loss, torn []Pt) {
	head := append(l.edge(0, spec.From), torn[1:len(torn)-1]...)
	// What follows To has been spliced already; it starts at the first
	// point of the present outline past To.
	at := slices.IndexFunc(l.outline, func(p Pt) bool { return l.onEdge(p) && l.distance(p) > spec.To })
	head = append(head, l.perimeter(spec.To))
	if at >= 0 {
		head = append(head, l.outline[at:]...)
	}
	l.outline = head
}

func (l *leaf) onEdge(p Pt) bool {
	const near = 1e-9
	return p.X < near || p.Y < near || p.X > l.spec.WidthMM-near || p.Y > l.spec.HeightMM-near
}

// distance is the inverse of perimeter.
func (l *leaf) distance(p Pt) float64 {
	const near = 1e-9
	w, h := l.spec.WidthMM, l.spec.HeightMM
	switch {
	case p.Y < near:
		return p.X
	case p.X > w-near:
		return w + p.Y
	case p.Y > h-near:
		return 2*w + h - p.X
	}
	return 2*(w+h) - p.Y
}

// outward moves a point of the true edge off the leaf.
func (l *leaf) outward(p Pt, by float64) Pt {
	const near = 1.0
	if p.X < near {
		p.X = -by
	}
	if p.Y < near {
		p.Y = -by
	}
	if p.X > l.spec.WidthMM-near {
		p.X = l.spec.WidthMM + by
	}
	if p.Y > l.spec.HeightMM-near {
		p.Y = l.spec.HeightMM + by
	}
	return p
}

// atEdge reports whether p lies within a millimetre of the true edge.
func (l *leaf) atEdge(p Pt) bool { return l.outward(p, 9) != p }

func (l *leaf) tear(kind string, t Tear, rng *rand.Rand) rip {
	r := rip{kind: kind, core: t.CoreMM, start: "blind", end: "blind"}
	r.seen = rough(t.Path, t.Wander, finestMM, rng)
	r.path = r.seen
	if p := t.Path[0]; l.atEdge(p) {
		r.start = "edge"
		r.path = append([]Pt{l.outward(p, overMM)}, r.path...)
	}
	if p := t.Path[len(t.Path)-1]; l.atEdge(p) {
		r.end = "edge"
		r.path = append(slices.Clone(r.path), l.outward(p, overMM))
	}
	r.gape(t, rng)
	for _, fork := range t.Forks {
		// A fork leaves the path where that really runs.
		near := slices.MinFunc(r.seen, func(a, b Pt) int {
			return int(math.Copysign(1, a.sub(fork[0]).length()-b.sub(fork[0]).length()))
		})
		branch := t
		branch.Path = append([]Pt{near}, fork[1:]...)
		branch.Forks, branch.OpenMM = nil, t.OpenMM*0.45
		r.forks = append(r.forks, l.tear(kind, branch, rng))
	}
	return r
}

// gape opens the rip: widest at the start, closing to a blind tip.
func (r *rip) gape(t Tear, rng *rand.Rand) {
	along := lengths(r.path)
	total := along[len(along)-1]
	seed := rng.Uint32()
	half := func(s float64, flank uint32) float64 {
		g := 0.5 * t.OpenMM
		if !t.BothEnds {
			g *= math.Pow(1-s/total, 0.8)
		}
		if r.end == "blind" {
			g *= min(1, (total-s)/4)
		}
		if r.start == "blind" {
			g *= min(1, s/4)
		}
		g *= 1 + 0.25*smooth(s/7, 0, seed)
		return g + 0.03 + 0.05*smooth(s/0.5, 9, seed+flank)*min(1, g/0.1)
	}
	r.left = beside(r.path, func(s float64) float64 { return half(s, 1) })
	r.right = beside(r.path, func(s float64) float64 { return -half(s, 2) })
	r.gap = between(r.left, r.right)
}

// ring follows the rim of a stain, drawn in by chance.
func (st Stain) ring(seed uint32) []Pt {
	out := make([]Pt, 180)
	for i := range out {
		d := polar(1, -2*float64(i))
		k := 1 + 0.22*layered(d.X*1.3, d.Y*1.3, 3, seed) + 0.05*smooth(d.X*9, d.Y*9, seed+7)
		out[i] = st.Centre.add(Pt{d.X * st.Radii.X * k, d.Y * st.Radii.Y * k})
	}
	return out
}
