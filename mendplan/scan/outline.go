package scan

import (
	"image"
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Outline is where a leaf lies on a scan, as proposed. All places are in full
// scan pixels: x right, y down, (0,0) the outer corner of the first pixel.
type Outline struct {
	Polygon     []geom.Pt  // the material edge as it is, clockwise as seen, not repeated at the end
	TrueEdge    [4]geom.Pt // the edge as it was: head-left, head-right, tail-right, tail-left as displayed
	RotationDeg float64    // how far the leaf lies turned, degrees counter-clockwise as seen; −45 to 45
	Backing     string     // in words: "dark", "light", "grey", "coloured"
	Confidence  float64    // 0 to 1; below ½ it should be looked at closely
}

// OutlineOptions steer [FindOutline]. The zero value is the usual choice.
type OutlineOptions struct {
	Longest int // longer side, in pixels, of the picture worked on; 0 means 2400
}

// ErrNoLeaf is what [FindOutline] answers when nothing on the picture can be
// told from what lies behind it.
var ErrNoLeaf = phrase.Errorf("no leaf can be told from the backing: scan it on a backing that differs from the paper, with some of the backing showing all round, or trace the edge by hand")

const (
	coarseLongest = 360  // longer side of the picture on which the leaf is sought
	workLongest   = 2400 // longer side of the picture on which its edge is followed
)

// FindOutline proposes the outline of the leaf on img, a level of the pyramid
// whose pixels measure scale full scan pixels. It takes black, white, grey,
// felt and coloured backings, a soft shadow, a light that falls off, colour
// targets, rulers and other sheets beside the leaf or partly behind it, and
// a leaf that runs out of the picture on some sides. It is deterministic.
// A picture without a leaf that can be told from its backing gives ErrNoLeaf.
func FindOutline(img *image.RGBA, scale float64, opt OutlineOptions) (Outline, error) {
	if b := img.Bounds(); b.Dx() < 8 || b.Dy() < 8 || !(scale > 0) || math.IsInf(scale, 0) {
		return Outline{}, ErrNoLeaf
	}
	longest := opt.Longest
	if longest <= 0 {
		longest = workLongest
	}
	work := newLabPlane(img, scale, longest)
	coarse := work.shrink(coarseLongest)
	rough, ok := seekLeaf(coarse)
	if !ok {
		return Outline{}, ErrNoLeaf
	}
	mask := refineLeaf(work, coarse, rough.mask)
	ring := leafRing(mask)
	if len(ring) < 4 {
		return Outline{}, ErrNoLeaf
	}
	return outlineOf(work, ring, rough), nil
}

// leafRing is the contour of the largest part of m, in pixels of m.
func leafRing(m *bitmap) []geom.Pt {
	_, parts := m.parts()
	best := part{}
	for _, b := range parts {
		if b.n > best.n {
			best = b
		}
	}
	if best.n == 0 {
		return nil
	}
	return m.contour(best.first)
}

func outlineOf(work *labPlane, ring []geom.Pt, rough candidate) Outline {
	te := fitTrueEdge(ring, float64(work.w), float64(work.h))
	o := Outline{Backing: rough.backing, RotationDeg: te.rotation()}
	for _, p := range simplifyRing(ring, 0.7) {
		o.Polygon = append(o.Polygon, p.Mul(work.step))
	}
	for i, p := range te.corner {
		o.TrueEdge[i] = p.Mul(work.step)
	}
	o.Confidence = math.Round(100*rough.score*(0.5+0.5*te.support)) / 100
	return o
}
