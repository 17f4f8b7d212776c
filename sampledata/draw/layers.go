package draw

import (
	"math"
	"math/rand/v2"
)

// layers holds, for one scan, where the paper is and what lies on it.
type layers struct {
	paper  mask // the leaf, holes and gaps taken off
	shadow mask // the leaf, blurred, for the shadow it throws
	core   mask // bared fibre along torn edges
	hairs  mask // single fibres that stand out over a torn edge
	brown  mask // foxing
	rust   mask
	tide   mask // stains
	dust   mask // specks on the backing
	bar    mask // ruler
	barInk mask
}

func (l *leaf) layers(f *face) *layers {
	var y layers
	for _, m := range []*mask{&y.paper, &y.core, &y.hairs, &y.brown, &y.rust, &y.tide, &y.dust, &y.bar, &y.barInk} {
		*m = newMask(f.w, f.h)
	}
	l.cutOut(f, y.paper)
	y.shadow = y.paper.blurred(int(0.7 * f.frame.scale))
	l.tornEdges(f, &y)
	l.foxing(f, y.brown)
	for i, h := range l.spec.Holes {
		rusty(f, y.rust, h, uint32(l.spec.Seed)+uint32(i))
	}
	for i, st := range l.spec.Stains {
		tide(f, y.tide, st, uint32(l.spec.Seed)+uint32(i))
	}
	l.dusty(f, y.dust)
	if f.ScaleBar {
		l.ruler(f, y.bar, y.barInk)
	}
	return &y
}

// cutOut lays the leaf down and takes off losses, gaps and pricks.
func (l *leaf) cutOut(f *face, m mask) {
	m.fill(f.frame.leafAll(l.trimmed()))
	gone := newMask(f.w, f.h)
	for _, loss := range l.losses {
		gone.fill(f.frame.leafAll(loss.cut))
	}
	for _, t := range l.tears {
		gone.fill(f.frame.leafAll(t.gap))
		for _, fork := range t.forks {
			gone.fill(f.frame.leafAll(fork.gap))
		}
	}
	for _, h := range l.spec.Holes {
		gone.disc(f.frame.leaf(h.At), 0.32*f.frame.scale)
	}
	for i, g := range gone.Pix {
		if g > 0 {
			m.Pix[i] = uint8(int(m.Pix[i]) * (255 - int(g)) / 255)
		}
	}
}

// trimmed is the leaf before it was harmed: cut edges, a little unsteady.
func (l *leaf) trimmed() []Pt {
	middle := Pt{l.spec.WidthMM / 2, l.spec.HeightMM / 2}
	var out []Pt
	for d := 0.0; d < l.around(); d++ {
		p := l.perimeter(d)
		shift := 0.09*smooth(d/9, 3, uint32(l.spec.Seed)) + 0.03*smooth(d/1.7, 5, uint32(l.spec.Seed))
		out = append(out, p.add(middle.sub(p).unit().times(shift)))
	}
	return out
}

// tornEdges bares the fibres: along a tear one flank on the front and the
// other on the back, as paper tears through its thickness at a slant.
func (l *leaf) tornEdges(f *face, y *layers) {
	for i, t := range l.tears {
		rng := l.chance(uint64(300 + i))
		for _, r := range append([]rip{t}, t.forks...) {
			seed := rng.Uint32()
			l.fringe(f, y, torn{r.left, 1, r.core, !f.back, seed}, rng)
			l.fringe(f, y, torn{r.right, -1, r.core, f.back, seed + 1}, rng)
		}
	}
	for i, loss := range l.losses {
		rng := l.chance(uint64(400 + i))
		side := -1.0 // of the paper: right of an edge loss
		if loss.kind == "hole" && clockwise(loss.ring) {
			side = 1
		}
		seed := rng.Uint32()
		l.fringe(f, y, torn{loss.torn, side, 0.9, !f.back, seed}, rng)
		l.fringe(f, y, torn{loss.torn, side, 0.5, f.back, seed + 9}, rng)
	}
}

// torn is one torn edge as one side shows it.
type torn struct {
	edge []Pt
	side float64 // on which of the edge the paper lies: 1 left, −1 right
	core float64 // width of bared fibre, mm
	wide bool    // this side shows the slant; the other hardly any
	seed uint32
}

// fringe bares a band along a torn edge and lets hairs stand out over it.
func (l *leaf) fringe(f *face, y *layers, t torn, rng *rand.Rand) {
	along := lengths(t.edge)
	total := along[len(along)-1]
	core := t.core
	if !t.wide {
		core = min(core, 0.16)
	}
	band := beside(t.edge, func(s float64) float64 {
		w := core * max(0.08, 0.55+0.55*layered(s/2.6, 1, 3, t.seed)+0.12*smooth(s/0.25, 2, t.seed))
		return t.side * w * min(1, min(s, total-s)/2.5)
	})
	y.core.fill(f.frame.leafAll(between(t.edge, band)))
	for s, i := 0.0, 0; s < total; s += 0.08 + 0.16*rng.ExpFloat64() {
		for i < len(along)-2 && along[i+1] < s {
			i++
		}
		hair, width := t.hair(i, rng)
		if l.covers(t.edge[i]) {
			y.hairs.stroke(f.frame.leafAll(hair), max(0.55, width*f.frame.scale))
		}
	}
}

