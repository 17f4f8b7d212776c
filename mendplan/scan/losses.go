package scan

import (
	"image"
	"math"
	"sort"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Kinds of [Proposal].
const (
	KindLoss       = "loss"        // material missing along one edge
	KindCornerLoss = "corner loss" // material missing about a corner of the true edge
	KindHole       = "hole"        // material missing inside the leaf
	KindEdgeTear   = "edge tear"   // a tear that opens to the backing
)

// Proposal is one damage the program thinks it sees. It is for a person to
// accept or not; nothing enters a job by itself. Places are full scan pixels.
type Proposal struct {
	Kind       string        // one of the Kind constants
	Polygon    []geom.Pt     // what is missing, clockwise as seen; nil for an edge tear
	Path       []geom.Pt     // an edge tear from its mouth to its tip; nil for the rest
	Confidence float64       // 0 to 1
	Why        phrase.Phrase // what speaks for it, in words for the user

	signs []float64 // what the confidence was weighed from
}

// LossOptions steer [ProposeLosses]. The zero value is a usable guess.
type LossOptions struct {
	PxPerMM float64 // full scan pixels per millimetre; 0 takes the leaf's longer side for 280 mm
	Longest int     // longer side, in pixels, of the picture worked on; 0 means 2400
}

// Least damages proposed. A conservator fills what is smaller with paste or
// leaves it (common practice, no source).
const (
	leastEdgeLoss = 2.5 // mm² missing at an edge
	leastHole     = 1.8 // mm² missing inside
	leastDepth    = 1.0 // mm missing inwards from an edge
	leastCorner   = 1.6 // mm missing inwards at a corner, which wear rounds
	leastTear     = 2.5 // mm of open tear
	leastBody     = 8.0 // mm² of a loss that counts as one of its own though a neck joins it to another
)

// ProposeLosses looks for what is missing within the true edge of o, on img,
// a level of the pyramid whose pixels measure scale full scan pixels: backing
// or lining seen at the edges and corners, backing or lining seen through
// holes, and open edge tears. Ink, stains and print are told from these by
// their strokes, soft edges and colour. o may have been corrected by hand.
// The most certain comes first. An outline of fewer than three points gives
// none.
func ProposeLosses(img *image.RGBA, scale float64, o Outline, opt LossOptions) []Proposal {
	s := newLossScene(img, scale, o, opt)
	if s == nil {
		return nil
	}
	var out []Proposal
	for _, p := range s.proposals() {
		if p.Confidence >= leastConfidence {
			out = append(out, p)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Confidence > out[j].Confidence })
	return out
}

// proposals are all that may be said, however uncertain.
func (s *lossScene) proposals() []Proposal {
	var out []Proposal
	var linings []patch
	if s.readPaper() {
		linings = s.linings()
		out = append(out, s.holes()...)
	}
	out = append(out, s.edgeLosses(linings)...)
	return s.settleTears(out, s.edgeTears())
}

// lossScene is what all seekers of losses share.
type lossScene struct {
	work    *labPlane
	mm      float64      // working pixels per millimetre
	leaf    *bitmap      // the material, holes filled
	ideal   *bitmap      // the leaf as it was
	corner  [4]geom.Pt   // of the true edge, in working pixels
	missing *bitmap      // ideal without leaf
	outer   []float32    // squared distance to the outside of ideal
	edge    []float32    // squared distance to the outside of the leaf
	open    *bitmap      // backing that hangs together with the outside, set by readSlits
	slit    *bitmap      // backing with leaf close by on both sides, set by readSlits
	shut    []float32    // squared distance to the outside of the leaf closed over its slits
	backing []backHue    // colours seen just outside the leaf
	paper   *paperColour // set by readPaper
	ink     inkColour    // of the writing, set by linings
	odd     *bitmap      // of another hue than the paper, set by linings
	lining  []lab        // colours of linings found at the edges
}

func newLossScene(img *image.RGBA, scale float64, o Outline, opt LossOptions) *lossScene {
	b := img.Bounds()
	if b.Dx() < 8 || b.Dy() < 8 || !(scale > 0) || math.IsInf(scale, 0) || len(o.Polygon) < 3 || !allFinite(o) {
		return nil
	}
	longest := opt.Longest
	if longest <= 0 {
		longest = workLongest
	}
	s := &lossScene{work: newLabPlane(img, scale, longest)}
	p := s.work
	s.mm = opt.PxPerMM / p.step
	if !(opt.PxPerMM > 0) || math.IsInf(opt.PxPerMM, 0) {
		bb := geom.BoundsOf(o.Polygon)
		s.mm = max(bb.Width(), bb.Height()) / 280 / p.step
	}
	s.leaf = rasterise(o.Polygon, p.w, p.h, p.step)
	ring := make([]geom.Pt, len(o.Polygon))
	for i, q := range o.Polygon {
		ring[i] = q.Mul(1 / p.step)
	}
	for i, q := range o.TrueEdge {
		s.corner[i] = q.Mul(1 / p.step)
	}
	s.ideal = rasterise(baseline(ring, s.corner), p.w, p.h, 1)
	s.missing = s.ideal.minus(s.leaf)
	s.outer, s.edge = s.ideal.not().sqDist(), s.leaf.not().sqDist()
	s.backing = outsideHues(p, s.leaf, s.ideal)
	return s
}

func allFinite(o Outline) bool {
	for _, q := range o.Polygon {
		if !q.Finite() {
			return false
		}
	}
	for _, q := range o.TrueEdge {
		if !q.Finite() {
			return false
		}
	}
	return true
}

// outsideHues sorts the colours within 4 % of the picture around the leaf.
func outsideHues(p *labPlane, leaf, ideal *bitmap) []backHue {
	d := leaf.sqDist()
	r := max(6, float64(max(p.w, p.h))*0.04)
	var px []int
	for i, v := range d {
		if x := float64(v); x > 9 && x < r*r && !ideal.on[i] && i%3 == 0 {
			px = append(px, i)
		}
	}
	var out []backHue
	for _, h := range hues(p, px, 4, 8, 0.04) {
		out = append(out, newBackHue(p, h))
	}
	return out
}

// ringOf is the outline of one part, in full scan pixels.
func (s *lossScene) ringOf(m *bitmap, first int) []geom.Pt {
	ring := simplifyRing(m.contour(first), 0.6)
	for i := range ring {
		ring[i] = ring[i].Mul(s.work.step)
	}
	return ring
}

// thickness is the radius, in pixels, of the largest disc inside the pixels
// labelled id, given squared distances to what is not labelled at all.
func thickness(lab []int32, d []float32, b part, w int) float64 {
	best := float32(0)
	for y := b.y0; y <= b.y1; y++ {
		for x := b.x0; x <= b.x1; x++ {
			if i := y*w + x; lab[i] == int32(b.id) {
				best = max(best, d[i])
			}
		}
	}
	return math.Sqrt(float64(best))
}
