package sampledata_test

import (
	"bytes"
	"math"
	"testing"

	"leafmend/sampledata/draw"
)

// inside reports whether p lies in the ring, by counting crossings.
func inside(ring []draw.Pt, p draw.Pt) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}

// clear is the distance from p to the nearest side of the ring.
func clear(ring []draw.Pt, p draw.Pt) float64 {
	best := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		dx, dy := b.X-a.X, b.Y-a.Y
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = max(0, min(1, ((p.X-a.X)*dx+(p.Y-a.Y)*dy)/l))
		}
		best = min(best, math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy))
	}
	return best
}

// isBacking tells paper from backing by what the two backings look like:
// near black, or grey without colour.
func isBacking(b draw.Backing, r, g, bl float64) bool {
	if b == draw.GreyFelt {
		return r < 165 && math.Abs(r-bl) < 22
	}
	return r < 75 && g < 75 && bl < 75
}

func TestThePicturesShowWhatTheTruthSays(t *testing.T) {
	const px = 300 / 25.4
	for _, scan := range truths(t) {
		colour := displayed(t, scan)
		share := func(points []draw.Pt) float64 {
			n := 0
			for _, p := range points {
				if r, g, b := colour(p); isBacking(scan.Backing, r, g, b) {
					n++
				}
			}
			return float64(n) / float64(len(points))
		}
		for i, loss := range scan.Losses {
			if p := spread(loss.Ring, 0.7*px, true); len(p) > 0 && share(p) < 0.95 {
				t.Errorf("%s: only %.0f %% of loss %d shows the backing", scan.File, 100*share(p), i)
			}
		}
		leaf := spread(scan.Outline, 3*px, false)
		if len(leaf) < 1000 {
			t.Fatalf("%s: the outline holds only %d points", scan.File, len(leaf))
		}
		if s := share(leaf); s > 0.12 { // print is dark too
			t.Errorf("%s: %.0f %% of the leaf looks like backing", scan.File, 100*s)
		}
		for i, tear := range scan.Tears {
			if s := share(gaping(tear.Path)); s < 0.4 {
				t.Errorf("%s: only %.0f %% of the open part of tear %d shows the backing", scan.File, 100*s, i)
			}
		}
	}
}

