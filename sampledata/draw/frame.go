package draw

import "math"

// frame says where a side lies in its scan: it maps millimetres to pixels.
// Pixel coordinates are continuous: the first pixel covers 0 to 1, its
// middle is at 0.5.
type frame struct {
	scale    float64 // pixels per millimetre
	sin, cos float64
	origin   Pt      // of the side frame, pixels
	width    float64 // of the leaf, mm
	mirror   bool    // the back: leaf x runs against side x
}

// newFrame places a side whose middle lies at the middle given, in pixels,
// turned counter-clockwise as seen.
func newFrame(s Spec, middle Pt, turn float64, back bool) frame {
	f := frame{scale: s.PPI / 25.4, width: s.WidthMM, mirror: back}
	f.sin, f.cos = math.Sincos(-turn * math.Pi / 180)
	f.origin = middle.sub(f.turned(Pt{s.WidthMM / 2, s.HeightMM / 2}))
	return f
}

func (f frame) turned(p Pt) Pt {
	return Pt{(p.X*f.cos - p.Y*f.sin) * f.scale, (p.X*f.sin + p.Y*f.cos) * f.scale}
}

// side maps millimetres of the side frame to pixels.
func (f frame) side(p Pt) Pt { return f.origin.add(f.turned(p)) }

// leaf maps millimetres of the leaf frame to pixels.
func (f frame) leaf(p Pt) Pt {
	if f.mirror {
		p.X = f.width - p.X
	}
	return f.side(p)
}

// toLeaf maps pixels back to millimetres of the leaf frame.
func (f frame) toLeaf(p Pt) Pt {
	d := p.sub(f.origin).times(1 / f.scale)
	q := Pt{d.X*f.cos + d.Y*f.sin, d.Y*f.cos - d.X*f.sin}
	if f.mirror {
		q.X = f.width - q.X
	}
	return q
}

// leafAll maps a whole path from the leaf frame to pixels.
func (f frame) leafAll(path []Pt) []Pt {
	out := make([]Pt, len(path))
	for i, p := range path {
		out[i] = f.leaf(p)
	}
	return out
}
