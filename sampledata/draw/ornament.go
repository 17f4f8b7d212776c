package draw

import "math"

// Ornaments and pictures are drawn by rule and compass around a centre; sizes
// are millimetres, y down.

// frameRule prints a double border, thick and thin, inset from the page.
func (p *Sheet) frameRule(inset float64) {
	for i, w := range []float64{0.7, 0.2} {
		d := inset + float64(i)*1.4
		a, b := Pt{d, d}, Pt{p.W - d, p.H - d}
		p.line(w, a, Pt{b.X, a.Y}, b, Pt{a.X, b.Y}, a)
	}
	for _, c := range []Pt{{inset, inset}, {p.W - inset, inset}, {p.W - inset, p.H - inset}, {inset, p.H - inset}} {
		in := Pt{p.W / 2, p.H / 2}.sub(c)
		c = c.add(Pt{math.Copysign(4.2, in.X), math.Copysign(4.2, in.Y)})
		p.rosette(c, 2.4, 8, 0.18)
	}
}

// rule prints a swelled rule with a lozenge in its middle.
func (p *Sheet) rule(y, w float64) {
	x := p.W / 2
	for _, s := range []float64{-1, 1} {
		p.solid([]Pt{{x + s*2.6, y}, {x + s*w/4, y - 0.22}, {x + s*w/2, y}, {x + s*w/4, y + 0.22}})
	}
	p.solid([]Pt{{x, y - 1.1}, {x + 1.5, y}, {x, y + 1.1}, {x - 1.5, y}})
}

// waves prints rows of a running wave band.
func (p *Sheet) waves(x0, x1, y float64, rows int, width float64) {
	const long = 6.0
	for r := range rows {
		shift := float64(r%2) * long / 2
		for x := x0 + shift; x+long <= x1+0.01; x += long {
			yy := y + float64(r)*2.1
			p.line(width, bezier(Pt{x, yy}, Pt{x + long*0.3, yy + 2}, Pt{x + long*0.7, yy + 2}, Pt{x + long, yy}, 10)...)
		}
	}
}

// rosette prints a curve such as a geometric lathe engraves.
func (p *Sheet) rosette(c Pt, r float64, petals int, width float64) {
	path := make([]Pt, 0, 721)
	for i := range 721 {
		a := float64(i) / 2
		rr := r * (0.62 + 0.38*math.Cos(float64(petals)*a*math.Pi/180))
		path = append(path, c.add(polar(rr, a)))
	}
	p.line(width, path...)
	p.line(width, arc(c, r*1.12, 0, 360)...)
}

// guilloche prints nested rosettes, turned against each other.
func (p *Sheet) guilloche(c Pt, r float64, width float64) {
	for k := range 7 {
		path := make([]Pt, 0, 721)
		for i := range 721 {
			a := float64(i) / 2
			rr := r * (0.74 + 0.2*math.Cos((12*a+float64(k)*51.4)*math.Pi/180))
			path = append(path, c.add(polar(rr, a)))
		}
		p.line(width, path...)
	}
	p.line(width*2.4, arc(c, r*1.03, 0, 360)...)
	p.line(width, arc(c, r*0.5, 0, 360)...)
}

// sprig prints a laurel sprig from a foot in a direction.
func (p *Sheet) sprig(foot Pt, degrees, long float64) {
	for i := range 9 {
		t := float64(i) / 8
		at := foot.add(polar(long*t, degrees+18*t))
		for _, s := range []float64{-1, 1} {
			tip := at.add(polar(long*0.2*(1.1-0.5*t), degrees+18*t+s*38))
			mid := at.to(tip, 0.5)
			n := tip.sub(at).left().times(0.22)
			ring := bezier(at, mid.add(n), mid.add(n), tip, 8)
			p.solid(append(ring, bezier(tip, mid.sub(n), mid.sub(n), at, 8)...))
		}
	}
	stem := make([]Pt, 12)
	for i := range stem {
		t := float64(i) / 11
		stem[i] = foot.add(polar(long*t, degrees+18*t))
	}
	p.line(0.25, stem...)
}

// lyre prints the society's badge.
func (p *Sheet) lyre(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	for _, s := range []float64{-1, 1} {
		arm := bezier(at(s*0.05, 0.4), at(s*0.55, 0.35), at(s*0.42, 0), at(s*0.24, -0.12), 18)
		arm = append(arm, bezier(at(s*0.24, -0.12), at(s*0.12, -0.24), at(s*0.2, -0.46), at(s*0.36, -0.44), 14)[1:]...)
		p.line(0.042*h, arm...)
		p.line(0.03*h, arc(at(s*0.36, -0.39), 0.05*h, 90, 90-s*300)...)
	}
	p.line(0.035*h, at(-0.28, -0.27), at(0.28, -0.27))
	p.solid(bezier(at(-0.2, 0.5), at(-0.1, 0.36), at(0.1, 0.36), at(0.2, 0.5), 10))
	p.line(0.03*h, at(-0.14, 0.28), at(0.14, 0.28))
	for i := -2; i <= 2; i++ {
		p.line(0.011*h, at(float64(i)*0.06, -0.27), at(float64(i)*0.05, 0.28))
	}
}

// lighthouse prints a tower on a rock, with its beams and a calm sea.
func (p *Sheet) lighthouse(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	for i := range 26 {
		a := -8 + float64(i)*196/25
		if a > 42 && a < 138 {
			continue
		}
		o := at(0, -0.36)
		p.line(0.006*h, o.add(polar(0.13*h, a)), o.add(polar(h*(0.31+0.13*float64(i%2)), a)))
	}
	tower := []Pt{at(-0.06, -0.28), at(0.06, -0.28), at(0.115, 0.3), at(-0.115, 0.3)}
	p.line(0.008*h, append(tower, tower[0])...)
	for k := range 3 {
		y0, y1 := -0.2+0.18*float64(k), -0.11+0.18*float64(k)
		w := func(y float64) float64 { return 0.06 + (y+0.28)/0.58*0.055 }
		p.solid([]Pt{at(-w(y0), y0), at(w(y0), y0), at(w(y1), y1), at(-w(y1), y1)})
	}
	p.line(0.014*h, at(-0.095, -0.285), at(0.095, -0.285))
	p.line(0.008*h, at(-0.05, -0.29), at(-0.05, -0.42), at(0.05, -0.42), at(0.05, -0.29))
	p.line(0.006*h, at(0, -0.29), at(0, -0.42))
	p.solid(bezier(at(-0.075, -0.42), at(-0.05, -0.52), at(0.05, -0.52), at(0.075, -0.42), 10))
	p.solid(append(bezier(at(-0.34, 0.36), at(-0.2, 0.24), at(0.16, 0.26), at(0.36, 0.36), 16), at(0, 0.372)))
	for r := range 4 {
		y := 0.4 + 0.04*float64(r)
		p.waves(at(-0.58+0.06*float64(r), 0).X, at(0.58-0.06*float64(r), 0).X, at(0, y).Y, 1, 0.008*h)
	}
	for _, g := range []Pt{at(-0.36, -0.02), at(0.34, -0.08), at(0.28, 0.04)} {
		p.line(0.008*h, append(arc(g.add(Pt{-0.035 * h, 0}), 0.035*h, 150, 20), arc(g.add(Pt{0.035 * h, 0}), 0.035*h, 160, 30)...)...)
	}
}
