package draw

// Pictures for the advertisements of shops that never were.

// boot prints a laced boot.
func (p *Sheet) boot(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	ring := []Pt{at(-0.28, -0.5), at(0.06, -0.5)}
	ring = append(ring, bezier(at(0.06, -0.5), at(0.06, -0.1), at(0.06, 0.1), at(0.3, 0.16), 10)...)
	ring = append(ring, bezier(at(0.3, 0.16), at(0.5, 0.2), at(0.52, 0.3), at(0.5, 0.36), 8)...)
	ring = append(ring, at(-0.3, 0.36))
	ring = append(ring, bezier(at(-0.3, 0.36), at(-0.2, 0), at(-0.24, -0.2), at(-0.28, -0.5), 10)...)
	p.line(0.022*h, ring...)
	p.solid([]Pt{at(-0.32, 0.38), at(0.52, 0.38), at(0.5, 0.43), at(0.0, 0.43), at(-0.04, 0.5), at(-0.32, 0.5)})
	for i := range 6 {
		y := -0.42 + 0.09*float64(i)
		p.line(0.016*h, at(0.04, y), at(-0.08, y+0.05))
		p.line(0.016*h, at(-0.08, y), at(0.05, y+0.05))
	}
	p.line(0.012*h, bezier(at(0.2, 0.13), at(0.16, 0.2), at(0.2, 0.28), at(0.28, 0.35), 8)...)
}

// umbrella prints an open umbrella.
func (p *Sheet) umbrella(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	p.line(0.02*h, arc(at(0, 0), 0.5*h, 180, 0)...)
	for i := range 6 {
		x := -0.5 + float64(i)/6
		p.line(0.02*h, arc(at(x+1.0/12, 0), h/12, 180, 0)...)
	}
	for i := 1; i < 6; i++ {
		x := -0.5 + float64(i)/6
		p.line(0.01*h, bezier(at(x, 0), at(x, -0.2), at(x*0.7, -0.4), at(0, -0.5), 12)...)
	}
	p.line(0.02*h, at(0, -0.58), at(0, -0.5))
	hook := append([]Pt{at(0, -0.04)}, at(0, 0.42))
	p.line(0.025*h, append(hook, arc(at(0.07, 0.42), 0.07*h, 180, 350)...)...)
}

// teapot prints a pot with steam.
func (p *Sheet) teapot(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	body := append(bezier(at(-0.25, -0.12), at(-0.5, 0.15), at(-0.3, 0.36), at(-0.2, 0.36), 14), at(0.2, 0.36))
	body = append(body, bezier(at(0.2, 0.36), at(0.3, 0.36), at(0.5, 0.15), at(0.25, -0.12), 14)...)
	p.line(0.022*h, append(body, at(-0.25, -0.12))...)
	p.line(0.022*h, bezier(at(-0.24, -0.12), at(-0.2, -0.26), at(0.2, -0.26), at(0.24, -0.12), 14)...)
	p.solid(arc(at(0, -0.26), 0.045*h, 0, 350))
	p.line(0.03*h, bezier(at(-0.33, 0), at(-0.62, -0.06), at(-0.6, 0.3), at(-0.32, 0.24), 14)...)
	p.line(0.022*h, bezier(at(0.36, 0.16), at(0.5, 0.12), at(0.46, -0.06), at(0.6, -0.14), 12)...)
	p.line(0.022*h, bezier(at(0.3, 0), at(0.42, -0.02), at(0.4, -0.12), at(0.54, -0.16), 12)...)
	for i := range 3 {
		x := 0.58 + 0.07*float64(i)
		p.line(0.01*h, bezier(at(x, -0.22), at(x+0.08, -0.3), at(x-0.06, -0.38), at(x+0.03, -0.48), 12)...)
	}
	for i := range 7 {
		x := -0.24 + 0.08*float64(i)
		p.line(0.008*h, at(x, 0.02), at(x+0.05, 0.1), at(x, 0.18), at(x-0.05, 0.1), at(x, 0.02))
	}
}