// hair is one bent fibre rooted at point i of the edge; most are short.
func (t torn) hair(i int, rng *rand.Rand) (path []Pt, width float64) {
	long := min(1.6, 0.07+0.17*rng.ExpFloat64())
	lean, bend := 0.8*rng.NormFloat64(), 1.1*rng.NormFloat64()
	n := t.edge[i+1].sub(t.edge[i]).unit()
	out := n.left().times(-t.side)
	a := t.edge[i].add(out.times(-0.12))
	b := t.edge[i].add(out.times(long * 0.5)).add(n.times(long * 0.5 * lean))
	c := t.edge[i].add(out.times(long)).add(n.times(long * (lean + 0.4*bend)))
	return bezier(a, a.to(b, 0.6), b, c, 5), 0.018 + 0.02*rng.Float64()
}

// covers reports whether a point lies on the leaf's true rectangle.
func (l *leaf) covers(p Pt) bool {
	return p.X >= 0 && p.Y >= 0 && p.X <= l.spec.WidthMM && p.Y <= l.spec.HeightMM
}

func clockwise(ring []Pt) bool {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return sum > 0 // y runs down
}

// foxing scatters brown spots; they go through the leaf and are paler behind.
func (l *leaf) foxing(f *face, m mask) {
	rng := l.chance(2)
	for range int(260 * l.spec.Foxing) {
		c := Pt{rng.Float64() * l.spec.WidthMM, rng.Float64() * l.spec.HeightMM}
		r := 0.25 + 0.5*rng.ExpFloat64()
		a := (0.12 + 0.3*rng.Float64()) * min(1, 0.5+r/3)
		front, seed := rng.Float64() < 0.5, rng.Uint32()
		if front == f.back {
			a *= 0.5
		}
		if layered(c.X/50, c.Y/50, 2, uint32(l.spec.Seed)+77) < -0.05 {
			continue // spots come in drifts
		}
		m.splat(f.frame, c, 2.6*r, func(p Pt) float64 {
			d := p.sub(c).length() / (r * (1 + 0.5*layered(p.X*0.9, p.Y*0.9, 3, seed)))
			return a * math.Exp(-d*d)
		})
	}
}

func rusty(f *face, m mask, h Hole, seed uint32) {
	if h.RustMM == 0 {
		return
	}
	m.splat(f.frame, h.At, 4.5*h.RustMM, func(p Pt) float64 {
		d := p.sub(h.At)
		r := math.Hypot(d.X, d.Y*0.62) / (h.RustMM * (1 + 0.45*layered(p.X*0.8, p.Y*0.5, 3, seed)))
		return 0.85 * math.Exp(-r*r) * (0.8 + 0.3*layered(p.X*4, p.Y*4, 2, seed+5))
	})
}

// tide leaves a pale inside and a brown rim where the water stopped.
func tide(f *face, m mask, st Stain, seed uint32) {
	rim := st.ring(seed)
	m.splat(f.frame, st.Centre, 1.4*max(st.Radii.X, st.Radii.Y), func(p Pt) float64 {
		d := Pt{(p.X - st.Centre.X) / st.Radii.X, (p.Y - st.Centre.Y) / st.Radii.Y}
		turn := math.Mod(360+math.Atan2(d.Y, d.X)*180/math.Pi, 360) / 2
		i := int(turn) % len(rim)
		e := rim[i].to(rim[(i+1)%len(rim)], turn-math.Floor(turn)).sub(st.Centre)
		q := d.length() / math.Hypot(e.X/st.Radii.X, e.Y/st.Radii.Y)
		if q > 1 {
			o := (q - 1) / 0.01
			return 0.5 * math.Exp(-o*o)
		}
		outer, inner := (1-q)/0.045, (0.82-q)/0.05
		return 0.07 + 0.1*q*q*q + 0.33*math.Exp(-outer) + 0.08*math.Exp(-inner*inner)
	})
}

// dusty strews specks and lint over the backing.
func (l *leaf) dusty(f *face, m mask) {
	rng := l.chance(uint64(500) + uint64(len(f.name)))
	wide, high := float64(f.w)/f.frame.scale, float64(f.h)/f.frame.scale
	for range 240 {
		p := Pt{rng.Float64() * wide, rng.Float64() * high}.times(f.frame.scale)
		if rng.Float64() < 0.85 {
			m.disc(p, (0.03+0.04*rng.ExpFloat64())*f.frame.scale)
			continue
		}
		q := p.add(polar(f.frame.scale*(0.5+2*rng.Float64()), 360*rng.Float64()))
		r := q.add(polar(f.frame.scale*1.2, 360*rng.Float64()))
		m.stroke(bezier(p, p.to(q, 0.6), q, r, 8), max(0.7, 0.03*f.frame.scale))
	}
}
