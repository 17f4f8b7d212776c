package scan

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
)

// Mask is a set of places on a scan, kept on squares of Step full scan pixels
// from the scan's (0,0). The zero Mask is empty. It is not changed once made.
type Mask struct {
	Width, Height int     // in squares
	Step          float64 // full scan pixels along one square
	on            []bool
}

// At reports whether p (full scan pixels) lies in the mask.
func (m *Mask) At(p geom.Pt) bool {
	if m == nil || m.Step <= 0 || !p.Finite() || p.X < 0 || p.Y < 0 {
		return false
	}
	x, y := p.X/m.Step, p.Y/m.Step
	return x < float64(m.Width) && y < float64(m.Height) && m.on[int(y)*m.Width+int(x)]
}

// Share is the share, 0 to 1, of the area within ring (full scan pixels,
// even-odd) that the mask covers; 0 for a ring that holds no square's centre.
func (m *Mask) Share(ring []geom.Pt) float64 {
	if m == nil || m.Step <= 0 || len(ring) < 3 {
		return 0
	}
	for _, p := range ring {
		if !p.Finite() {
			return 0
		}
	}
	in := rasterise(ring, m.Width, m.Height, m.Step)
	n, hit := 0, 0
	for i, v := range in.on {
		if v {
			n++
			if m.on[i] {
				hit++
			}
		}
	}
	if n == 0 {
		return 0
	}
	return float64(hit) / float64(n)
}

// Image returns the mask as a picture, opaque where it covers, one pixel per
// square: to be laid over the scan at Step.
func (m *Mask) Image() *image.Alpha {
	a := image.NewAlpha(image.Rect(0, 0, m.Width, m.Height))
	for i, v := range m.on {
		if v {
			a.Pix[i] = 255
		}
	}
	return a
}

const textLongest = 1800 // longer side of the picture print is read on

// TextMask tells where on the leaf there is writing, print or pictures, as far
// as it can be told: strokes that stand out sharply from what surrounds them,
// and areas in quite another colour than the paper. Soft stains and shadow
// are left out; a crease, tear or hard tide line may be taken in. img is a
// level of the pyramid whose pixels measure scale full scan pixels.
func TextMask(img *image.RGBA, scale float64, o Outline) *Mask {
	s := newLossScene(img, scale, o, LossOptions{Longest: textLongest})
	if s == nil {
		return new(Mask)
	}
	m := &Mask{Width: s.work.w, Height: s.work.h, Step: s.work.step}
	ink := s.strokes()
	if s.readPaper() && s.paper.share > 0 {
		for i, v := range s.solids().on {
			ink.on[i] = ink.on[i] || v
		}
	}
	clean := s.leaf.shrinkBy(math.Max(1, 0.4*s.mm)).and(ink)
	m.on = s.dropSpecks(clean).on
	return m
}

// strokes returns what is darker, or of clearly other chroma, than the mean of
// its surroundings within some millimetres.
func (s *lossScene) strokes() *bitmap {
	p := s.work
	r := max(3, int(2.5*s.mm))
	var mean [3][]float32
	in := make([]float32, len(p.l))
	for i, v := range s.leaf.on {
		if v {
			in[i] = 1
		}
	}
	n := boxBlurIn(in, p.w, p.h, r)
	for k, pl := range [3][]float32{p.l, p.a, p.b} {
		v := make([]float32, len(pl))
		for i := range pl {
			v[i] = pl[i] * in[i]
		}
		mean[k] = boxBlurIn(v, p.w, p.h, r)
	}
	m := newBitmap(p.w, p.h)
	for i, v := range s.leaf.on {
		if !v || n[i] <= 0 {
			continue
		}
		dl := mean[0][i]/n[i] - p.l[i]
		da, db := p.a[i]-mean[1][i]/n[i], p.b[i]-mean[2][i]/n[i]
		m.on[i] = dl > 9 || dl > -6 && hypot32(da, db) > 11
	}
	return m
}

// solids returns the areas far from the paper's colour.
func (s *lossScene) solids() *bitmap {
	m := newBitmap(s.work.w, s.work.h)
	for i, in := range s.leaf.on {
		m.on[i] = in && s.paper.smooth.at(i).dist(s.paper.at(i%m.w, i/m.w)) > 24
	}
	return m
}

// dropSpecks leaves out parts of less than a twentieth of a square millimetre.
func (s *lossScene) dropSpecks(m *bitmap) *bitmap {
	lab, parts := m.parts()
	out := newBitmap(m.w, m.h)
	for i, id := range lab {
		out.on[i] = id > 0 && float64(parts[id-1].n) >= max(2, 0.05*s.mm*s.mm)
	}
	return out
}
