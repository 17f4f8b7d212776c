package geom

import (
	"math"
	"testing"
)

// shapesFrom reads points from bytes, two to a point, on a lattice whose step
// the first byte chooses: from single grid steps, where everything ties, to
// millimetres. The second byte moves every other point off the lattice.
func shapesFrom(data []byte) Ring {
	if len(data) < 2 {
		return nil
	}
	step := Grid * math.Pow(4, float64(data[0]%9))
	off := Grid * float64(data[1]%7)
	var r Ring
	for i := 2; i+1 < len(data) && len(r) < 120; i += 2 {
		p := Pt{float64(int8(data[i])) * step, float64(int8(data[i+1])) * step}
		if len(r)%2 == 1 {
			p = p.Add(Pt{off, -2 * off})
		}
		r = append(r, p)
	}
	return r
}

func seeds(f *testing.F, add func(data []byte)) {
	for _, s := range []string{
		"", "\x00\x00", "\x05\x00aAbBcCdD", "\x00\x01\x01\x02\x03\xff\xfe\x80\x7f\x05\x06\x07\x00\x00",
		"\x03\x02the quick brown fox jumps over the lazy dog and back again",
		"\x08\x00\x00\x00\x0a\x00\x0a\x0a\x00\x0a\x00\x00\x0a\x00\x0a\x0a\x00\x0a",
		"\x01\x03\x00\x00\x05\x05\x00\x0a\x0a\x0a\x05\x05\x0a\x00\xf0\x05\x07\x05",
	} {
		add([]byte(s))
	}
}

func FuzzFromRing(f *testing.F) {
	seeds(f, func(d []byte) { f.Add(d) })
	f.Fuzz(func(t *testing.T, data []byte) {
		r := shapesFrom(data)
		nodes, links := nodedRing(gridFor(reach(r)).ring(r))
		for _, fault := range append(checkNoding(nodes, links), checkWindings(nodes, links, 3)...) {
			t.Fatal(fault)
		}
		a := FromRing(r)
		checkArea(t, a)
		box := r.Bounds()
		for k := range 60 { // a low-discrepancy scatter over the bounds
			p := Pt{
				box.Min.X + box.Width()*math.Mod(0.5+float64(k)*0.7548776662, 1),
				box.Min.Y + box.Height()*math.Mod(0.5+float64(k)*0.5698402909, 1),
			}
			if DistToRing(p, r) > 0.05 && a.Contains(p) != r.Contains(p) {
				t.Fatalf("%v: wound around %v, in the area %v", p, r.Contains(p), a.Contains(p))
			}
		}
	})
}

func FuzzOverlay(f *testing.F) {
	seeds(f, func(d []byte) { f.Add(d, d, int16(1000)); f.Add(d, []byte("\x06\x02zyxwvutsrq"), int16(-7)) })
	f.Fuzz(func(t *testing.T, one, two []byte, shift int16) {
		a := FromRing(shapesFrom(one))
		b := Translate(Pt{float64(shift) * Grid, 0}).ApplyArea(FromRing(shapesFrom(two)))
		u, n, d := Union(a, b), Intersect(a, b), Subtract(a, b)
		for _, r := range []Area{u, n, d} {
			checkArea(t, r)
		}
		tol := 2*roundingArea(a, b) + minDoubled*Grid*Grid*float64(len(a)+len(b)+len(u)+len(n)+len(d))
		near(t, "A(a∪b)+A(a∩b)−A(a)−A(b)", u.Area()+n.Area()-a.Area()-b.Area(), 0, tol)
		near(t, "A(a−b)−A(a)+A(a∩b)", d.Area()-a.Area()+n.Area(), 0, tol)
	})
}

func FuzzBuffer(f *testing.F) {
	seeds(f, func(d []byte) { f.Add(d, uint16(3000)); f.Add(d, uint16(20)) })
	f.Fuzz(func(t *testing.T, data []byte, microns uint16) {
		l, r := Path(shapesFrom(data)), float64(microns)*Grid
		if r > 0 && r < 20*Grid {
			r = 20 * Grid // smaller discs count as slivers and are dropped
		}
		b := Buffer(r, l)
		if len(l) == 0 || r == 0 {
			if !b.Empty() {
				t.Fatal("a buffer of nothing")
			}
			return
		}
		checkArea(t, b)
		box := l.Bounds().Expand(1.2 * r)
		for k := range 60 {
			p := Pt{
				box.Min.X + box.Width()*math.Mod(0.5+float64(k)*0.7548776662, 1),
				box.Min.Y + box.Height()*math.Mod(0.5+float64(k)*0.5698402909, 1),
			}
			if k%2 == 1 { // right at the edge
				q := l.At(l.Length() * float64(k) / 60)
				p = q.Add(Direction(137.508 * float64(k)).Mul(r + BufferTol*1.01*float64(k%3)))
			}
			d := DistToPath(p, l)
			if in := b.Contains(p); d <= r && !in || d > r+BufferTol+pinhole && in {
				t.Fatalf("a point at %.5f of r=%g is inside: %v", d, r, in)
			}
		}
		for _, p := range b.Points() {
			if d := DistToPath(p, l); d > r+BufferTol || d < r {
				t.Fatalf("a corner stands at %.5f of r=%g", d, r)
			}
		}
	})
}

// pinhole is the radius of the largest hole that is filled as a sliver.
const pinhole = 0.018

func FuzzOffset(f *testing.F) {
	seeds(f, func(d []byte) { f.Add(d, int16(1500)); f.Add(d, int16(-40)) })
	f.Fuzz(func(t *testing.T, data []byte, microns int16) {
		a, d := FromRing(shapesFrom(data)), float64(microns)*Grid
		got := Offset(a, d)
		checkArea(t, got)
		if d < 0 && got.Area() > a.Area() || d > 0 && got.Area() < a.Area() {
			t.Fatalf("offset by %g takes the area from %g to %g", d, a.Area(), got.Area())
		}
		checkArea(t, SimplifyOut(a, 0.2))
		smooth := SmoothOut(a, 0.5)
		checkArea(t, smooth)
		if lost := Subtract(a, smooth).Area(); lost > 0 {
			t.Fatalf("%g mm² are lost on smoothing", lost)
		}
	})
}
