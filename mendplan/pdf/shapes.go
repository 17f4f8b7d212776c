package pdf

import (
	"codeberg.org/go-pdf/fpdf"

	"leafmend/mendplan/geom"
)

func moved(ring []geom.Pt, x, y float64) []fpdf.PointType {
	out := make([]fpdf.PointType, len(ring))
	for i, p := range ring {
		out[i] = fpdf.PointType{X: p.X + x, Y: p.Y + y}
	}
	return out
}

// polyline draws an open line.
func (b *book) polyline(pts []geom.Pt) {
	for i := 1; i < len(pts); i++ {
		b.f.Line(pts[i-1].X, pts[i-1].Y, pts[i].X, pts[i].Y)
	}
}

// hatched fills a rectangle with slanting lines.
func (b *book) hatched(x, y, w, h float64, c ink) {
	b.f.ClipRect(x, y, w, h, false)
	b.line(c, 0.15)
	for o := 0.0; o < w+h; o += 3 {
		b.f.Line(x+o, y, x+o-h, y+h)
	}
	b.f.ClipEnd()
}
