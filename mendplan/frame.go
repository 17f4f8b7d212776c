package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
	"leafmend/mendplan/phrase"
)

// Frame leads from the scan pixels of one side to the leaf frame and back:
// first to millimetres by the calibration, then turned and moved so that the
// head-left corner of the side is the origin and its head runs along x, and
// for the back mirrored in x about the side's own width. Frames are made by
// [FrameOf]; the zero value maps everything to the origin.
type Frame struct {
	toMM, toPx [9]float64 // homographies, row by row: pixels to plane, plane to pixels
	origin     geom.Pt    // head-left corner in the plane, mm
	along      geom.Pt    // unit vector of the head in the plane
	width      float64    // of the side, mm: where the mirror stands
	mirrored   bool       // the side is the back, told by its own true edge
	flips      bool       // mapping turns the sense of rings
}

// FrameOf returns the frame of a side and the leaf's true edge in it. It is
// not known, and the problem says why, when the side is not calibrated, has
// no picture size, or its corners make no leaf. Millimetres are never
// guessed.
func FrameOf(leaf Leaf, side SideName) (Frame, Sheet, *Problem) {
	s := leaf.SideOf(side)
	fault := Problem{Kind: NoScale, Weight: Wrong, Leaf: leaf.ID, Side: side}
	if !s.Calibration.Known() {
		fault.Words = phrase.Of("The %s of leaf %s has no scale, so nothing on it can be measured.", sideWord(side), markOf(leaf))
		fault.Hint = phrase.Of("Calibrate it by a ruler, two points or the leaf's size.")
		return Frame{}, Sheet{}, &fault
	}
	corners, ok := cornersOf(s)
	if !ok {
		fault.Kind = NoScan
		fault.Words = phrase.Of("The %s of leaf %s has neither corners nor a picture size.", sideWord(side), markOf(leaf))
		fault.Hint = phrase.Of("Name its scan again.")
		return Frame{}, Sheet{}, &fault
	}
	f := Frame{toMM: planeOf(s.Calibration), mirrored: side == Back, flips: side == Back}
	if f.toPx, ok = inverse(f.toMM); !ok {
		fault.Words = phrase.Of("The scale of the %s of leaf %s maps the picture to nothing.", sideWord(side), markOf(leaf))
		fault.Hint = phrase.Of("Calibrate it again.")
		return Frame{}, Sheet{}, &fault
	}
	var quad [4]geom.Pt
	for i, c := range corners {
		quad[i] = project(f.toMM, c)
	}
	if !f.lay(quad) {
		fault.Kind = BadTrace
		fault.Words = phrase.Of("The four corners of the %s of leaf %s enclose no leaf, or are in the wrong order.", sideWord(side), markOf(leaf))
		fault.Hint = phrase.Of("Set them again: head-left, head-right, tail-right, tail-left.")
		return Frame{}, Sheet{}, &fault
	}
	if over, laid := leaf.recordedOver(); laid && side == Back {
		if front, _, missing := FrameOf(leaf, Front); missing == nil {
			if g, ok := front.laid(over); ok {
				f = g
			}
		}
	}
	for i, c := range corners {
		quad[i] = f.ToLeaf(c)
	}
	return f, newSheet(leaf, quad, side == Back), nil
}

// cornersOf returns the true corners of a side in scan pixels, else those of
// the picture.
func cornersOf(s Side) ([4]geom.Pt, bool) {
	if len(s.TrueEdge) == 4 {
		return [4]geom.Pt(s.TrueEdge), true
	}
	w, h := float64(s.Scan.Width), float64(s.Scan.Height)
	return [4]geom.Pt{{}, {X: w}, {X: w, Y: h}, {Y: h}}, w > 0 && h > 0
}

