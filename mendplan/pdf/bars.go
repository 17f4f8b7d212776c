package pdf

// barLength is the length of the check bars, exactly 100 mm. ±0.5 mm on it is
// what a printer may be off before its pages should not be cut from
// (common practice, no source).
const barLength = 100.0

// bars draws the two check bars: across with its left end at x, y, and
// upright with its lower end at ux, uy.
func (b *book) bars(x, y, ux, uy float64) {
	f := b.f
	b.line(black, 0.2)
	f.Line(x, y, x+barLength, y)
	f.Line(ux, uy, ux, uy-barLength)
	for i := range 11 {
		at, tick := float64(i)*10, 1.2
		if i%5 == 0 {
			tick = 2.4
		}
		f.Line(x+at, y, x+at, y-tick)
		f.Line(ux, uy-at, ux-tick, uy-at)
	}
	b.font("", 7)
	b.colour(black)
	b.text(x+barLength+2, y, "measure me: 100 mm across, ±0.5 mm")
	f.TransformBegin()
	f.TransformRotate(90, ux-3.2, uy-50)
	b.textCentre(ux-3.2, uy-50, "measure me: 100 mm upright")
	f.TransformEnd()
}
