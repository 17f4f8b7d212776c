package scan

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
)

const (
	followFinest = 16      // px/mm: a level finer than 400 ppi shows fibres rather than tears
	followReach  = 520     // level pixels to each side of the seed when nobody knows where the path will go
	followMost   = 3 << 20 // level pixels of a window; a longer stretch is followed on a coarser level
)

// FollowFrom makes a [Follower] seeded at from on the window and level of p
// that suit: so wide that all of to lie well inside, or some centimetres each
// way when none are named; not finer than a tear shows; and of a bounded
// number of pixels, so that a long stretch is followed on a coarser level. The
// window and the command line both choose by it. It is work for the
// background, and waits for a level that is still on its way.
func (p *Picture) FollowFrom(from geom.Pt, opt FollowOptions, to ...geom.Pt) *Follower {
	level := 0
	for opt.pxPerMM()/math.Ldexp(1, level) > followFinest && level < p.NumLevels()-1 {
		level++
	}
	box := followBox(from, to, opt)
	for ; ; level++ {
		per := float64(p.Level(level).Per)
		b := box
		if len(to) == 0 {
			b = b.Expand(followReach * per)
		}
		r := levelRect(b, per, p.Bounds())
		if r.Dx()*r.Dy() > followMost && level+1 < p.NumLevels() {
			continue
		}
		img := p.Region(r, level)
		origin := geom.Pt{X: float64(img.Rect.Min.X) * per, Y: float64(img.Rect.Min.Y) * per}
		f := NewFollower(img, origin, per, opt)
		f.From(from)
		return f
	}
}

// followBox holds from, what of to is a place, and room for the path to
// wander: two fifths of its way, at least two and a half millimetres.
func followBox(from geom.Pt, to []geom.Pt, opt FollowOptions) geom.Box {
	pts, far := []geom.Pt{from}, 0.0
	for _, q := range to {
		if q.Finite() {
			pts, far = append(pts, q), max(far, from.Dist(q))
		}
	}
	return geom.BoundsOf(pts).Expand(2.5*opt.pxPerMM() + 0.4*far)
}

// levelRect is b, cut to the picture, in pixels of a level.
func levelRect(b geom.Box, per float64, whole image.Rectangle) image.Rectangle {
	w, h := float64(whole.Dx()), float64(whole.Dy())
	return image.Rect(clampInt(b.Min.X, 0, whole.Dx())/int(per), clampInt(b.Min.Y, 0, whole.Dy())/int(per),
		int(math.Ceil(max(0, min(w, b.Max.X))/per)), int(math.Ceil(max(0, min(h, b.Max.Y))/per)))
}

// Reaches reports whether p (full scan pixels) lies in the follower's window:
// a path to a place beyond needs a follower of its own.
func (f *Follower) Reaches(p geom.Pt) bool {
	q := p.Sub(f.origin).Mul(1 / f.scale)
	return p.Finite() && q.X >= 0 && q.Y >= 0 && q.X <= float64(f.w) && q.Y <= float64(f.h)
}
