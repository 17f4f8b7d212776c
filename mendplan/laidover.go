package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
)

// LaidOver returns the leaf with its back laid over its front by over, which
// maps back scan pixels to front scan pixels, mirrored: what package scan
// found from the outlines, or the user put right by hand. It replaces what the
// true edges of both sides say about where the back lies. A map that cannot be
// undone or is not a mirror is refused.
func (l Leaf) LaidOver(over geom.Affine) (Leaf, bool) {
	if !mirrors(over) {
		return l, false
	}
	l.BackOver = []float64{over.A, over.B, over.C, over.D, over.E, over.F}
	return l, true
}

// NotLaidOver returns the leaf with its back laid over its front by the true
// edges alone.
func (l Leaf) NotLaidOver() Leaf {
	l.BackOver = nil
	return l
}

// Over returns the map from back scan pixels to front scan pixels, mirrored,
// as recorded, or else as the true edges of both sides have it; ok is false
// when neither is known.
func (l Leaf) Over() (over geom.Affine, ok bool) {
	if over, ok = l.recordedOver(); ok {
		return over, true
	}
	front, _, f1 := FrameOf(l, Front)
	back, sheet, f2 := FrameOf(l, Back)
	if f1 != nil || f2 != nil {
		return geom.Affine{}, false
	}
	c := sheet.Corners
	p := [3]geom.Pt{back.ToScan(c[0]), back.ToScan(c[1]), back.ToScan(c[3])}
	q := [3]geom.Pt{front.ToScan(c[0]), front.ToScan(c[1]), front.ToScan(c[3])}
	from := geom.Affine{A: p[1].X - p[0].X, B: p[2].X - p[0].X, C: p[0].X, D: p[1].Y - p[0].Y, E: p[2].Y - p[0].Y, F: p[0].Y}
	to := geom.Affine{A: q[1].X - q[0].X, B: q[2].X - q[0].X, C: q[0].X, D: q[1].Y - q[0].Y, E: q[2].Y - q[0].Y, F: q[0].Y}
	back3, err := from.Inverse()
	if err != nil {
		return geom.Affine{}, false
	}
	over = back3.Then(to)
	return over, mirrors(over)
}

// recordedOver reads BackOver.
func (l Leaf) recordedOver() (geom.Affine, bool) {
	if len(l.BackOver) != 6 {
		return geom.Affine{}, false
	}
	b := l.BackOver
	over := geom.Affine{A: b[0], B: b[1], C: b[2], D: b[3], E: b[4], F: b[5]}
	return over, mirrors(over)
}

// mirrors reports whether a map of pixels is that of a back over its front:
// finite, mirrored, and of no odd size.
func mirrors(a geom.Affine) bool {
	for _, v := range []float64{a.A, a.B, a.C, a.D, a.E, a.F} {
		if math.IsNaN(v) || math.Abs(v) > 1e7 {
			return false
		}
	}
	return a.Det() < -1e-4
}

// laid returns the frame of a back that is laid over its front: the front's
// own, reached through the map.
func (f Frame) laid(over geom.Affine) (Frame, bool) {
	h := f.toMM
	f.toMM = [9]float64{
		h[0]*over.A + h[1]*over.D, h[0]*over.B + h[1]*over.E, h[0]*over.C + h[1]*over.F + h[2],
		h[3]*over.A + h[4]*over.D, h[3]*over.B + h[4]*over.E, h[3]*over.C + h[4]*over.F + h[5],
		h[6]*over.A + h[7]*over.D, h[6]*over.B + h[7]*over.E, h[6]*over.C + h[7]*over.F + h[8],
	}
	var ok bool
	f.toPx, ok = inverse(f.toMM)
	f.flips = true
	return f, ok
}
