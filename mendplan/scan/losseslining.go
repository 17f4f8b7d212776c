package scan

// tornCore is how wide, in mm to each side of its middle, the bared white core
// along a torn edge may be; it is no lining.
const tornCore = 0.75

// linings finds the places at the edges where an earlier lining, guard or
// repair shows inside the outline: an even patch of another colour that
// touches the edge of the leaf and ends sharply.
func (s *lossScene) linings() []patch {
	s.ink, s.odd = s.readInk(), s.strange()
	atEdge := func(q *patch) bool {
		return q.nearEdge && q.even <= 0.4*q.step && q.step >= 9 && !s.looksInked(q)
	}
	if s.paper.share < 0.45 {
		return nil // too little bare paper to say what is foreign to it
	}
	var out []patch
	total := 0.0
	for _, q := range s.patches(s.odd, atEdge) {
		area := s.patchArea(&q)
		if area < leastEdgeLoss || float64(q.touch) < 1.5*s.mm || q.hard < 0.5 || q.round < 0.07 || q.radius < tornCore || s.taped(&q) {
			continue
		}
		total += area
		out = append(out, q)
	}
	if leaf := float64(s.leaf.count()) / (s.mm * s.mm); total > 0.2*leaf {
		return nil // rather a picture printed to the edge
	}
	out = ofOneColour(out)
	for _, q := range out {
		s.lining = append(s.lining, q.colour)
	}
	return out
}

const leastTape = 40.0 // mm² of tape or label; smaller bits are not told apart

// taped reports that a patch is the leaf's own paper under old tape or a label:
// cut straight on all sides, or written on. A lining shows where the leaf is
// torn away, and the writing with it.
func (s *lossScene) taped(q *patch) bool {
	if s.patchArea(q) < leastTape {
		return false
	}
	full := q.m.fillHoles()
	_, box := boxOf(hull(q.m.contour(q.first)))
	if n := float64(full.count()); n > 0.86*box {
		return true
	}
	inner, marked, n := full.shrinkBy(max(2, 0.4*s.mm)), 0, 0
	for j, v := range inner.on {
		if !v {
			continue
		}
		x, y := q.at(j)
		n++
		if c := s.paper.smooth.at(y*s.work.w + x); c.l < q.colour.l-6 && c.dist(q.colour) > max(9, 0.6*q.step) {
			marked++
		}
	}
	return float64(marked) > 0.03*float64(n)
}

// looksInked reports that a patch has the colour of the writing.
func (s *lossScene) looksInked(q *patch) bool {
	return s.ink.have && q.colour.dist(s.ink.c) < 0.3*q.step
}

// ofOneColour keeps the patches near the colour that covers most: a lining is
// one paper, while what is printed to an edge has many colours.
func ofOneColour(all []patch) []patch {
	best, most := 0, 0
	for i := range all {
		n := 0
		for j := range all {
			if all[i].colour.dist(all[j].colour) < 16 {
				n += all[j].n
			}
		}
		if n > most {
			best, most = i, n
		}
	}
	var out []patch
	for i := range all {
		if all[i].colour.dist(all[best].colour) < 16 {
			out = append(out, all[i])
		}
	}
	return out
}