// spread returns points inside the ring and far enough from its sides: all
// within a fine grid, or a coarse one.
func spread(ring []draw.Pt, away float64, fine bool) []draw.Pt {
	lo, hi := ring[0], ring[0]
	for _, p := range ring {
		lo, hi = draw.Pt{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}, draw.Pt{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	step := 29.0
	if fine {
		step = 3
	}
	var out []draw.Pt
	for y := lo.Y; y <= hi.Y; y += step {
		for x := lo.X; x <= hi.X; x += step {
			if p := (draw.Pt{X: x, Y: y}); inside(ring, p) && clear(ring, p) > away {
				out = append(out, p)
			}
		}
	}
	return out
}

// gaping returns points along the first third of a tear, where it is open.
func gaping(path []draw.Pt) []draw.Pt {
	total := 0.0
	for i := 1; i < len(path); i++ {
		total += math.Hypot(path[i].X-path[i-1].X, path[i].Y-path[i-1].Y)
	}
	var out []draw.Pt
	for i, done := 1, 0.0; i < len(path) && done < total/3; i++ {
		a, b := path[i-1], path[i]
		l := math.Hypot(b.X-a.X, b.Y-a.Y)
		for s := 0.0; s < l; s++ {
			out = append(out, draw.Pt{X: a.X + s/l*(b.X-a.X), Y: a.Y + s/l*(b.Y-a.Y)})
		}
		done += l
	}
	return out
}

// side returns a map from pixels to millimetres of the side frame, from the
// corners of the true edge, which span a rectangle.
func side(scan draw.Truth) func(p draw.Pt) draw.Pt {
	o, x, y := scan.TrueEdge[0], scan.TrueEdge[1], scan.TrueEdge[3]
	return func(p draw.Pt) draw.Pt {
		along := func(e draw.Pt, mm float64) float64 {
			dx, dy := e.X-o.X, e.Y-o.Y
			return ((p.X-o.X)*dx + (p.Y-o.Y)*dy) / (dx*dx + dy*dy) * mm
		}
		return draw.Pt{X: along(x, scan.LeafMM[0]), Y: along(y, scan.LeafMM[1])}
	}
}

func TestTheBackMirrorsTheFront(t *testing.T) {
	all := truths(t)
	for i := 0; i < len(all); i += 2 {
		front, back := all[i], all[i+1]
		f, b := side(front), side(back)
		same := func(what string, p, q []draw.Pt) {
			t.Helper()
			if len(p) == 0 || len(q) == 0 {
				t.Fatalf("leaf %s: a %s has no points", front.Leaf, what)
			}
			for _, v := range p { // thinning may keep other points: compare with the line
				v = f(v)
				v.X = front.LeafMM[0] - v.X
				best := math.Inf(1)
				for k := 1; k < len(q); k++ {
					best = min(best, clear([]draw.Pt{b(q[k-1]), b(q[k])}, v))
				}
				if best > 0.15 {
					t.Errorf("leaf %s: a point of a %s lies %.2f mm off on the back", front.Leaf, what, best)
				}
			}
		}
		if len(front.Losses) != len(back.Losses) || len(front.Tears) != len(back.Tears) {
			t.Fatalf("leaf %s has other damages on its back", front.Leaf)
		}
		for k := range front.Losses {
			same("loss", front.Losses[k].Ring, append(back.Losses[k].Ring, back.Losses[k].Ring[0]))
		}
		for k := range front.Tears {
			same(front.Tears[k].Kind, front.Tears[k].Path, back.Tears[k].Path)
		}
	}
}

// The leaf as it is and what is missing at its edges make up the rectangle:
// closed form, width times height.
func TestOutlineAndEdgeLossesFillTheLeaf(t *testing.T) {
	for _, spec := range draw.Programme(300) {
		for _, scan := range draw.Know(spec) {
			mm := 25.4 / scan.DPI
			sum := ringArea(scan.Outline) * mm * mm
			for _, loss := range scan.Losses {
				if loss.Kind != "hole" {
					sum += ringArea(loss.Ring) * mm * mm
				}
			}
			if want := spec.WidthMM * spec.HeightMM; math.Abs(sum-want) > 6 {
				t.Errorf("leaf %s %s: %.1f mm², want %.1f", scan.Leaf, scan.Side, sum, want)
			}
		}
	}
}

func ringArea(ring []draw.Pt) float64 {
	sum := 0.0
	for i, p := range ring {
		q := ring[(i+1)%len(ring)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}

func TestTheSameSpecGivesTheSamePixels(t *testing.T) {
	spec := draw.Programme(40)[1]
	a, b, _ := draw.Leaf(spec)
	c, d, _ := draw.Leaf(spec)
	if !bytes.Equal(a.Pix, c.Pix) || !bytes.Equal(b.Pix, d.Pix) {
		t.Error("two drawings of one leaf differ")
	}
	spec.Seed++
	if e, _, _ := draw.Leaf(spec); bytes.Equal(a.Pix, e.Pix) {
		t.Error("another seed gives the same leaf")
	}
}

// The kept scan, averaged over 4 × 4 pixels, is the leaf drawn at 75 ppi.
func TestTheKeptScansAreThoseOfTheGenerator(t *testing.T) {
	front, _, _ := draw.Leaf(draw.Programme(75)[2])
	scan := truths(t)[4]
	colour := displayed(t, scan)
	sum, n := 0.0, 0
	for y := 4; y < front.Rect.Dy()-4; y += 3 {
		for x := 4; x < front.Rect.Dx()-4; x += 3 {
			mean := 0.0
			for k := range 16 {
				r, _, _ := colour(draw.Pt{X: float64(4*x + k%4), Y: float64(4*y + k/4)})
				mean += r / 16
			}
			sum += math.Abs(mean - float64(front.RGBAAt(x, y).R))
			n++
		}
	}
	if off := sum / float64(n); off > 3 {
		t.Errorf("the kept scan differs by %.1f grey steps on average: run go run ./sampledata/generate", off)
	}
}
