package draw

import (
	"image"
	"math"
	"runtime"
	"sync"
)

// tone is a colour as the scanner sees it, 0 to 255.
type tone [3]float64

// toward mixes in another colour.
func (c tone) toward(d tone, a float64) tone {
	return tone{c[0] + (d[0]-c[0])*a, c[1] + (d[1]-c[1])*a, c[2] + (d[2]-c[2])*a}
}

// times darkens or lightens.
func (c tone) times(k float64) tone { return tone{c[0] * k, c[1] * k, c[2] * k} }

// under dyes the colour with a stain of the given colour.
func (c tone) under(stain tone, a float64) tone {
	for i := range c {
		c[i] *= 1 - a*(1-stain[i]/255)
	}
	return c
}

var (
	keyInk   = tone{40, 36, 34}
	bared    = tone{247, 243, 233} // fibres that never saw light
	foxBrown = tone{176, 112, 62}
	rustRed  = tone{148, 76, 24}
	tideTan  = tone{158, 112, 62}
	grime    = tone{150, 138, 116}
)

// lamp is one scan in the making.
type lamp struct {
	leaf   *leaf
	face   *face
	other  *face // its print shows through
	layers *layers
	seed   uint32
}

// scan draws one side.
func (l *leaf) scan(i int) *image.RGBA {
	s := &lamp{leaf: l, face: l.faces[i], other: l.faces[1-i], layers: l.layers(l.faces[i])}
	s.seed = uint32(l.spec.Seed)*7 + uint32(i)*13
	img := image.NewRGBA(image.Rect(0, 0, s.face.w, s.face.h))
	var wg sync.WaitGroup
	workers := runtime.GOMAXPROCS(0)
	for w := range workers {
		wg.Go(func() {
			for y := w; y < s.face.h; y += workers {
				s.row(img, y)
			}
		})
	}
	wg.Wait()
	return img
}

func (s *lamp) row(img *image.RGBA, y int) {
	f := s.face
	for x := range f.w {
		i := y*f.w + x
		cover := float64(s.layers.paper.Pix[i]) / 255
		hair := float64(s.layers.hairs.Pix[i]) / 255
		p := f.frame.toLeaf(Pt{float64(x) + 0.5, float64(y) + 0.5})
		var c tone
		if cover < 1 {
			c = s.backing(x, y, p)
		}
		if cover > 0 {
			c = c.toward(s.paper(i, p), cover)
		}
		if hair > 0 {
			c = c.toward(bared.times(0.97), hair*(0.55-0.35*cover))
		}
		grain := 1.7 * unit(hash(int32(x), int32(y), s.seed+900))
		o := img.PixOffset(x, y)
		for k := range 3 {
			img.Pix[o+k] = uint8(max(0, min(255, c[k]+grain+0.5)))
		}
		img.Pix[o+3] = 255
	}
}

// backing is what lies behind, with the leaf's shadow on it.
func (s *lamp) backing(x, y int, p Pt) tone {
	f := s.face
	i := y*f.w + x
	var c tone
	switch f.Backing {
	case GreyFelt:
		n := 5*layered(p.X*1.1, p.Y*1.1, 2, s.seed+40) + 4*smooth(p.X*5+p.Y*2, p.Y*1.2-p.X, s.seed+41) + 2*layered(p.X/30, p.Y/30, 2, s.seed+42)
		c = tone{131 + n, 133 + n, 129 + n}
	default:
		n := 1.6*layered(p.X*1.6, p.Y*1.6, 2, s.seed+43) + 1.5*layered(p.X/40, p.Y/40, 2, s.seed+44)
		c = tone{25 + n, 25 + n, 28 + n}
	}
	c = c.toward(tone{150, 148, 144}, 0.4*float64(s.layers.dust.Pix[i])/255)
	dx, dy := int(0.5*f.frame.scale), int(0.7*f.frame.scale)
	if sx, sy := x-dx, y-dy; sx >= 0 && sy >= 0 {
		c = c.times(1 - 0.62*float64(s.layers.shadow.Pix[sy*f.w+sx])/255)
	}
	if b := float64(s.layers.bar.Pix[i]) / 255; b > 0 {
		c = c.toward(tone{236, 236, 232}.toward(tone{24, 24, 24}, float64(s.layers.barInk.Pix[i])/255), b)
	}
	return c
}

