package mendplan

import (
	"math"

	"leafmend/mendplan/geom"
)

// OnPicture returns the job with a side of a leaf on another picture of it:
// by maps scan pixels of the earlier picture to those of now. Traces, outline,
// true edge, scale and how the sides lie over one another go with it, so that
// every millimetre stays what it was. It is the one place where traces are
// rewritten, and done on the user's word alone; the step before it is the way
// back. A leaf that is not there, and a map that mirrors, is not finite or
// cannot be undone, is refused.
func (j Job) OnPicture(leafID string, name SideName, now Scan, by geom.Affine) (Job, bool) {
	leaf, ok := j.Leaf(leafID)
	back, err := by.Inverse()
	if !ok || err != nil || !finiteMap(by) || by.Det() < 1e-6 || by.Det() > 1e6 {
		return j, false
	}
	side := leaf.SideOf(name)
	corners, had := cornersOf(side)
	if by != geom.Identity() || now.Width != side.Scan.Width || now.Height != side.Scan.Height {
		if had { // the earlier picture's own corners lie elsewhere now
			side.TrueEdge = corners[:]
		}
	}
	side.TrueEdge, side.Outline = mappedBy(by, side.TrueEdge), mappedBy(by, side.Outline)
	side.Calibration = side.Calibration.onPicture(by, back)
	side.Scan = now
	over, laid := leaf.recordedOver()
	leaf = leaf.WithSide(name, side)
	if laid { // another scan of a side drops it
		if name == Front {
			over = over.Then(by)
		} else {
			over = back.Then(over)
		}
		leaf, _ = leaf.LaidOver(over) // still a mirror: by does not mirror
	}
	damages := make([]Damage, len(leaf.Damages))
	for i, d := range leaf.Damages {
		if d.Side == name {
			d.Points = mappedBy(by, d.Points)
			forks := make([][]geom.Pt, len(d.Forks))
			for k, f := range d.Forks {
				forks[k] = mappedBy(by, f)
			}
			if len(forks) > 0 {
				d.Forks = forks
			}
		}
		damages[i] = d
	}
	if len(damages) > 0 {
		leaf.Damages = damages
	}
	return j.WithLeaf(leaf), true
}

func finiteMap(a geom.Affine) bool {
	for _, v := range []float64{a.A, a.B, a.C, a.D, a.E, a.F} {
		if math.IsNaN(v) || math.Abs(v) > 1e7 {
			return false
		}
	}
	return true
}

func mappedBy(by geom.Affine, pts []geom.Pt) []geom.Pt {
	if by == geom.Identity() || len(pts) == 0 {
		return pts
	}
	out := make([]geom.Pt, len(pts))
	for i, p := range pts {
		out[i] = by.Apply(p)
	}
	return out
}

// onPicture is the calibration for pixels of another picture; back maps them
// to those it was made for.
func (c Calibration) onPicture(by, back geom.Affine) Calibration {
	c.Points = mappedBy(by, c.Points)
	if len(c.Homography) == 9 {
		h := c.Homography
		c.Homography = []float64{
			h[0]*back.A + h[1]*back.D, h[0]*back.B + h[1]*back.E, h[0]*back.C + h[1]*back.F + h[2],
			h[3]*back.A + h[4]*back.D, h[3]*back.B + h[4]*back.E, h[3]*back.C + h[4]*back.F + h[5],
			h[6]*back.A + h[7]*back.D, h[6]*back.B + h[7]*back.E, h[6]*back.C + h[7]*back.F + h[8],
		}
	}
	if c.MMPerPxX > 0 && c.MMPerPxY > 0 {
		x, y := c.MMPerPxX, c.MMPerPxY
		c.MMPerPxX = math.Hypot(back.A*x, back.D*y)
		c.MMPerPxY = math.Hypot(back.B*x, back.E*y)
	}
	return c
}

// Unanswered lists the problems that say a scan is not what its damages were
// traced on: what follows from those traces must not be cut before someone
// looked.
func Unanswered(problems []Problem) []Problem {
	var out []Problem
	for _, p := range problems {
		if p.Kind == ScanChanged {
			out = append(out, p)
		}
	}
	return out
}
