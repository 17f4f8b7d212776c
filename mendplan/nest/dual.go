package nest

import (
	"math"
	"slices"
)

// sheetBound is a number of sheets of w × h that are needed at the least.
// Sizes are replaced by others of which no more fit together than of the
// true ones (dual feasible functions; Fekete and Schepers, "New classes of
// fast lower bounds for bin packing problems", Mathematical Programming 91,
// 2001); the area of what results bounds the number of sheets.
func (g *group) sheetBound(w, h int32) int {
	var ws, hs []int32
	for i := range g.pieces {
		p := &g.pieces[i]
		ws, hs = append(ws, p.w), append(hs, p.h)
		if p.free {
			ws, hs = append(ws, p.h), append(hs, p.w)
		}
	}
	fw, fh := scales(ws, w), scales(hs, h)
	best := 0.0
	for _, a := range fw {
		for _, b := range fh {
			best = max(best, g.scaled(a, b, w, h))
		}
	}
	return int(math.Ceil(best - 1e-7))
}

// scaled is the area of all blanks in sheets, after scaling; a blank that may
// be turned counts with the lesser of its two.
func (g *group) scaled(a, b scale, w, h int32) float64 {
	sum := 0.0
	for i := range g.pieces {
		p := &g.pieces[i]
		v := math.Inf(1)
		if p.w <= w && p.h <= h {
			v = a.at(p.w) * b.at(p.h)
		}
		if p.free && p.h <= w && p.w <= h {
			v = min(v, a.at(p.h)*b.at(p.w))
		}
		if !math.IsInf(v, 1) {
			sum += v * float64(p.count)
		}
	}
	return sum
}

// scale is a dual feasible function on lengths up to full: whenever lengths
// add up to no more than full, their scaled values add up to at most 1.
type scale struct {
	full int64
	mode byte  // 0 plain, 1 threshold, 2 rounded
	by   int64 // the threshold, or the divisor
}

func (s scale) at(x32 int32) float64 {
	x := int64(x32)
	switch s.mode {
	case 1: // long ones count as whole, short ones not at all
		switch {
		case x > s.full-s.by:
			return 1
		case x < s.by:
			return 0
		}
	case 2: // round (k+1)·x/full down, unless it is whole
		n := (s.by + 1) * x
		if n%s.full == 0 {
			return float64(x) / float64(s.full)
		}
		return float64(n/s.full) / float64(s.by)
	case 3: // Martello and Vigo: of those over half count the ones under by that fit beside
		if 2*x > s.full {
			return 1 - float64((s.full-x)/s.by)/float64(s.full/s.by)
		}
		return float64(x/s.by) / float64(s.full/s.by)
	}
	return float64(x) / float64(s.full)
}

// scales are the functions tried for lengths within full.
func scales(lengths []int32, full int32) []scale {
	f := int64(full)
	out := []scale{{full: f}}
	slices.Sort(lengths)
	lengths = slices.Compact(lengths)
	step := 1 + len(lengths)/24 // enough, and quick for many sizes
	for i := 0; i < len(lengths); i += step {
		l := int64(lengths[i])
		if 2*l <= f {
			out = append(out, scale{f, 1, l}, scale{f, 3, l})
		} else if f-l+1 <= f/2 && f-l >= 0 {
			out = append(out, scale{f, 1, f - l + 1})
		}
	}
	for k := int64(1); k <= 5; k++ {
		out = append(out, scale{f, 2, k})
	}
	return out
}
