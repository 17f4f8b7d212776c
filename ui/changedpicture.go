package ui

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"leafmend/mendplan"
	"leafmend/mendplan/geom"
)

// tracesOn draws what was traced on a side over a small picture of the scan
// there is now: by maps the earlier scan pixels to those now, k those to pixels
// of the small picture. Damages are drawn whole, the leaf's edge dashed, both
// light in a dark casing.
func tracesOn(img image.Image, leaf mendplan.Leaf, name mendplan.SideName, by geom.Affine, k float64) image.Image {
	if img == nil {
		return nil
	}
	out := image.NewRGBA(img.Bounds())
	draw.Draw(out, out.Rect, img, img.Bounds().Min, draw.Src)
	to := by.Then(geom.Scale(k, k))
	line := func(pts []geom.Pt, closed, dashed bool) {
		if closed && len(pts) > 2 {
			pts = append(append([]geom.Pt{}, pts...), pts[0])
		}
		for _, pass := range []struct {
			wide int
			c    color.RGBA
		}{{2, color.RGBA{18, 20, 24, 255}}, {1, color.RGBA{255, 186, 58, 255}}} {
			at := 0.0
			for i := 0; i+1 < len(pts); i++ {
				at = strokeOn(out, to.Apply(pts[i]), to.Apply(pts[i+1]), pass.wide, pass.c, dashed, at)
			}
		}
	}
	side := leaf.SideOf(name)
	line(side.Outline, true, true)
	line(side.TrueEdge, true, true)
	for _, d := range leaf.Damages {
		if d.Side == name {
			line(d.Points, d.Kind.Closed(), false)
			for _, f := range d.Forks {
				line(f, false, false)
			}
		}
	}
	return out
}

// strokeOn draws a straight line; at is how far along the whole line it
// begins, so that dashes run on. It returns where it ends.
func strokeOn(img *image.RGBA, a, b geom.Pt, wide int, c color.RGBA, dashed bool, at float64) float64 {
	long := a.Dist(b)
	if !a.Finite() || !b.Finite() || long > 1e5 {
		return at
	}
	steps := int(math.Ceil(2*long)) + 1
	for i := range steps + 1 {
		s := float64(i) / float64(steps)
		if dashed && math.Mod(at+s*long, 14) > 8 {
			continue
		}
		p := a.Lerp(b, s)
		x, y := int(math.Round(p.X)), int(math.Round(p.Y))
		for dy := -wide; dy <= wide; dy++ {
			for dx := -wide; dx <= wide; dx++ {
				if q := image.Pt(x+dx, y+dy); q.In(img.Rect) {
					img.SetRGBA(q.X, q.Y, c)
				}
			}
		}
	}
	return at + long
}

// geomScale is how many times larger a map makes lengths, on average.
func geomScale(a geom.Affine) float64 { return math.Sqrt(math.Abs(a.Det())) }