// topHat prints a hat.
func (p *Sheet) topHat(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	crown := append(bezier(at(-0.26, 0.28), at(-0.22, 0), at(-0.26, -0.2), at(-0.32, -0.4), 10),
		bezier(at(-0.32, -0.4), at(-0.15, -0.48), at(0.15, -0.48), at(0.32, -0.4), 12)...)
	crown = append(crown, bezier(at(0.32, -0.4), at(0.26, -0.2), at(0.22, 0), at(0.26, 0.28), 10)...)
	p.solid(crown)
	p.solid(append(bezier(at(-0.56, 0.2), at(-0.3, 0.42), at(0.3, 0.42), at(0.56, 0.2), 18),
		bezier(at(0.56, 0.2), at(0.3, 0.5), at(-0.3, 0.5), at(-0.56, 0.2), 18)...))
}

// keyboard prints two octaves of keys.
func (p *Sheet) keyboard(x, y, w, h float64) {
	const white = 14
	step := w / white
	p.line(0.3, Pt{x, y}, Pt{x + w, y}, Pt{x + w, y + h}, Pt{x, y + h}, Pt{x, y})
	for i := 1; i < white; i++ {
		kx := x + float64(i)*step
		p.line(0.18, Pt{kx, y}, Pt{kx, y + h})
		if k := i % 7; k != 0 && k != 3 {
			p.solid([]Pt{{kx - step*0.28, y}, {kx + step*0.28, y}, {kx + step*0.28, y + h*0.6}, {kx - step*0.28, y + h*0.6}})
		}
	}
}

// horn prints a coiled post horn.
func (p *Sheet) horn(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	for k := range 3 {
		p.line(0.02*h, arc(at(0, 0), h*(0.3-0.035*float64(k)), 0, 360)...)
	}
	p.line(0.02*h, bezier(at(-0.3, 0.02), at(-0.3, -0.3), at(-0.1, -0.42), at(0.16, -0.5), 12)...)
	p.line(0.045*h, at(0.12, -0.49), at(0.19, -0.51))
	p.solid(append(bezier(at(0.24, 0.16), at(0.3, 0.3), at(0.34, 0.42), at(0.2, 0.56), 14),
		bezier(at(0.62, 0.5), at(0.5, 0.36), at(0.4, 0.3), at(0.29, 0.06), 14)...))
	p.line(0.02*h, at(0.18, 0.57), at(0.64, 0.49))
	for i := range 3 {
		p.line(0.03*h, at(-0.08+0.08*float64(i), -0.12), at(-0.08+0.08*float64(i), 0.12))
	}
}

// platform prints the players' places as seen from the gallery.
func (p *Sheet) platform(c Pt, r float64, rows []int) {
	for k, n := range rows {
		rr := r * (0.34 + 0.66*float64(k)/float64(len(rows)-1))
		p.line(0.16, arc(c, rr+2.3, 172, 8)...)
		for i := range n {
			a := 170 - 160*(float64(i)+0.5)/float64(n)
			q := c.add(polar(rr, a))
			p.line(0.24, arc(q, 1.05, 0, 360)...)
			if (i+k)%3 != 0 {
				p.solid(arc(q, 0.55, 0, 350))
			}
		}
	}
	p.solid([]Pt{c.add(Pt{-2, 1.6}), c.add(Pt{2, 1.6}), c.add(Pt{2, -1.2}), c.add(Pt{-2, -1.2})})
}

// boat prints a small boat under sail.
func (p *Sheet) boat(c Pt, h float64) {
	at := func(x, y float64) Pt { return c.add(Pt{x * h, y * h}) }
	p.solid(bezier(at(-0.4, 0.2), at(-0.3, 0.42), at(0.3, 0.42), at(0.44, 0.18), 14))
	p.line(0.02*h, at(0, 0.2), at(0, -0.5))
	p.line(0.014*h, append(bezier(at(0.03, -0.48), at(0.2, -0.3), at(0.32, -0.1), at(0.36, 0.12), 12), at(0.03, 0.12), at(0.03, -0.48))...)
	p.line(0.014*h, append(bezier(at(-0.03, -0.4), at(-0.1, -0.2), at(-0.2, 0), at(-0.32, 0.12), 12), at(-0.03, 0.12), at(-0.03, -0.4))...)
	p.waves(c.X-0.6*h, c.X+0.6*h, at(0, 0.42).Y, 2, 0.018*h)
}
