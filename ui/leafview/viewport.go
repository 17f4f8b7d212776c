package leafview

import (
	"math"

	"leafmend/mendplan/geom"
)

// Limits of the view's scale in device pixels per scan pixel. Beyond them
// one sees either a speck or a single dot of colour.
const (
	MinScale = 1.0 / 256
	MaxScale = 64
)

// View maps scan pixels to device pixels: device = scan·Scale + Offset. Its
// zero value shows nothing; make one with [FitView].
type View struct {
	Scale  float64 // device pixels per scan pixel
	Offset geom.Pt // device position of the scan's origin
}

// Rect is an axis-parallel rectangle, Min above and left of Max.
type Rect struct{ Min, Max geom.Pt }

// RectOf returns the smallest rectangle around the points; of none it is
// empty at the origin.
func RectOf(pts ...geom.Pt) Rect {
	if len(pts) == 0 {
		return Rect{}
	}
	r := Rect{pts[0], pts[0]}
	for _, p := range pts[1:] {
		r.Min.X, r.Min.Y = math.Min(r.Min.X, p.X), math.Min(r.Min.Y, p.Y)
		r.Max.X, r.Max.Y = math.Max(r.Max.X, p.X), math.Max(r.Max.Y, p.Y)
	}
	return r
}

// W returns the width.
func (r Rect) W() float64 { return r.Max.X - r.Min.X }

// H returns the height.
func (r Rect) H() float64 { return r.Max.Y - r.Min.Y }

// Centre returns the middle.
func (r Rect) Centre() geom.Pt { return r.Min.Lerp(r.Max, 0.5) }

// Grow returns r moved outward by d on all sides.
func (r Rect) Grow(d float64) Rect {
	return Rect{geom.Pt{X: r.Min.X - d, Y: r.Min.Y - d}, geom.Pt{X: r.Max.X + d, Y: r.Max.Y + d}}
}

// Holds reports whether p lies in r or on its border.
func (r Rect) Holds(p geom.Pt) bool {
	return p.X >= r.Min.X && p.X <= r.Max.X && p.Y >= r.Min.Y && p.Y <= r.Max.Y
}

// Meets reports whether r and q share a point.
func (r Rect) Meets(q Rect) bool {
	return r.Min.X <= q.Max.X && q.Min.X <= r.Max.X && r.Min.Y <= q.Max.Y && q.Min.Y <= r.Max.Y
}

// Join returns the smallest rectangle around r and q.
func (r Rect) Join(q Rect) Rect { return RectOf(r.Min, r.Max, q.Min, q.Max) }

// FitView returns the view that shows r whole and centred in a window of w×h
// device pixels, with margin device pixels to spare on every side.
func FitView(r Rect, w, h, margin float64) View {
	rw, rh := math.Max(r.W(), 1), math.Max(r.H(), 1)
	aw, ah := math.Max(w-2*margin, 1), math.Max(h-2*margin, 1)
	return View{Scale: 1}.withScale(math.Min(aw/rw, ah/rh)).CentredOn(r.Centre(), w, h)
}

// ToDevice maps a scan position to device pixels.
func (v View) ToDevice(p geom.Pt) geom.Pt { return p.Mul(v.Scale).Add(v.Offset) }

// ToScan maps a device position to scan pixels; of the zero view it is the
// origin.
func (v View) ToScan(p geom.Pt) geom.Pt {
	if v.Scale == 0 {
		return geom.Pt{}
	}
	return p.Sub(v.Offset).Mul(1 / v.Scale)
}

// Visible returns what a window of w×h device pixels shows, in scan pixels.
func (v View) Visible(w, h float64) Rect {
	return RectOf(v.ToScan(geom.Pt{}), v.ToScan(geom.Pt{X: w, Y: h}))
}

// Panned returns v moved by d device pixels.
func (v View) Panned(d geom.Pt) View {
	v.Offset = v.Offset.Add(d)
	return v
}

// ZoomedAt returns v magnified by factor, with the scan point under the
// device position at kept where it is. At the limits of scale nothing moves,
// so zooming in and out by the same steps returns to the same place unless a
// limit was met on the way.
func (v View) ZoomedAt(at geom.Pt, factor float64) View {
	if v.Scale == 0 || !(factor > 0) {
		return v
	}
	under := v.ToScan(at)
	z := v.withScale(v.Scale * factor)
	z.Offset = at.Sub(under.Mul(z.Scale))
	return z
}

// CentredOn returns v with the scan point p in the middle of a window of w×h
// device pixels.
func (v View) CentredOn(p geom.Pt, w, h float64) View {
	v.Offset = geom.Pt{X: w / 2, Y: h / 2}.Sub(p.Mul(v.Scale))
	return v
}

// Kept returns v moved so that at least keep device pixels of a picture of
// size pw×ph scan pixels stay in a window of w×h device pixels: one can pan
// any edge of the picture to the middle, but never lose it.
func (v View) Kept(pw, ph, w, h, keep float64) View {
	v.Offset.X = keptAxis(v.Offset.X, pw*v.Scale, w, keep)
	v.Offset.Y = keptAxis(v.Offset.Y, ph*v.Scale, h, keep)
	return v
}

// keptAxis bounds the offset of a span of the given length in a window of w.
func keptAxis(off, length, w, keep float64) float64 {
	keep = math.Min(keep, math.Min(length, w))
	return math.Min(math.Max(off, keep-length), w-keep)
}

func (v View) withScale(s float64) View {
	v.Scale = math.Min(math.Max(s, MinScale), MaxScale)
	return v
}
