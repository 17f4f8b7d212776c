package scan

import (
	"image"
	"math"
	"strings"

	"leafmend/mendplan/geom"
)

// A look is what remains known of a picture when its file is gone: how light
// it was in 24 × 24 fields, one letter each. Two pages of one publication have
// one outline; their print tells them apart.
const (
	lookCells  = 24
	lookSigns  = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"
	lookPoints = 14 // looked at in a field, each way
)

// LookOf returns the look of a picture: 576 letters, kept with a scan so that
// [RefitPicture] can tell whether another file shows the same. A picture
// without extent has none.
func LookOf(img *image.RGBA) string {
	b := img.Bounds()
	if b.Empty() {
		return ""
	}
	fields := lookThrough(img, geom.Scale(float64(b.Dx()), float64(b.Dy())))
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, v := range fields {
		lo, hi = min(lo, v), max(hi, v)
	}
	var out strings.Builder
	for _, v := range fields {
		k := 0
		if hi > lo {
			k = int(math.Round(63 * (v - lo) / (hi - lo)))
		}
		out.WriteByte(lookSigns[k])
	}
	return out.String()
}

// lookThrough tells how light each field is, row by row; to maps the unit
// square to pixels of img. A field outside the picture is NaN.
func lookThrough(img *image.RGBA, to geom.Affine) []float64 {
	b := img.Bounds()
	out := make([]float64, 0, lookCells*lookCells)
	const n = lookCells * lookPoints
	for row := range lookCells {
		for col := range lookCells {
			sum := 0.0
			for k := range lookPoints * lookPoints {
				u, v := col*lookPoints+k%lookPoints, row*lookPoints+k/lookPoints
				p := to.Apply(geom.Pt{X: (float64(u) + 0.5) / n, Y: (float64(v) + 0.5) / n})
				x, y := int(math.Floor(p.X)), int(math.Floor(p.Y))
				if !image.Pt(x, y).Add(b.Min).In(b) {
					sum = math.NaN()
					break
				}
				i := img.PixOffset(x+b.Min.X, y+b.Min.Y)
				sum += 0.3*float64(img.Pix[i]) + 0.59*float64(img.Pix[i+1]) + 0.11*float64(img.Pix[i+2])
			}
			out = append(out, sum/(lookPoints*lookPoints))
		}
	}
	return out
}

// readLook returns the fields of a look; nil for what is none.
func readLook(s string) []float64 {
	if len(s) != lookCells*lookCells {
		return nil
	}
	out := make([]float64, len(s))
	for i := range len(s) {
		k := strings.IndexByte(lookSigns, s[i])
		if k < 0 {
			return nil
		}
		out[i] = float64(k)
	}
	return out
}

// Contrast that the fields inside a leaf need, in steps of a look, and how many
// of them, for their likeness to say anything.
const leastLookContrast, leastLookFields = 1.2, 24

// likeness correlates two looks where inside is true: 1 the same but for
// lighter and darker, 0 nothing in common. ok is false when either has too
// little contrast or too few fields are seen.
func likeness(a, b []float64, inside []bool) (r float64, ok bool) {
	var n, sa, sb float64
	use := func(i int) bool { return inside[i] && !math.IsNaN(a[i]) && !math.IsNaN(b[i]) }
	for i := range a {
		if use(i) {
			n, sa, sb = n+1, sa+a[i], sb+b[i]
		}
	}
	if n < leastLookFields {
		return 0, false
	}
	var aa, bb, ab float64
	for i := range a {
		if use(i) {
			x, y := a[i]-sa/n, b[i]-sb/n
			aa, bb, ab = aa+x*x, bb+y*y, ab+x*y
		}
	}
	if math.Sqrt(aa/n) < leastLookContrast || bb == 0 {
		return 0, false
	}
	return ab / math.Sqrt(aa*bb), true
}
