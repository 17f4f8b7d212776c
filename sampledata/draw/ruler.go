package draw

import "fmt"

// barMM is the strip of picture kept below the leaf for a ruler.
const barMM = 17

// barAt is the ruler's zero mark in the side frame.
func (l *leaf) barAt() Pt { return Pt{l.spec.WidthMM/2 - 50, l.spec.HeightMM + 8} }

// ruler lays a white strip of 100 mm with marks, figures and grey steps
// beside the leaf. It lies as the leaf lies.
func (l *leaf) ruler(f *face, strip, ink mask) {
	o, k := l.barAt(), f.frame.scale
	at := func(x, y float64) Pt { return f.frame.side(o.add(Pt{x, y})) }
	strip.fill([]Pt{at(-6, -1), at(134, -1), at(134, 11), at(-6, 11)})
	for i := range 101 {
		long := 2.2
		switch {
		case i%10 == 0:
			long = 4.4
		case i%5 == 0:
			long = 3.2
		}
		ink.stroke([]Pt{at(float64(i), 0), at(float64(i), long)}, 0.14*k)
	}
	p := &Sheet{frame: f.frame, inks: [2]mask{ink, ink}}
	for i := range 11 {
		p.set(style{roman, 6.5, 0}, o.X+float64(i)*10, o.Y+7.2, 0.5, fmt.Sprint(i))
	}
	p.set(style{roman, 5.5, 40}, o.X+50, o.Y+10, 0.5, "CENTIMETRES")
	for i, cover := range []uint8{40, 90, 140, 190, 240} {
		x := 106 + 5*float64(i)
		patch := newMask(f.w, f.h)
		patch.fill([]Pt{at(x, 1), at(x+5, 1), at(x+5, 9), at(x, 9)})
		for j, a := range patch.Pix {
			if a > 0 {
				ink.Pix[j] = max(ink.Pix[j], uint8(int(a)*int(cover)/255))
			}
		}
	}
}
