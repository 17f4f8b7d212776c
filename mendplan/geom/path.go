package geom

// Length returns the length of l, 0 for fewer than two points.
func (l Path) Length() float64 {
	sum := 0.0
	for i := 1; i < len(l); i++ {
		sum += l[i-1].Dist(l[i])
	}
	return sum
}

// Bounds returns the smallest box that holds l.
func (l Path) Bounds() Box { return BoundsOf(l) }

// Reverse returns l from its end to its beginning.
func (l Path) Reverse() Path { return Path(reversed(l)) }

// At returns the point of l at arc length s from its beginning, s being held
// to [0, Length]. For an empty path it returns the zero point.
func (l Path) At(s float64) Pt {
	if len(l) == 0 {
		return Pt{}
	}
	for i := 1; i < len(l); i++ {
		d := l[i-1].Dist(l[i])
		if s <= d && d > 0 {
			return l[i-1].Lerp(l[i], max(0, s/d))
		}
		s -= d
	}
	return l[len(l)-1]
}

// Cut returns the stretch of l between the arc lengths s0 and s1, both held
// to [0, Length]. When s1 is the smaller, the stretch runs backwards. Equal
// ends give a path of one point, an empty path stays empty.
func (l Path) Cut(s0, s1 float64) Path {
	if len(l) == 0 {
		return nil
	}
	if s1 < s0 {
		return l.Cut(s1, s0).Reverse()
	}
	out := Path{l.At(s0)}
	at := 0.0
	for i := 1; i < len(l); i++ {
		at += l[i-1].Dist(l[i])
		if at >= s1 {
			break
		}
		if at > s0 && l[i] != out[len(out)-1] {
			out = append(out, l[i])
		}
	}
	if end := l.At(s1); end != out[len(out)-1] {
		out = append(out, end)
	}
	return out
}

// Nearest returns the distance from p to l and the arc length s at which l
// comes that near; the first such place if there are several. An empty path
// is infinitely far away.
func (l Path) Nearest(p Pt) (dist, s float64) {
	if len(l) == 0 {
		return inf, 0
	}
	dist = p.Dist(l[0])
	at := 0.0
	for i := 1; i < len(l); i++ {
		q, t := nearestOn(l[i-1], l[i], p)
		length := l[i-1].Dist(l[i])
		if d := p.Dist(q); d < dist {
			dist, s = d, at+t*length
		}
		at += length
	}
	return dist, s
}