// paper is the leaf's own colour at a point, with all that is on it.
func (s *lamp) paper(i int, p Pt) tone {
	spec, y := s.leaf.spec, s.layers
	c := tone{float64(spec.Paper.R), float64(spec.Paper.G), float64(spec.Paper.B)}
	fibre := 0.6*smooth(p.X*2.2+p.Y*0.7, p.Y*6.5-p.X*0.4, s.seed+1) + 0.6*smooth(p.X*6.1, p.Y*1.9+p.X*0.8, s.seed+2)
	cloud := layered(p.X/5, p.Y/5, 3, s.seed+3)
	weave := smooth(p.X*9.3+p.Y*3.1, p.Y*9.9-p.X*2.7, s.seed+5)
	c = c.times(1 + 0.013*fibre + 0.008*weave + 0.012*cloud + 0.014*layered(p.X/60, p.Y/60, 2, s.seed+4))
	core := float64(y.core.Pix[i]) / 255
	c = s.aged(c, p, cloud)
	c = c.under(tideTan, float64(y.tide.Pix[i])/255)
	c = c.under(foxBrown, float64(y.brown.Pix[i])/255)
	c = c.under(keyInk, 0.045*s.through(p))
	c = s.printed(c, i, p, core)
	if core > 0 {
		c = c.toward(bared.times(1+0.02*fibre-0.03*max(0, cloud)), core*(0.86+0.12*fibre))
	}
	c = c.under(rustRed, float64(y.rust.Pix[i])/255)
	return c.times(s.relief(p))
}

// aged browns the edges and greys them with handling.
func (s *lamp) aged(c tone, p Pt, cloud float64) tone {
	w, h := s.leaf.spec.WidthMM, s.leaf.spec.HeightMM
	d := max(0, min(min(p.X, w-p.X), min(p.Y, h-p.Y)))
	d *= 1 + 0.4*layered(p.X/25, p.Y/25, 2, s.seed+8)
	c = c.under(tone{190, 150, 96}, 0.30*math.Exp(-d/5)+0.10*math.Exp(-d/28))
	dirt := max(0, layered(p.X/15, p.Y/15, 5, s.seed+9)-0.12) * (0.25 + math.Exp(-d/14))
	return c.under(grime, min(0.5, 0.5*dirt+0.02*max(0, cloud)))
}

// printed lays both inks down; worn where the core is bared.
func (s *lamp) printed(c tone, i int, p Pt, core float64) tone {
	key, spot := float64(s.face.key.Pix[i])/255, float64(s.face.spot.Pix[i])/255
	if key == 0 && spot == 0 {
		return c
	}
	full := (0.9 + 0.07*layered(p.X*3, p.Y*3, 2, s.seed+20) + 0.05*layered(p.X/20, p.Y/20, 2, s.seed+21)) * (1 - 0.9*core)
	ink := s.leaf.spec.Spot
	c = c.toward(tone{float64(ink.R), float64(ink.G), float64(ink.B)}, spot*full)
	return c.toward(keyInk, key*full)
}

// through is how much of the other side's print shows at a point.
func (s *lamp) through(p Pt) float64 {
	q := s.other.frame.leaf(p)
	r := int(max(1, 0.22*s.other.frame.scale))
	sum := 0
	for _, d := range [4]image.Point{{-r, 0}, {r, 0}, {0, -r}, {0, r}} {
		at := image.Point{int(q.X) + d.X, int(q.Y) + d.Y}
		if at.In(s.other.key.Rect) {
			o := s.other.key.PixOffset(at.X, at.Y)
			sum += max(int(s.other.key.Pix[o]), int(s.other.spot.Pix[o]))
		}
	}
	return float64(sum) / (4 * 255)
}

// relief is light and shade at the fold and at creases.
func (s *lamp) relief(p Pt) float64 {
	up := 1.0 // the fold stands up on the outer side, lies down on the inner
	if s.face.back {
		up = -1
	}
	d := p.X - s.leaf.spec.WidthMM/2
	light := 1 - up*0.045*d/2.2*math.Exp(-d*d/9)
	light *= 1 - (0.10+0.06*layered(p.Y/3, 0, 3, s.seed+30))*math.Exp(-math.Abs(d)/0.22)
	for k, cr := range s.leaf.spec.Creases {
		along := cr[1].sub(cr[0])
		n, rel := along.unit().left(), p.sub(cr[0])
		t := (rel.X*along.X + rel.Y*along.Y) / (along.X*along.X + along.Y*along.Y)
		if t < 0 || t > 1 {
			continue
		}
		e := rel.X*n.X + rel.Y*n.Y + 0.5*layered(t*8, 1, 3, s.seed+31+uint32(k))
		fade := min(1, 6*min(t, 1-t))
		light *= 1 + fade*(up*0.06*e/0.8*math.Exp(-e*e/1.6)+0.07*math.Exp(-e*e/0.02)-0.05*math.Exp(-e*e/0.3))
	}
	return light
}
