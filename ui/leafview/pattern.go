package leafview

import (
	"math"

	"leafmend/mendplan/geom"
)

// pattern thins a mask: the share, 0…255, of a device pixel that is inked.
// Patterns are anchored to the scan, so that they move with it, and their
// spacing is constant on the screen.
type pattern func(x, y int) uint8

// hatch is parallel lines in a direction, degrees counter-clockwise as seen.
func hatch(anchor geom.Pt, deg, spacing, width float64) pattern {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	// Across the lines, with y down, runs (sin, cos).
	phase := anchor.X*sin + anchor.Y*cos
	return func(x, y int) uint8 {
		d := (float64(x)+0.5)*sin + (float64(y)+0.5)*cos - phase
		d -= spacing * math.Floor(d/spacing)
		return soft(width/2 - math.Abs(d-spacing/2))
	}
}

// crossHatch is two hatches at right angles, for any grain.
func crossHatch(anchor geom.Pt, spacing, width float64) pattern {
	a, b := hatch(anchor, 45, spacing, width), hatch(anchor, 135, spacing, width)
	return func(x, y int) uint8 { return max(a(x, y), b(x, y)) }
}

// dots is a staggered grid of round dots.
func dots(anchor geom.Pt, spacing, radius float64) pattern {
	return func(x, y int) uint8 {
		u, v := cell(float64(x)+0.5-anchor.X, float64(y)+0.5-anchor.Y, spacing)
		return soft(radius - math.Hypot(u, v))
	}
}

// strokes is a staggered grid of short level strokes.
func strokes(anchor geom.Pt, spacing, length, width float64) pattern {
	return func(x, y int) uint8 {
		u, v := cell(float64(x)+0.5-anchor.X, float64(y)+0.5-anchor.Y, spacing)
		return soft(math.Min(length/2-math.Abs(u), width/2-math.Abs(v)))
	}
}

// cell returns the position within a cell of a staggered grid, from its
// middle: every second row is moved by half a cell.
func cell(x, y, size float64) (u, v float64) {
	row := math.Floor(y / size)
	if int64(row)&1 != 0 {
		x += size / 2
	}
	return x - size*math.Floor(x/size) - size/2, y - size*row - size/2
}

// soft turns a distance inside an edge, in pixels, into coverage.
func soft(d float64) uint8 { return uint8(255 * math.Max(0, math.Min(1, d+0.5))) }
