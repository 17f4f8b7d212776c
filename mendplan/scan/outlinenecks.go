package scan

// partsOverNecks is parts, but two bodies joined only by a neck narrower than
// 2r count as two: every pixel goes to the body it is nearest to within m, and
// what has no body at all is a part of its own. A body of fewer than least
// pixels goes with the first one it touches.
func (m *bitmap) partsOverNecks(r float64, least int) ([]int32, []part) {
	lab, bodies := m.open(r).parts()
	queue := make([]int, 0, len(m.on)/16)
	for i, v := range lab {
		if v > 0 {
			queue = append(queue, i)
		}
	}
	for k := 0; k < len(queue); k++ {
		i := queue[k]
		x := i % m.w
		for _, j := range [4]int{i - 1, i + 1, i - m.w, i + m.w} {
			if j < 0 || j >= len(m.on) || (j == i-1 && x == 0) || (j == i+1 && x == m.w-1) {
				continue
			}
			if m.on[j] && lab[j] == 0 {
				lab[j] = lab[i]
				queue = append(queue, j)
			}
		}
	}
	rest := newBitmap(m.w, m.h)
	for i, v := range m.on {
		rest.on[i] = v && lab[i] == 0
	}
	more, thin := rest.parts()
	for i, v := range more {
		if v > 0 {
			lab[i] = v + int32(len(bodies))
		}
	}
	all := m.measured(lab, len(bodies)+len(thin))
	m.joinSmall(lab, all, least)
	return lab, m.measured(lab, len(all))
}

// joinSmall gives the labels of bodies of fewer than least pixels to the first
// larger one they touch.
func (m *bitmap) joinSmall(lab []int32, all []part, least int) {
	to := make([]int32, len(all)+1)
	for i, v := range lab {
		if v == 0 {
			continue
		}
		for _, j := range [2]int{i + 1, i + m.w} {
			if j >= len(lab) || (j == i+1 && j%m.w == 0) || lab[j] == 0 || lab[j] == v {
				continue
			}
			a, b := v, lab[j]
			if all[a-1].n > all[b-1].n {
				a, b = b, a
			}
			if all[a-1].n < least && to[a] == 0 {
				to[a] = b
			}
		}
	}
	for i, v := range lab {
		for n := 0; v > 0 && to[v] > 0 && n < len(to); n++ {
			v = to[v]
		}
		lab[i] = v
	}
}

// measured takes the measures of n parts from their labels.
func (m *bitmap) measured(lab []int32, n int) []part {
	out := make([]part, n)
	for k := range out {
		out[k] = part{id: k + 1, x0: m.w, y0: m.h, x1: -1, y1: -1, first: -1}
	}
	for i, v := range lab {
		if v > 0 {
			b := &out[v-1]
			if b.first < 0 {
				b.first = i
			}
			b.note(i%m.w, i/m.w)
		}
	}
	for k := range out {
		if n := float64(out[k].n); n > 0 {
			out[k].cx, out[k].cy = out[k].cx/n, out[k].cy/n
		}
	}
	return out
}
