package leafview

import (
	"math"
	"slices"

	"leafmend/mendplan/geom"
)

// edge is one side of a polygon, running down.
type edge struct {
	top, end float64 // y
	x, slope float64 // x at top, and its change per y
}

// levels is how many lines of a pixel row an area is sampled on; along the
// row coverage is exact.
const levels = 4

// fill covers the area of rings, even-odd, with soft edges.
func (m *mask) fill(rings [][]geom.Pt) {
	m.gatherEdges(rings)
	if len(m.edges) == 0 {
		return
	}
	end := 0.0
	for _, e := range m.edges {
		end = math.Max(end, e.end)
	}
	first := max(m.clip.Min.Y, int(math.Floor(m.edges[0].top)))
	last := min(m.clip.Max.Y, int(math.Ceil(end)))
	next, live := 0, []edge(nil)
	for y := first; y < last; y++ {
		for next < len(m.edges) && m.edges[next].top < float64(y+1) {
			live = append(live, m.edges[next])
			next++
		}
		live = slices.DeleteFunc(live, func(e edge) bool { return e.end <= float64(y) })
		if len(live) > 0 {
			m.fillRow(y, live)
		}
	}
}

// gatherEdges lists the sides of the rings that can be seen, from the top.
func (m *mask) gatherEdges(rings [][]geom.Pt) {
	m.edges = m.edges[:0]
	for _, r := range rings {
		for i, a := range r {
			b := r[(i+1)%len(r)]
			if a.Y > b.Y {
				a, b = b, a
			}
			if a.Y == b.Y || b.Y <= float64(m.clip.Min.Y) || a.Y >= float64(m.clip.Max.Y) || !a.Finite() || !b.Finite() {
				continue
			}
			m.edges = append(m.edges, edge{a.Y, b.Y, a.X, (b.X - a.X) / (b.Y - a.Y)})
		}
	}
	slices.SortFunc(m.edges, func(a, b edge) int {
		switch {
		case a.top < b.top:
			return -1
		case a.top > b.top:
			return 1
		}
		return 0
	})
}

// fillRow samples one row on its levels, sums the coverage of each pixel and
// writes it.
func (m *mask) fillRow(y int, live []edge) {
	lo, hi := m.w, 0
	for k := range levels {
		v := float64(y) + (float64(k)+0.5)/levels
		m.cross = m.cross[:0]
		for _, e := range live {
			if v >= e.top && v < e.end {
				m.cross = append(m.cross, e.x+(v-e.top)*e.slope)
			}
		}
		slices.Sort(m.cross)
		for i := 0; i+1 < len(m.cross); i += 2 {
			a := math.Max(m.cross[i], 0)
			b := math.Min(m.cross[i+1], float64(m.w))
			if a < b {
				lo, hi = min(lo, int(a)), max(hi, min(m.w, int(b)+1))
				m.addSpan(a, b)
			}
		}
	}
	if lo >= hi {
		return
	}
	seen, past := max(lo, m.clip.Min.X), min(hi, m.clip.Max.X)
	if seen < past {
		m.touch(y, seen, past)
	}
	run := int32(0)
	row := m.pix[y*m.w:]
	for x := lo; x < hi; x++ {
		run += m.sum[x]
		m.sum[x] = 0
		if c := uint8(min(255, run*255/(levels*256))); c > row[x] && x >= seen && x < past {
			row[x] = c
		}
	}
	m.sum[hi], m.sum[hi+1] = 0, 0
}

// addSpan adds the span a…b of one level to the row's sums, which are
// differences: a running total gives coverage, 256 for a whole pixel.
func (m *mask) addSpan(a, b float64) {
	m.step(a, 1)
	m.step(b, -1)
}

// step adds a rise of the coverage at x: what of the pixel lies right of x at
// once, the rest from the next pixel on.
func (m *mask) step(x float64, sign int32) {
	i := int(x)
	part := int32(math.Round((1 - (x - float64(i))) * 256))
	m.sum[i] += sign * part
	m.sum[i+1] += sign * (256 - part)
}
