package leafview

import (
	"math"

	"leafmend/mendplan/geom"
)

// pattern thins a mask: the share, 0…255, of a device pixel that is inked.
// Patterns are anchored to the scan, so that they move with it, and their
// spacing is constant on the screen.
type pattern func(x, y int) uint8

// steps is how finely a hatch knows where between two lines a pixel lies.
const steps = 256

// hatch is parallel lines in a direction, degrees counter-clockwise as seen.
func hatch(anchor geom.Pt, deg, spacing, width float64) pattern {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	var table [steps]uint8
	for i := range table {
		d := (float64(i) + 0.5) / steps * spacing
		table[i] = soft(width/2 - math.Abs(d-spacing/2))
	}
	// Across the lines, with y down, runs (sin, cos). Whole turns of the
	// table are masked off, which does for negative places too.
	k := steps / spacing
	phase := (0.5*sin + 0.5*cos - anchor.X*sin - anchor.Y*cos) * k
	du, dv := sin*k, cos*k
	return func(x, y int) uint8 {
		return table[int(math.Floor(float64(x)*du+float64(y)*dv+phase))&(steps-1)]
	}
}

// crossHatch is two hatches at right angles, for any grain.
func crossHatch(anchor geom.Pt, spacing, width float64) pattern {
	a, b := hatch(anchor, 45, spacing, width), hatch(anchor, 135, spacing, width)
	return func(x, y int) uint8 { return max(a(x, y), b(x, y)) }
}

// dots is a staggered grid of round dots; the spacing is rounded to pixels.
func dots(anchor geom.Pt, spacing, radius float64) pattern {
	return tiled(anchor, spacing, func(u, v float64) float64 { return radius - math.Hypot(u, v) })
}

// strokes is a staggered grid of short level strokes.
func strokes(anchor geom.Pt, spacing, length, width float64) pattern {
	return tiled(anchor, spacing, func(u, v float64) float64 {
		return math.Min(length/2-math.Abs(u), width/2-math.Abs(v))
	})
}

// tiled repeats a mark, given as the distance inside its edge by the position
// from its middle, over a staggered grid: every second row moved by half a
// cell. It is worked out once for two rows and looked up from then on.
func tiled(anchor geom.Pt, spacing float64, mark func(u, v float64) float64) pattern {
	n := max(2, iround(spacing))
	tile := make([]uint8, 2*n*n)
	for y := range 2 * n {
		for x := range n {
			u, v := float64(x)+0.5, float64(y%n)+0.5-float64(n)/2
			if y >= n {
				u = math.Mod(u+float64(n)/2, float64(n))
			}
			tile[y*n+x] = soft(mark(u-float64(n)/2, v))
		}
	}
	ax, ay := iround(anchor.X), iround(anchor.Y)
	return func(x, y int) uint8 { return tile[wrap(y-ay, 2*n)*n+wrap(x-ax, n)] }
}

// wrap returns v modulo n, never negative.
func wrap(v, n int) int {
	if v %= n; v < 0 {
		v += n
	}
	return v
}

// soft turns a distance inside an edge, in pixels, into coverage.
func soft(d float64) uint8 {
	switch {
	case d <= -0.5:
		return 0
	case d >= 0.5:
		return 255
	}
	return uint8(255 * (d + 0.5))
}