// lay finds origin, direction and width from the corners in the plane. The
// direction is the mean of all four edges, so one bad corner tilts it little.
func (f *Frame) lay(q [4]geom.Pt) bool {
	area := geom.Ring(q[:]).SignedArea()
	across := q[1].Sub(q[0]).Add(q[2].Sub(q[3]))
	down := q[3].Sub(q[0]).Add(q[2].Sub(q[1]))
	f.along = across.Add(geom.Pt{X: down.Y, Y: -down.X}).Unit()
	f.origin = q[0]
	f.width = q[1].Sub(q[0]).Dot(f.along)
	return area > 0 && f.width > 0 && f.along != geom.Pt{} && f.along.Finite()
}

// ToLeaf maps a point of the scan, in pixels, to the leaf frame, in mm.
func (f Frame) ToLeaf(p geom.Pt) geom.Pt {
	d := project(f.toMM, p).Sub(f.origin)
	q := geom.Pt{X: d.Dot(f.along), Y: f.along.Cross(d)}
	if f.mirrored {
		q.X = f.width - q.X
	}
	return q
}

// ToScan maps a point of the leaf frame, in mm, to scan pixels.
func (f Frame) ToScan(q geom.Pt) geom.Pt {
	if f.mirrored {
		q.X = f.width - q.X
	}
	p := f.origin.Add(f.along.Mul(q.X)).Add(geom.Pt{X: -f.along.Y, Y: f.along.X}.Mul(q.Y))
	return project(f.toPx, p)
}

// PathToLeaf maps points of the scan to the leaf frame in their order.
func (f Frame) PathToLeaf(px []geom.Pt) geom.Path {
	out := make(geom.Path, len(px))
	for i, p := range px {
		out[i] = f.ToLeaf(p)
	}
	return out
}

// RingToLeaf maps a closed line of the scan to the leaf frame; on the back
// its sense turns, as in a mirror.
func (f Frame) RingToLeaf(px []geom.Pt) geom.Ring { return geom.Ring(f.PathToLeaf(px)) }

// AreaToScan maps an area of the leaf frame to scan pixels, for drawing and
// for counting pixels. Orientation of the rings is kept as areas want it.
func (f Frame) AreaToScan(a geom.Area) geom.Area {
	out := make(geom.Area, len(a))
	for i, ring := range a {
		r := make(geom.Ring, len(ring))
		for k, p := range ring {
			r[k] = f.ToScan(p)
		}
		if f.flips {
			r = r.Reverse()
		}
		out[i] = r
	}
	return out
}

// planeOf returns the calibration as a homography from pixels to the plane.
func planeOf(c Calibration) [9]float64 {
	if len(c.Homography) == 9 {
		return [9]float64(c.Homography)
	}
	return [9]float64{c.MMPerPxX, 0, 0, 0, c.MMPerPxY, 0, 0, 0, 1}
}

// project applies a homography. Points on its horizon come out infinite.
func project(h [9]float64, p geom.Pt) geom.Pt {
	w := h[6]*p.X + h[7]*p.Y + h[8]
	return geom.Pt{
		X: (h[0]*p.X + h[1]*p.Y + h[2]) / w,
		Y: (h[3]*p.X + h[4]*p.Y + h[5]) / w,
	}
}

// inverse inverts a homography by its adjugate.
func inverse(h [9]float64) ([9]float64, bool) {
	a := [9]float64{
		h[4]*h[8] - h[5]*h[7], h[2]*h[7] - h[1]*h[8], h[1]*h[5] - h[2]*h[4],
		h[5]*h[6] - h[3]*h[8], h[0]*h[8] - h[2]*h[6], h[2]*h[3] - h[0]*h[5],
		h[3]*h[7] - h[4]*h[6], h[1]*h[6] - h[0]*h[7], h[0]*h[4] - h[1]*h[3],
	}
	det := h[0]*a[0] + h[1]*a[3] + h[2]*a[6]
	if det == 0 || math.IsNaN(det) || math.IsInf(det, 0) {
		return h, false
	}
	for i := range a {
		a[i] /= det
	}
	return a, true
}

// markOf is what a leaf is called in labels and messages.
// sideWord names a side so that it can be said in another language.
func sideWord(s SideName) phrase.Phrase { return phrase.Of(string(s)) }

func markOf(l Leaf) string {
	if l.Mark != "" {
		return l.Mark
	}
	return l.ID
}
