package leafview

import (
	"image"
	"math"
)

// mostParts is how many separate parts of a layer are painted anew at most;
// more are taken together.
const mostParts = 16

// deviceRect returns the whole pixels that a device rectangle touches.
func deviceRect(r Rect) image.Rectangle {
	down := func(v float64) int { return int(math.Floor(math.Max(-1e8, math.Min(1e8, v)))) }
	return image.Rect(down(r.Min.X), down(r.Min.Y), down(r.Max.X)+1, down(r.Max.Y)+1)
}

// gathered returns parts of the window that hold all of the given: those that
// lie close are joined, empty ones left out.
func gathered(parts []image.Rectangle, window image.Rectangle) []image.Rectangle {
	var out []image.Rectangle
	for _, r := range parts {
		if r = r.Intersect(window); !r.Empty() {
			out = joinIn(out, r)
		}
	}
	for len(out) > mostParts {
		last := out[len(out)-1]
		out = joinIn(out[:len(out)-2], out[len(out)-2].Union(last))
	}
	return out
}

// joinIn adds r to parts, joined with those where that paints little more.
func joinIn(parts []image.Rectangle, r image.Rectangle) []image.Rectangle {
	for i := 0; i < len(parts); {
		u := parts[i].Union(r)
		if size(u) > 5*(size(parts[i])+size(r))/4 {
			i++
			continue
		}
		r = u
		parts = append(parts[:i], parts[i+1:]...)
		i = 0
	}
	return append(parts, r)
}

func size(r image.Rectangle) int { return r.Dx() * r.Dy() }

// areaOf sums the pixels of parts.
func areaOf(parts []image.Rectangle) float64 {
	sum := 0
	for _, r := range parts {
		sum += size(r)
	}
	return float64(sum)
}

// copyRect copies the part r from one picture to another of the same size.
func copyRect(dst, src *image.RGBA, r image.Rectangle) {
	for y := r.Min.Y; y < r.Max.Y; y++ {
		i := dst.PixOffset(r.Min.X, y)
		copy(dst.Pix[i:i+4*r.Dx()], src.Pix[i:])
	}
}

// slid moves the pixels of a picture by whole pixels and returns the parts
// that have nothing to show now.
func slid(img *image.RGBA, dx, dy int) []image.Rectangle {
	w, h := img.Rect.Dx(), img.Rect.Dy()
	from, to := image.Rect(0, 0, w, h).Sub(image.Pt(dx, dy)).Intersect(img.Rect), image.Rect(0, 0, w, h).Add(image.Pt(dx, dy)).Intersect(img.Rect)
	for k := range to.Dy() {
		row := k
		if dy > 0 { // from the tail up, so that no row is taken after it was covered
			row = to.Dy() - 1 - k
		}
		src, dst := img.PixOffset(from.Min.X, from.Min.Y+row), img.PixOffset(to.Min.X, to.Min.Y+row)
		copy(img.Pix[dst:dst+4*to.Dx()], img.Pix[src:src+4*to.Dx()])
	}
	return around(img.Rect, to)
}

// around returns the parts of window that lie outside the part in.
func around(window, in image.Rectangle) []image.Rectangle {
	if in.Empty() {
		return []image.Rectangle{window}
	}
	var out []image.Rectangle
	for _, r := range []image.Rectangle{
		{window.Min, image.Pt(window.Max.X, in.Min.Y)},
		{image.Pt(window.Min.X, in.Max.Y), window.Max},
		{image.Pt(window.Min.X, in.Min.Y), image.Pt(in.Min.X, in.Max.Y)},
		{image.Pt(in.Max.X, in.Min.Y), image.Pt(window.Max.X, in.Max.Y)},
	} {
		if !r.Empty() {
			out = append(out, r)
		}
	}
	return out
}
