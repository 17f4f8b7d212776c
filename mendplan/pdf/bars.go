package pdf

// barLength is the length of the check bars on paper, exactly 100 mm. ±0.5 mm
// on it is what a printer may be off before its pages should not be cut from
// (common practice, no source).
const barLength = 100.0

// bars draws the two check bars: across with its left end at x, y, and
// upright with its lower end at ux, uy. For a printer that is off they are
// drawn off the other way, as the templates are.
func (b *book) bars(x, y, ux, uy float64) {
	f := b.f
	kx, ky := b.opt.Printer.factors()
	b.line(black, 0.2)
	f.Line(x, y, x+barLength*kx, y)
	f.Line(ux, uy, ux, uy-barLength*ky)
	for i := range 11 {
		at, tick := float64(i)*10, 1.2
		if i%5 == 0 {
			tick = 2.4
		}
		f.Line(x+at*kx, y, x+at*kx, y-tick)
		f.Line(ux, uy-at*ky, ux-tick, uy-at*ky)
	}
	b.font("", 7)
	b.colour(black)
	b.text(x+barLength*kx+2, y, b.say("measure me: 100 mm across, ±0.5 mm"))
	f.TransformBegin()
	f.TransformRotate(90, ux-3.2, uy-50)
	b.textCentre(ux-3.2, uy-50, b.say("measure me: 100 mm upright"))
	f.TransformEnd()
}
